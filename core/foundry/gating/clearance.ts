/** Least horizontal distances between upright paths: both rise steadily, so each is a function of height. */
import { maths } from '../../maths/maths.js';
import type { Vec2, Vec3 } from '../../solid/types.js';
import { sprueRadius } from './sprue.js';

/** A polyline whose points rise strictly. */
export type RisingPath = readonly Vec3[];

/** Where the path is at height z, which is clamped to its ends. */
export const pointAt = (path: RisingPath, z: number): Vec2 => {
  const first = path[0]!;
  if (z <= first[2]) return [first[0], first[1]];
  for (let i = 1; i < path.length; i++) {
    const a = path[i - 1]!;
    const b = path[i]!;
    if (z <= b[2]) {
      const f = (z - a[2]) / (b[2] - a[2]);
      return [a[0] + f * (b[0] - a[0]), a[1] + f * (b[1] - a[1])];
    }
  }
  const last = path[path.length - 1]!;
  return [last[0], last[1]];
};

const knots = (heights: readonly number[], low: number, high: number): readonly number[] =>
  [low, ...heights.filter((z) => z > low && z < high), high].sort((a, b) => a - b);

/** Least distance of the two centre lines at any height both reach, mm; Infinity where there is none. */
export const pathDistance = (a: RisingPath, b: RisingPath): number => {
  const low = Math.max(a[0]![2], b[0]![2]);
  const high = Math.min(a[a.length - 1]![2], b[b.length - 1]![2]);
  if (low > high) return Number.POSITIVE_INFINITY;
  const heights = knots(
    [...a, ...b].map((p) => p[2]),
    low,
    high,
  );
  let least = Number.POSITIVE_INFINITY;
  // The difference of two straight pieces is straight: its distance from zero is that of a segment from a point.
  for (let i = 1; i < heights.length; i++) {
    least = Math.min(
      least,
      segmentDistance(difference(a, b, heights[i - 1]!), difference(a, b, heights[i]!)),
    );
  }
  return least;
};

const difference = (a: RisingPath, b: RisingPath, z: number): Vec2 => {
  const [p, q] = [pointAt(a, z), pointAt(b, z)];
  return [p[0] - q[0], p[1] - q[1]];
};

/** Distance of the origin from the segment p–q. */
const segmentDistance = (p: Vec2, q: Vec2): number => {
  const [dx, dy] = [q[0] - p[0], q[1] - p[1]];
  const squared = dx * dx + dy * dy;
  const f = squared === 0 ? 0 : Math.min(1, Math.max(0, -(p[0] * dx + p[1] * dy) / squared));
  return maths.hypot(p[0] + f * dx, p[1] + f * dy);
};

/** Least horizontal distance from the path to the revolved outline (heights above `axis`), mm; Infinity where it passes under. */
export const sprueDistance = (path: RisingPath, axis: Vec3, outline: readonly Vec2[]): number => {
  const low = Math.max(path[0]![2], axis[2]);
  const high = path[path.length - 1]![2];
  if (low > high) return Number.POSITIVE_INFINITY;
  const heights = knots([...path.map((p) => p[2]), ...outline.map((p) => p[1] + axis[2])], low, high);
  const gap = (z: number): number => {
    const [x, y] = pointAt(path, z);
    return maths.hypot(x - axis[0], y - axis[1]) - sprueRadius(outline, z - axis[2]);
  };
  let least = Number.POSITIVE_INFINITY;
  for (let i = 1; i < heights.length; i++)
    least = Math.min(least, leastOfConvex(gap, heights[i - 1]!, heights[i]!));
  return least;
};

/** Between knots the gap is a norm of a straight piece less a linear radius: convex, so a ternary search finds its least. */
const leastOfConvex = (f: (z: number) => number, low: number, high: number): number => {
  let [a, b] = [low, high];
  for (let i = 0; i < 60 && b - a > 1e-9; i++) {
    const [p, q] = [a + (b - a) / 3, b - (b - a) / 3];
    if (f(p) < f(q)) b = q;
    else a = p;
  }
  return Math.min(f(low), f(high), f((a + b) / 2));
};
