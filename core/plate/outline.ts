import { planeHull } from '../solid/plane-hull.js';
import type { Polygon, Vec2 } from '../solid/types.js';
import { turnOf } from './turn.js';

/** Closed paths as x, y, x, y …, mm: quicker to go through than points. */
export type Paths = readonly Float64Array[];

export interface Bounds {
  readonly minX: number;
  readonly minY: number;
  readonly maxX: number;
  readonly maxY: number;
}

export const pathsOf = (polygons: readonly Polygon[]): Paths =>
  polygons.filter((p) => p.length > 2).map((p) => Float64Array.from(p.flat()));

export function turnPaths(paths: Paths, turn: number): Paths {
  const [c, s] = turnOf(turn);
  return paths.map((path) => {
    const out = new Float64Array(path.length);
    for (let i = 0; i < path.length; i += 2) {
      const x = path[i]!;
      const y = path[i + 1]!;
      out[i] = c * x - s * y;
      out[i + 1] = s * x + c * y;
    }
    return out;
  });
}

export function boundsOf(paths: Paths): Bounds {
  let minX = Number.POSITIVE_INFINITY;
  let minY = Number.POSITIVE_INFINITY;
  let maxX = Number.NEGATIVE_INFINITY;
  let maxY = Number.NEGATIVE_INFINITY;
  for (const path of paths) {
    for (let i = 0; i < path.length; i += 2) {
      minX = Math.min(minX, path[i]!);
      maxX = Math.max(maxX, path[i]!);
      minY = Math.min(minY, path[i + 1]!);
      maxY = Math.max(maxY, path[i + 1]!);
    }
  }
  return { minX, minY, maxX, maxY };
}

/** mm², holes (clockwise) taken off. */
export function areaOf(paths: Paths): number {
  let twice = 0;
  for (const path of paths) {
    let [x0, y0] = [path[path.length - 2]!, path[path.length - 1]!];
    for (let i = 0; i < path.length; i += 2) {
      const x = path[i]!;
      const y = path[i + 1]!;
      twice += x0 * y - x * y0;
      x0 = x;
      y0 = y;
    }
  }
  return twice / 2;
}

/** Corners of the convex hull, counter-clockwise. */
export function hullOf(paths: Paths): Float64Array {
  const points: Vec2[] = [];
  for (const path of paths) {
    for (let i = 0; i < path.length; i += 2) points.push([path[i]!, path[i + 1]!]);
  }
  return Float64Array.from(planeHull(points).flat());
}

/**
 * Fewer corners for the same shape, and how far at most the two boundaries lie apart, mm (0 where only corners on
 * straight lines were left out). Source: D. Douglas and T. Peucker, 1973.
 */
export function simplifyPaths(paths: Paths, tolerance: number): { paths: Paths; error: number } {
  let error = 0;
  const out = paths.map((path) => {
    const n = path.length / 2;
    if (n <= 8) return path;
    const keep = new Uint8Array(n);
    // Two corners far apart cut the ring into two chains.
    let far = 0;
    let farthest = -1;
    for (let i = 1; i < n; i++) {
      const d = (path[2 * i]! - path[0]!) ** 2 + (path[2 * i + 1]! - path[1]!) ** 2;
      if (d > farthest) [far, farthest] = [i, d];
    }
    keep[0] = 1;
    keep[far] = 1;
    const stack = [
      [0, far],
      [far, n],
    ];
    for (let chain = stack.pop(); chain !== undefined; chain = stack.pop()) {
      const [from, to] = chain as [number, number];
      let worst = -1;
      let at = -1;
      for (let i = from + 1; i < to; i++) {
        const d = distanceToSegment(path[2 * i]!, path[2 * i + 1]!, path, from, to % n);
        if (d > worst) [worst, at] = [d, i];
      }
      if (worst > tolerance) {
        keep[at] = 1;
        stack.push([from, at], [at, to]);
      } else if (worst > 1e-9) error = Math.max(error, worst);
    }
    const kept: number[] = [];
    for (let i = 0; i < n; i++) if (keep[i]) kept.push(path[2 * i]!, path[2 * i + 1]!);
    return kept.length < 6 ? path : Float64Array.from(kept);
  });
  return { paths: out, error };
}

function distanceToSegment(x: number, y: number, path: Float64Array, a: number, b: number): number {
  const ax = path[2 * a]!;
  const ay = path[2 * a + 1]!;
  const dx = path[2 * b]! - ax;
  const dy = path[2 * b + 1]! - ay;
  const length = dx * dx + dy * dy;
  const t = length === 0 ? 0 : Math.min(1, Math.max(0, ((x - ax) * dx + (y - ay) * dy) / length));
  const [ex, ey] = [x - ax - t * dx, y - ay - t * dy];
  return Math.sqrt(ex * ex + ey * ey);
}
