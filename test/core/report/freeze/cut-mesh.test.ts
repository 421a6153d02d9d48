import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { cutMesh } from '../../../../core/report/freeze/cut-mesh.js';
import { loadKernel } from '../../../../core/solid/kernel.js';
import type { Vec2 } from '../../../../core/solid/types.js';

const kernel = await loadKernel();
const cylinder = kernel.scope(() => kernel.frustum([3, -2], 0, 10, 24, 10, 0.002).mesh());
const tube = kernel.scope(() =>
  kernel
    .frustum([0, 0], 0, 12, 20, 12, 0.005)
    .subtract(kernel.frustum([0, 0], -1, 5, 21, 5, 0.005))
    .mesh(),
);

/** mm², signed by the way round. */
const area = (loop: readonly Vec2[]): number =>
  loop.reduce((sum, [x, y], i) => {
    const [nx, ny] = loop[(i + 1) % loop.length]!;
    return sum + (x * ny - nx * y) / 2;
  }, 0);
const areaOf = (loops: readonly (readonly Vec2[])[]): number =>
  Math.abs(loops.reduce((s, l) => s + area(l), 0));

describe('an upright cut', () => {
  test('a cylinder at any distance from its axis, in any direction: chord times height (seed 6)', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -9.5, max: 9.5, noNaN: true }),
        fc.double({ min: -7, max: 7, noNaN: true }),
        (d, turn) => {
          const through: Vec2 = [3 - d * Math.sin(turn), -2 + d * Math.cos(turn)];
          const loops = cutMesh(cylinder, { through, direction: turn });
          expect(loops).toHaveLength(1);
          // The mesh lies between the cylinder and one smaller by the tolerance; a little for float32 corners.
          const slice = (r: number): number => 2 * Math.sqrt(r * r - d * d) * 24;
          expect(areaOf(loops)).toBeLessThan(slice(10) + 0.01);
          expect(areaOf(loops)).toBeGreaterThan(slice(10 - 0.002) - 0.01);
        },
      ),
      { seed: 6, numRuns: 60 },
    );
  });

  test('a tube through its axis: two walls, closed outlines, even through corners of the mesh', () => {
    const loops = cutMesh(tube, { through: [0, 0], direction: 0 });
    expect(loops).toHaveLength(2);
    expect(areaOf(loops)).toBeCloseTo(2 * 7 * 20, 1);
    const [low, high] = [Math.min, Math.max].map((f) => f(...loops.flat().map(([u]) => u)));
    expect([low, high].map((v) => Math.round(v! * 100) / 100)).toEqual([-12, 12]);
  });

  test('past the body: nothing', () => {
    expect(cutMesh(tube, { through: [0, 13], direction: 0 })).toEqual([]);
  });
});
