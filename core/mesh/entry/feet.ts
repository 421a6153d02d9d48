import { cropAbout, holdsFoot, measureSeat, type Seat } from '../../foundry/gating/seat.js';
import { maths } from '../../maths/maths.js';
import type { Mesh, Vec2 } from '../../solid/types.js';
import type { TopMap } from './top-map.js';

/** A gate's foot may go this share of its diameter deep: a slope of 18° or a ball 1.1 times as wide as the foot. Common practice, no source. */
export const deepestSeat = 1 / 3;

/** Mould left beside a gate's foot where the part stands higher, mm. */
export const wall = 2;

/** What rises no more than this within the wall is the slope the foot stands on, mm. */
const besideSlack = 1;

/** A place wider than wanted is offered where the surface falls away no more than this, mm: as good as flat. */
const flat = 0.2;

/** Shares of the wanted diameter that are tried, widest first; over 1 on flats alone. */
const shares = [2, 1.5, 1.25, 1, 0.85, 0.7, 0.6, 0.5, 0.4, 0.3];

export const diametersOf = (least: number, wanted: number): readonly { diameter: number; most: number }[] =>
  [...shares.map((s) => s * wanted).filter((d) => d > least), least].map((diameter) => ({
    diameter,
    most: diameter > wanted * (1 + 1e-9) ? flat : deepestSeat * diameter,
  }));

/** Why no foot stands at a point; data for a sentence. */
export type FootFault =
  | { readonly why: 'edge' | 'marked' | 'thin' }
  | { readonly why: 'steep'; readonly fall: number; readonly most: number }
  | { readonly why: 'beside'; readonly by: number };

export interface Foot {
  readonly diameter: number;
  readonly seat: Seat;
}

/** A foot of that diameter at a point, measured on the mesh, or what is in its way. */
export function footAt(
  mesh: Mesh,
  avoid: Uint8Array | undefined,
  at: Vec2,
  diameter: number,
  most: number,
): Foot | FootFault {
  const near = cropAbout(mesh, at, diameter / 2 + wall + 0.1 * diameter);
  const seat = measureSeat(near, at, diameter / 2, wall);
  if (seat === null) return { why: 'edge' };
  if (seat.fall > most) return { why: 'steep', fall: seat.fall, most };
  if (seat.beside > seat.top + besideSlack) return { why: 'beside', by: seat.beside - seat.top };
  if (avoid && touchesMarked(mesh, avoid, at, diameter / 2, seat)) return { why: 'marked' };
  if (!holdsFoot(seat)) return { why: 'thin' };
  return { diameter, seat };
}

/** Whether a marked triangle that looks up comes under the foot. */
function touchesMarked(
  { positions: p, triangles: t }: Mesh,
  avoid: Uint8Array,
  [x, y]: Vec2,
  radius: number,
  { top, fall }: Seat,
): boolean {
  for (let f = 0; f < t.length; f += 3) {
    if (avoid[f / 3] !== 1) continue;
    const corners = [0, 1, 2].map((k) => {
      const v = 3 * t[f + k]!;
      return [p[v]! - x, p[v + 1]! - y, p[v + 2]!] as const;
    });
    if (Math.max(...corners.map((c) => c[2])) < top - fall - 0.05) continue;
    const [a, b, c] = corners as unknown as readonly [
      readonly number[],
      readonly number[],
      readonly number[],
    ];
    const area = (b[0]! - a[0]!) * (c[1]! - a[1]!) - (c[0]! - a[0]!) * (b[1]! - a[1]!);
    if (area <= 0) continue;
    const inside = [a, b, c].every((q, k) => {
      const r = [a, b, c][(k + 1) % 3]!;
      return q[0]! * r[1]! - q[1]! * r[0]! >= 0;
    });
    if (inside || [a, b, c].some((q, k) => toSegment(q, [a, b, c][(k + 1) % 3]!) < radius)) return true;
  }
  return false;
}

/** Distance of the origin from a segment in plan. */
function toSegment(p: readonly number[], q: readonly number[]): number {
  const [dx, dy] = [q[0]! - p[0]!, q[1]! - p[1]!];
  const squared = dx * dx + dy * dy;
  const f = squared === 0 ? 0 : Math.min(1, Math.max(0, -(p[0]! * dx + p[1]! * dy) / squared));
  return maths.hypot(p[0]! + f * dx, p[1]! + f * dy);
}

/** How far the mapped surface falls away in a foot's circle, mm; infinite over an edge, a marked face or `most`. */
export function mappedFall(
  map: TopMap,
  marked: Uint8Array,
  [i, j]: readonly [number, number],
  radius: number,
  most: number,
): number {
  const reach = Math.floor(radius / map.step);
  const nx = map.xs.length;
  let [top, low] = [Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY];
  if (i < reach || j < reach || i + reach >= nx || j + reach >= map.ys.length)
    return Number.POSITIVE_INFINITY;
  const squared = (radius / map.step) ** 2;
  for (let q = -reach; q <= reach; q++)
    for (let p = -reach; p <= reach; p++) {
      if (p * p + q * q > squared) continue;
      const c = i + p + nx * (j + q);
      if (marked[c] === 1) return Number.POSITIVE_INFINITY;
      const z = map.top[c]!;
      if (z > top) top = z;
      if (z < low) low = z;
      if (top - low > most) return Number.POSITIVE_INFINITY;
    }
  return top - low;
}
