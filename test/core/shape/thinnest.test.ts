import { beforeAll, describe, expect, it } from 'vitest';
import {
  holeCutter,
  measureThinnest,
  placeTool,
  plateSolid,
  rectangleOutline,
} from '../../../core/shape/index.js';
import { loadKernel } from '../../../core/solid/index.js';
import type { Kernel, Mesh, Solid } from '../../../core/solid/types.js';

let kernel: Kernel;
beforeAll(async () => {
  kernel = await loadKernel();
});
const meshOf = (make: () => Solid): Mesh => kernel.scope(() => make().mesh());

describe('measureThinnest', () => {
  it('a box: its least side; no gap', () => {
    const { wall, gap } = measureThinnest(meshOf(() => kernel.box([0, 0, 0], [40, 30, 3])));
    expect(wall?.thickness).toBeCloseTo(3, 6);
    expect(gap).toBeNull();
  });

  it('a slot in a block: the web under it and its width', () => {
    const block = (): Solid =>
      kernel.box([0, 0, 0], [40, 30, 20]).subtract(kernel.box([10, -1, 2.5], [14.2, 31, 21]));
    const { wall, gap } = measureThinnest(meshOf(block));
    expect(wall?.thickness).toBeCloseTo(2.5, 5);
    expect(gap?.thickness).toBeCloseTo(4.2, 5);
    expect(gap?.at[0] === 10 || Math.abs((gap?.at[0] ?? 0) - 14.2) < 1e-5).toBe(true);
  });

  it('a hole beside an edge: the web, R off by the chords only; the hole is a gap unless left out', () => {
    const plate = (): Solid =>
      plateSolid(kernel, { outline: rectangleOutline([0, 0], 60, 20, 4), z0: 0, z1: 12 }, 0.005).subtract(
        placeTool(
          holeCutter(kernel, { kind: 'plain', diameter: 8, depth: 12 }, 0.005)!,
          [0, 4, 12],
          [0, 0, 1],
        ),
      );
    const mesh = meshOf(plate);
    const { wall, gap } = measureThinnest(mesh, { spacing: 0.5 });
    // Edge at y = 10, hole to y = 8: 2 mm, and at most a chord more.
    expect(wall?.thickness).toBeGreaterThan(2 - 1e-5);
    expect(wall?.thickness).toBeLessThan(2 + 0.02);
    expect(gap?.thickness).toBeGreaterThan(8 - 0.06);
    expect(gap?.thickness).toBeLessThan(8.001);
    const left = measureThinnest(mesh, { except: ([x, y]) => Math.hypot(x, y - 4) < 4.1 });
    expect(left.gap).toBeNull();
    expect(left.wall?.thickness).toBeCloseTo(12, 5);
  });

  it('two spheres with a gap between, and within: 2 r and the least distance', () => {
    const two = (): Solid => kernel.sphere([0, 0, 0], 10, 0.005).add(kernel.sphere([17, 0, 0], 6, 0.005));
    const { wall, gap } = measureThinnest(meshOf(two), { spacing: 0.3 });
    expect(wall?.thickness).toBeGreaterThan(12 - 0.02);
    expect(wall?.thickness).toBeLessThan(12.001);
    expect(gap?.thickness).toBeGreaterThan(1 - 1e-6);
    expect(gap?.thickness).toBeLessThan(1.02);
  });

  it('a knife edge of 40° is all but nothing; edges of 80° are not measured', () => {
    const rhombus = (angle: number): Mesh => {
      const [c, s] = [20 * Math.cos(angle), 20 * Math.sin(angle)];
      return meshOf(() =>
        kernel.extrude(
          [
            [
              [0, 0],
              [20, 0],
              [20 + c, s],
              [c, s],
            ],
          ],
          0,
          30,
        ),
      );
    };
    expect(measureThinnest(rhombus((40 * Math.PI) / 180)).wall?.thickness).toBeLessThan(0.5);
    const blunt = (80 * Math.PI) / 180;
    expect(measureThinnest(rhombus(blunt)).wall?.thickness).toBeCloseTo(20 * Math.sin(blunt), 4);
  });
});
