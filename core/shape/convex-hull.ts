import { orient3d } from 'robust-predicates';
import type { Mesh, Vec3 } from '../solid/types.js';
import { cross, lengthOf, minus } from './vector.js';

/**
 * The convex hull of points, corner by corner, the outermost first; null where they lie in a plane. Which sides a point
 * sees is decided exactly, so that the hull is closed whatever the points. `positions` are the points as given; a point
 * on a side is no corner.
 */
export function convexHull(points: readonly Vec3[]): Mesh | null {
  const start = startTetrahedron(points);
  if (!start) return null;
  const [a, b, c, d] = start;
  let sides: Side[] = [
    [a, b, c],
    [a, c, d],
    [a, d, b],
    [b, d, c],
  ];
  for (const q of outermostFirst(points)) {
    const unseen: Side[] = [];
    const seen: Side[] = [];
    for (const side of sides) (sees(points, side, q) ? seen : unseen).push(side);
    if (seen.length === 0) continue;
    const edges = new Set(seen.flatMap(([i, j, k]) => [`${i},${j}`, `${j},${k}`, `${k},${i}`]));
    for (const [i, j, k] of seen)
      for (const [from, to] of [
        [i, j],
        [j, k],
        [k, i],
      ] as const)
        if (!edges.has(`${to},${from}`)) unseen.push([from, to, q]);
    sides = unseen;
  }
  return { positions: Float32Array.from(points.flat()), triangles: Uint32Array.from(sides.flat()) };
}

/** Counter-clockwise seen from outside. */
type Side = readonly [number, number, number];

/** Whether a point lies outside a side's plane. */
function sees(points: readonly Vec3[], [i, j, k]: Side, q: number): boolean {
  const [a, b, c, p] = [points[i]!, points[j]!, points[k]!, points[q]!];
  // Positive where the fourth point lies on the side from which the others run clockwise.
  return orient3d(...a, ...b, ...c, ...p) < 0;
}

/** By distance from the middle: what comes late is mostly inside. */
function outermostFirst(points: readonly Vec3[]): readonly number[] {
  const middle = [0, 1, 2].map((k) => points.reduce((sum, p) => sum + p[k]!, 0) / points.length);
  const far = points.map((p) => p.reduce((sum, v, k) => sum + (v - middle[k]!) ** 2, 0));
  return Array.from(points.keys()).sort((i, j) => far[j]! - far[i]! || i - j);
}

/** Four points out of one plane, a b c counter-clockwise seen from the side where d is not. */
function startTetrahedron(points: readonly Vec3[]): [number, number, number, number] | null {
  if (points.length < 4) return null;
  const a = 0;
  const farthest = (measure: (q: number) => number): number => {
    let [best, most] = [0, -1];
    for (let q = 0; q < points.length; q++) {
      const m = measure(q);
      if (m > most) [best, most] = [q, m];
    }
    return best;
  };
  const from = (q: number): Vec3 => minus(points[q]!, points[a]!);
  const b = farthest((q) => lengthOf(from(q)));
  const c = farthest((q) => lengthOf(cross(from(b), from(q))));
  const across = cross(from(b), from(c));
  const d = farthest((q) => {
    const [x, y, z] = from(q);
    return Math.abs(across[0] * x + across[1] * y + across[2] * z);
  });
  if (orient3d(...points[a]!, ...points[b]!, ...points[c]!, ...points[d]!) === 0) return null;
  return sees(points, [a, b, c], d) ? [a, c, b, d] : [a, b, c, d];
}
