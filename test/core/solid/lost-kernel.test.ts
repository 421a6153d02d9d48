/**
 * A shape that is more than WebAssembly's memory holds breaks the kernel off in the middle, as `Manifold.sphere(1, 40_000)`
 * does after seconds and gigabytes; here a trap of WebAssembly stands in for that.
 */
import { describe, expect, test, vi } from 'vitest';
import type { Engine } from '../../../core/solid/engine.js';
import { loadKernel } from '../../../core/solid/index.js';

const engines: Engine[] = [];
vi.mock('../../../core/solid/engine.js', async (original) => {
  const real = await original<typeof import('../../../core/solid/engine.js')>();
  const loadEngine: typeof real.loadEngine = async (options) => {
    const engine = await real.loadEngine(options);
    engines.push(engine);
    return engine;
  };
  return { ...real, loadEngine };
});

/** (func (export "f") unreachable) */
const bytes = [
  0, 97, 115, 109, 1, 0, 0, 0, 1, 4, 1, 96, 0, 0, 3, 2, 1, 0, 7, 5, 1, 1, 102, 0, 0, 10, 5, 1, 3, 0, 0, 11,
];
const trap = new WebAssembly.Instance(new WebAssembly.Module(Uint8Array.from(bytes))).exports
  .f as () => never;
const lost = expect.objectContaining({ name: 'SolidError', code: 'kernel-lost' });

describe('a kernel that has ended', () => {
  test('says so, and again whatever is asked of it, and is not used for anything else', async () => {
    const kernel = await loadKernel();
    const unit = (by = kernel) => by.scope(() => by.box([0, 0, 0], [1, 1, 1]).volume());
    expect(unit()).toBe(1);
    expect(await loadKernel()).toBe(kernel);
    engines[0]!.wasm.Manifold.sphere = trap;
    const lethal = () =>
      kernel.scope(() =>
        kernel
          .box([0, 0, 0], [1, 1, 1])
          .add(kernel.sphere([0, 0, 0], 1, 0.1))
          .volume(),
      );
    expect(lethal).toThrow(lost);
    expect(() => unit()).toThrow(lost);
    const [next, same] = await Promise.all([loadKernel(), loadKernel()]);
    expect([next === kernel, same === next, engines.length]).toEqual([false, true, 2]);
    expect(unit(next)).toBe(1);
    expect(() => unit()).toThrow(lost);
  });

  test('is noticed where nothing watches the call', async () => {
    const kernel = await loadKernel();
    expect(() => kernel.scope(trap)).toThrow(lost);
    expect(await loadKernel()).not.toBe(kernel);
  });

  test('is not what a mesh that is refused or an endless recursion of the step leaves', async () => {
    const kernel = await loadKernel();
    const open = {
      positions: Float32Array.of(0, 0, 0, 1, 0, 0, 0, 1, 0),
      triangles: Uint32Array.of(0, 1, 2),
    };
    expect(() => kernel.scope(() => kernel.fromMesh(open).volume())).toThrow(
      expect.objectContaining({ code: 'bad-mesh' }),
    );
    const endless = (n: number): number => endless(n + 1) + 1;
    expect(() => kernel.scope(() => endless(0))).toThrow(RangeError);
    expect(await loadKernel()).toBe(kernel);
  });
});
