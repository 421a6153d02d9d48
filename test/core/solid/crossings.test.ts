import fc from 'fast-check';
import { expect, it } from 'vitest';
import { inspectMesh } from '../../../core/solid/index.js';
import { selfCrossings } from '../../helpers/crossings.js';
import { weldedFrom } from '../../helpers/expect-sound.js';

/**
 * Triangles between the points of a small grid touch, cross and lie in one plane far more often than those of
 * parts do. The independent check decides whether they do.
 */
const point = fc.tuple(fc.nat(3), fc.nat(3), fc.nat(2));
type Point = readonly [number, number, number];
const hasArea = ([a, b, c]: readonly Point[]): boolean => {
  const [u, v] = [b!, c!].map((q) => [q[0] - a![0], q[1] - a![1], q[2] - a![2]] as const) as [Point, Point];
  return u[1] * v[2] !== u[2] * v[1] || u[2] * v[0] !== u[0] * v[2] || u[0] * v[1] !== u[1] * v[0];
};
const triangle = fc.tuple(point, point, point).filter(hasArea);
const few = fc.array(triangle, { minLength: 2, maxLength: 5 });

/** The grid as it is, stretched so that float32 rounds it, and turned out of all axes. */
const shapes: readonly [string, (p: Point) => Point][] = [
  ['on the axes', (p) => p],
  ['far off the origin and stretched', ([x, y, z]) => [1000 + x / 3, y * 0.7 - 40, z * 1e-3]],
  [
    'turned out of the axes',
    ([x, y, z]) => [0.36 * x + 0.48 * y - 0.8 * z, -0.8 * x + 0.6 * y, 0.48 * x + 0.64 * y + 0.6 * z],
  ],
  [
    'sheared by great whole numbers: exact planes whose products doubles must round',
    ([x, y, z]) => [
      2097143 * x + 1048573 * z,
      1299709 * y - 999983 * x,
      611953 * z + 2750159 * y - 1998893 * x,
    ],
  ],
  ['sheared by whole numbers: exact planes, off the axes', ([x, y, z]) => [x + 2 * z, y - x, z + 3 * y - x]],
];

it.each(shapes)('crossings are found, and only those: grid %s (seed 7)', (_, place) => {
  let crossing = 0;
  let clear = 0;
  fc.assert(
    fc.property(few, (triangles) => {
      const corners = triangles.flat().map(place);
      const mesh = {
        positions: Float32Array.from(corners.flat()),
        triangles: Uint32Array.from(corners.keys()),
      };
      const report = inspectMesh(mesh);
      // Rounding may lay three points on one line; what has no area is told as such, not compared.
      if (report.degenerateTriangles > 0) return;
      const crosses = selfCrossings(weldedFrom(mesh)).length > 0;
      if (crosses) crossing++;
      else clear++;
      expect(report.selfIntersections > 0).toBe(crosses);
    }),
    { seed: 7, numRuns: 4000 },
  );
  expect(crossing).toBeGreaterThan(200);
  expect(clear).toBeGreaterThan(200);
});
