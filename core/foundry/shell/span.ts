/** Least width of points in a plane, and their extent across it. */
import { maths } from '../../maths/maths.js';
import type { Vec3 } from '../../solid/types.js';

/**
 * The narrowest strip that holds the points, mm, and their length along it: one side of it lies along a side of their
 * hull (Freeman & Shapira, CACM 18 (1975), for the like rectangle of least area). A hole in the middle does not
 * narrow it.
 * @param points in one plane, three at least
 * @param normal of the plane, of length 1
 */
export function spanOf(
  points: readonly Vec3[],
  normal: Vec3,
): { readonly width: number; readonly length: number } {
  const flat = hull(points.map(projector(normal)));
  let best = { width: Number.POSITIVE_INFINITY, length: 0 };
  flat.forEach(([ax, ay], i) => {
    const [bx, by] = flat[(i + 1) % flat.length]!;
    const side = maths.hypot(bx - ax, by - ay);
    if (side < 1e-9) return;
    const [ux, uy] = [(bx - ax) / side, (by - ay) / side];
    const extent = (dx: number, dy: number): number => {
      const along = flat.map(([x, y]) => x * dx + y * dy);
      return Math.max(...along) - Math.min(...along);
    };
    const width = extent(-uy, ux);
    if (width < best.width) best = { width, length: extent(ux, uy) };
  });
  return best.width === Number.POSITIVE_INFINITY
    ? { width: 0, length: 0 }
    : { width: Math.min(best.width, best.length), length: Math.max(best.width, best.length) };
}

type Point = readonly [number, number];

/** Onto two directions square to the normal. */
function projector([x, y, z]: Vec3): (point: Vec3) => Point {
  const helper: Vec3 = Math.abs(x) < 0.7 ? [1, 0, 0] : [0, 1, 0];
  const cross = ([a, b, c]: Vec3, [d, e, f]: Vec3): Vec3 => [b * f - c * e, c * d - a * f, a * e - b * d];
  const raw = cross([x, y, z], helper);
  const length = maths.hypot(...raw);
  const u: Vec3 = [raw[0] / length, raw[1] / length, raw[2] / length];
  const v = cross([x, y, z], u);
  return (p) => [p[0] * u[0] + p[1] * u[1] + p[2] * u[2], p[0] * v[0] + p[1] * v[1] + p[2] * v[2]];
}

/** Convex hull, counter-clockwise (Andrew's monotone chain, Information Processing Letters 9 (1979)). */
function hull(points: readonly Point[]): readonly Point[] {
  const sorted = [...points].sort((a, b) => a[0] - b[0] || a[1] - b[1]);
  const half = (list: readonly Point[]): Point[] => {
    const chain: Point[] = [];
    for (const p of list) {
      while (chain.length > 1 && turn(chain.at(-2)!, chain.at(-1)!, p) <= 0) chain.pop();
      chain.push(p);
    }
    chain.pop();
    return chain;
  };
  return [...half(sorted), ...half([...sorted].reverse())];
}

const turn = (o: Point, a: Point, b: Point): number =>
  (a[0] - o[0]) * (b[1] - o[1]) - (a[1] - o[1]) * (b[0] - o[0]);
