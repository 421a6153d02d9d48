import { expect, it } from 'vitest';
import { loadKernel } from '../../../core/solid/index.js';

/** Keeps hold of the WASM memories that are made, to read their size; the kernel does not show its own. */
function watchMemories(): WebAssembly.Memory[] {
  const memories: WebAssembly.Memory[] = [];
  const { instantiate } = WebAssembly;
  const watched = async (source: BufferSource, imports?: WebAssembly.Imports) => {
    const made = await instantiate(source, imports);
    for (const item of Object.values(made.instance.exports))
      if (item instanceof WebAssembly.Memory) memories.push(item);
    return made;
  };
  WebAssembly.instantiate = watched as typeof instantiate;
  return memories;
}

it('a thousand parts in one process: the WASM heap is after the last as it was after the first hundred', async () => {
  const memories = watchMemories();
  const kernel = await loadKernel();
  expect(memories).toHaveLength(1);
  const heap = (): number => memories[0]!.buffer.byteLength;
  // Every operation that makes a WASM object, and one refusal, since an error must free what went before it too.
  const part = (i: number): number =>
    kernel.scope(() => {
      const body = kernel.sphere([0, 0, 0], 10 + (i % 7), 0.3);
      const drilled = body
        .subtract(kernel.frustum([i % 3, 0], -30, 3, 30, 2, 0.3), kernel.box([-30, -30, -30], [30, 30, -5]))
        .rotate('x', i % 5)
        .translate([i % 11, 0, 0])
        .scale(1.02)
        .mirror([0, 1, 0]);
      const square = [0, 1, 2].map((z) => ({
        points: [
          [20, 0, z],
          [25, 0, z],
          [25, 5, z],
          [20, 5, z],
        ] as const,
      }));
      const all = kernel.union([
        drilled,
        kernel.loft(square),
        kernel.hull([kernel.box([30, 0, 0], [31, 1, 1])]),
      ]);
      const pieces = all.components().length + all.slice(1).length + all.projection().length;
      expect(() => kernel.scope(() => body.subtract(body))).toThrow('left nothing');
      return pieces + all.mesh().triangles.length + all.massProperties().volume;
    });
  let settled = 0;
  for (let i = 0; i < 1000; i++) {
    expect(part(i)).toBeGreaterThan(0);
    if (i === 99) settled = heap();
  }
  // The heap never shrinks; a leak of one 40 kB sphere in each part would more than fill it.
  expect(heap()).toBe(settled);
}, 240_000);
