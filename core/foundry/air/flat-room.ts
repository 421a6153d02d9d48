import { maths } from '../../maths/maths.js';
import type { Mesh } from '../../solid/types.js';
import type { Cavity } from './cavity.js';
import { topFlat } from './tops.js';

export type Point = readonly [number, number];

/** How far the surface may fall away under a vent's foot, mm: half of what the foot is sunk. */
const fall = 0.2;

/** Mould left between a vent and what of the part stands beside it, mm. */
const wall = 1;

/** The flat at a top in plan, and what room it has for a vent. Upright cavities only. */
export interface TopFlat {
  readonly height: number;
  readonly triangles: readonly (readonly [Point, Point, Point])[];
  /** Numbers of the triangles in the mesh. */
  readonly numbers: readonly number[];
  /** Which triangle holds the point; −1 for none. */
  readonly holding: (at: Point) => number;
  /** Radius of the largest circle about a point within the flat, at most `reach`. */
  readonly roomAt: (at: Point, reach: number) => number;
  /** The part of it that matters to points in a square about another. */
  readonly within: (middle: Point, far: number) => Pick<TopFlat, 'holding' | 'roomAt'>;
  /** The same under open mould with a wall beside it. */
  readonly clearAt: (at: Point, reach: number) => number;
}

export function flatAt(cavity: Cavity, peak: number, pattern: Mesh): TopFlat {
  const { triangles: t } = cavity.mesh;
  const numbers = topFlat(cavity, peak, fall);
  const corner = (k: number): Point => [cavity.plan[2 * t[k]!]!, cavity.plan[2 * t[k]! + 1]!];
  const rim = rimOf(numbers, t).map(([a, b]) => [corner(a), corner(b)] as const);
  const triangles = numbers.map((f) => [corner(3 * f), corner(3 * f + 1), corner(3 * f + 2)] as const);
  const height = cavity.heights[peak]!;
  const among = (
    sides: readonly (readonly [Point, Point])[],
    tiles: TopFlat['triangles'],
  ): Pick<TopFlat, 'holding' | 'roomAt'> => ({
    holding: (at) => tiles.findIndex(([a, b, c]) => isIn(at, a, b, c)),
    roomAt: (at, reach) => {
      let room = reach;
      for (const [a, b] of sides) room = Math.min(room, distance(at, a, b));
      return room;
    },
  });
  const whole = among(rim, triangles);
  let overhead: TopFlat['triangles'] | undefined;
  return {
    ...whole,
    height,
    numbers,
    triangles,
    within: (middle, far) =>
      among(
        rim.filter((side) => isNear(side, middle, far)),
        triangles.filter((tile) => isNear(tile, middle, far)),
      ),
    clearAt: (at, reach) => {
      const room = whole.roomAt(at, reach);
      overhead ??= overheadOf(height, pattern);
      return Math.min(room, roomUnderMould(at, overhead, room) - wall);
    },
  };
}

/** Whether the box round some points comes within a square about another. */
const isNear = (points: readonly Point[], [x, y]: Point, far: number): boolean =>
  [x, y].every((m, k) => points.some((p) => p[k]! >= m - far) && points.some((p) => p[k]! <= m + far));

/** Edges, as corners, that only one of the triangles has. */
function rimOf(flats: readonly number[], t: Uint32Array): readonly (readonly [number, number])[] {
  const edges = new Map<number, readonly [number, number] | null>();
  for (const f of flats)
    for (let k = 0; k < 3; k++) {
      const [a, b] = [3 * f + k, 3 * f + ((k + 1) % 3)];
      const [p, q] = [t[a]!, t[b]!];
      const key = Math.min(p, q) * 2 ** 26 + Math.max(p, q);
      edges.set(key, edges.has(key) ? null : [a, b]);
    }
  return [...edges.values()].flatMap((e) => (e ? [e] : []));
}

/** What of the part stands above a height, in plan. */
const overheadOf = (top: number, { positions: p, triangles: t }: Mesh): TopFlat['triangles'] => {
  const found: [Point, Point, Point][] = [];
  for (let f = 0; f < t.length; f += 3) {
    const [i, j, k] = [3 * t[f]!, 3 * t[f + 1]!, 3 * t[f + 2]!];
    if (p[i + 2]! <= top + 0.05 && p[j + 2]! <= top + 0.05 && p[k + 2]! <= top + 0.05) continue;
    found.push([
      [p[i]!, p[i + 1]!],
      [p[j]!, p[j + 1]!],
      [p[k]!, p[k + 1]!],
    ]);
  }
  return found;
};

/** Least distance in plan to anything overhead, as far as `reach` and the wall. */
function roomUnderMould(at: Point, overhead: TopFlat['triangles'], reach: number): number {
  let least = reach + wall;
  for (const [a, b, c] of overhead) {
    if (isIn(at, a, b, c)) return 0;
    least = Math.min(least, distance(at, a, b), distance(at, b, c), distance(at, c, a));
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
  return maths.hypot(p[0] - a[0] - f * dx, p[1] - a[1] - f * dy);
};
