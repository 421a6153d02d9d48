import fc from 'fast-check';
import { beforeAll, expect, test } from 'vitest';
import { convexHull } from '../../../core/shape/convex-hull.js';
import { loadKernel, measureMesh } from '../../../core/solid/index.js';
import type { Kernel, Vec3 } from '../../../core/solid/types.js';

let kernel: Kernel;
beforeAll(async () => {
  kernel = await loadKernel();
});

const coordinate = fc.integer({ min: -500, max: 500 }).map((v) => v / 10);
const point = fc.tuple(coordinate, coordinate, coordinate) as fc.Arbitrary<Vec3>;

test('no point lies outside it, and its volume is that of the kernel’s hull of small boxes at the points', () => {
  fc.assert(
    fc.property(fc.array(point, { minLength: 4, maxLength: 40 }), (points) => {
      const hull = convexHull(points);
      if (hull === null) return;
      const { positions: p, triangles: t } = hull;
      const at = (v: number): Vec3 => [p[3 * v]!, p[3 * v + 1]!, p[3 * v + 2]!];
      const { volume, area } = measureMesh(hull);
      expect(volume).toBeGreaterThan(0);
      for (let f = 0; f < t.length; f += 3) {
        const [a, b, c] = [at(t[f]!), at(t[f + 1]!), at(t[f + 2]!)];
        const [u, v] = [b, c].map((q) => q.map((x, k) => x - a[k]!)) as unknown as [Vec3, Vec3];
        const n = [u[1] * v[2] - u[2] * v[1], u[2] * v[0] - u[0] * v[2], u[0] * v[1] - u[1] * v[0]];
        const length = Math.hypot(...n);
        if (length < 1e-6) continue;
        const out = points.map((q) => n.reduce((sum, x, k) => sum + (x / length) * (q[k]! - a[k]!), 0));
        expect(Math.max(...out)).toBeLessThan(1e-4);
      }
      const half = 1e-3;
      const other = kernel.scope(() =>
        kernel
          .hull(
            points.map((q) =>
              kernel.box(
                q.map((x) => x - half) as unknown as Vec3,
                q.map((x) => x + half) as unknown as Vec3,
              ),
            ),
          )
          .volume(),
      );
      // Grown by a box, a hull gains at most its area times the box's half diagonal, and its edges' and corners' share.
      expect(other - volume).toBeGreaterThan(-1e-3);
      expect(other - volume).toBeLessThan(area * half * 2 + 1);
    }),
    { seed: 2605, numRuns: 200 },
  );
});

test('there is none of points in a plane', () => {
  expect(
    convexHull([
      [0, 0, 0],
      [1, 0, 0],
      [0, 1, 0],
      [1, 1, 0],
    ]),
  ).toBeNull();
  expect(
    convexHull([
      [0, 0, 0],
      [1, 1, 1],
      [2, 2, 2],
      [3, 3, 3],
    ]),
  ).toBeNull();
});
