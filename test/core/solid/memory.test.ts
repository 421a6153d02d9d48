import { expect, it } from 'vitest';
import { loadKernel } from '../../../core/solid/index.js';
import type { Vec2, Vec3 } from '../../../core/solid/types.js';

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
  // Many points: lists of them that a binding leaves behind are what leaks first.
  const ring = Array.from({ length: 250 }, (_, i): Vec2 => {
    const a = (2 * Math.PI * i) / 250;
    return [25 + 4 * Math.cos(a), 4 * Math.sin(a)];
  });
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
      const level = (z: number) => ({ points: ring.map(([x, y]): Vec3 => [x, y, z]) });
      const drum = kernel.loft([level(0), level(1)]);
      kernel.extrude([ring], 2, 3);
      kernel.revolve(
        ring.filter((_, k) => k % 20 === 0),
        1,
      );
      const all = kernel.union([drilled, kernel.hull([kernel.box([30, 0, 0], [31, 1, 1])])]);
      const pieces =
        all.components().length + all.slice(0.5).length + drum.slice(0.5).length + all.projection().length;
      expect(() => kernel.scope(() => body.subtract(body))).toThrow('left nothing');
      return pieces + drilled.mesh().triangles.length + drilled.massProperties().volume;
    });
  let settled = 0;
  for (let i = 0; i < 1000; i++) {
    expect(part(i)).toBeGreaterThan(0);
    if (i === 99) settled = heap();
  }
  // The heap never shrinks; lists of 250 points left behind come to more than 10 MB.
  expect(heap()).toBe(settled);
});
