import type { VentPlace } from '../../part/contract.js';
import type { Mesh, Vec3 } from '../../solid/types.js';
import type { Cavity } from './cavity.js';
import type { FoundPocket } from './pockets.js';
import { topFlat } from './tops.js';

/** How far the surface may fall away under a vent's foot, mm: half of what the foot is sunk. */
const fall = 0.2;

/** Mould left between a vent and what of the part stands beside it, mm. */
const wall = 1;

type Point = readonly [number, number];

/**
 * The best place for a vent on the top of a pocket: on its flat, as wide as fits up to `largest`, under open mould, and
 * among the widest the nearest to the middle. Null where not even `least` fits. Upright cavities only.
 */
export function placeVent(
  name: string,
  pocket: FoundPocket,
  cavity: Cavity,
  pattern: Mesh,
  range: { readonly least: number; readonly largest: number },
): VentPlace | null {
  const { triangles: t } = cavity.mesh;
  const flats = topFlat(cavity, pocket.peak, fall);
  const corner = (k: number): Point => [cavity.plan[2 * t[k]!]!, cavity.plan[2 * t[k]! + 1]!];
  const rim = rimOf(flats, t).map(([a, b]) => [corner(a), corner(b)] as const);
  const middle: Point = [pocket.at[0], pocket.at[1]];
  const step = Math.max(1, Math.floor(flats.length / 300));
  const tried: Point[] = flats
    .filter((_, i) => i % step === 0)
    .map((f) => {
      const [a, b, c] = [corner(3 * f), corner(3 * f + 1), corner(3 * f + 2)];
      return [(a[0] + b[0] + c[0]) / 3, (a[1] + b[1] + c[1]) / 3];
    });
  if (flats.some((f) => isIn(middle, corner(3 * f), corner(3 * f + 1), corner(3 * f + 2))))
    tried.unshift(middle);
  const top = cavity.heights[pocket.peak]!;
  let best: { readonly at: Point; readonly room: number } | null = null;
  for (const at of tried) {
    let room = range.largest / 2;
    for (const [a, b] of rim) room = Math.min(room, distance(at, a, b));
    if (2 * room < range.least || (best && room < best.room + 1e-3)) continue;
    const clear = Math.min(room, roomUnderMould(at, top, pattern, room) - wall);
    if (2 * clear >= range.least && (!best || clear > best.room + 1e-3)) best = { at, room: clear };
  }
  if (!best) return null;
  const at: Vec3 = [best.at[0], best.at[1], top];
  return { name, at, footDiameter: 2 * best.room };
}

/** Edges, as corners, that only one of the triangles has. */
function rimOf(flats: readonly number[], t: Uint32Array): readonly (readonly [number, number])[] {
  const edges = new Map<string, readonly [number, number] | null>();
  for (const f of flats)
    for (let k = 0; k < 3; k++) {
      const [a, b] = [3 * f + k, 3 * f + ((k + 1) % 3)];
      const key = t[a]! < t[b]! ? `${t[a]} ${t[b]}` : `${t[b]} ${t[a]}`;
      edges.set(key, edges.has(key) ? null : [a, b]);
    }
  return [...edges.values()].flatMap((e) => (e ? [e] : []));
}

/** Least distance in plan to anything of the part above `top`, as far as `reach` and the wall. */
function roomUnderMould(at: Point, top: number, { positions: p, triangles: t }: Mesh, reach: number): number {
  let least = reach + wall;
  for (let f = 0; f < t.length; f += 3) {
    const [i, j, k] = [3 * t[f]!, 3 * t[f + 1]!, 3 * t[f + 2]!];
    if (p[i + 2]! <= top + 0.05 && p[j + 2]! <= top + 0.05 && p[k + 2]! <= top + 0.05) continue;
    const [a, b, c]: Point[] = [
      [p[i]!, p[i + 1]!],
      [p[j]!, p[j + 1]!],
      [p[k]!, p[k + 1]!],
    ] as [Point, Point, Point];
    if (isIn(at, a!, b!, c!)) return 0;
    least = Math.min(least, distance(at, a!, b!), distance(at, b!, c!), distance(at, c!, a!));
  }
  return least;
}

const isIn = (p: Point, a: Point, b: Point, c: Point): boolean => {
  const side = (q: Point, r: Point): number => (r[0] - q[0]) * (p[1] - q[1]) - (r[1] - q[1]) * (p[0] - q[0]);
  const [x, y, z] = [side(a, b), side(b, c), side(c, a)];
  return (x > 0 && y > 0 && z > 0) || (x < 0 && y < 0 && z < 0);
};

const distance = (p: Point, a: Point, b: Point): number => {
  const [dx, dy] = [b[0] - a[0], b[1] - a[1]];
  const squared = dx * dx + dy * dy;
  const f = squared === 0 ? 0 : Math.max(0, Math.min(1, ((p[0] - a[0]) * dx + (p[1] - a[1]) * dy) / squared));
  return Math.hypot(p[0] - a[0] - f * dx, p[1] - a[1] - f * dy);
};
