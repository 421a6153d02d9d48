import { maths } from '../../maths/maths.js';
import type { Vec2 } from '../../solid/types.js';
import type { Area } from './sheet-marks.js';

export type Segment = readonly [Vec2, Vec2];

/** What is already on a view, in mm on paper. */
export interface Obstacles {
  readonly texts: Area[];
  /** Dimension lines. */
  readonly lines: Segment[];
  /** Extension lines: may be crossed, but better not by text. */
  readonly extensions: Segment[];
  readonly leaders: Segment[];
  /** Arcs of angles: no words and no dimension line over them. */
  readonly reserved: Area[];
}

export const noObstacles = (): Obstacles => ({
  texts: [],
  lines: [],
  extensions: [],
  leaders: [],
  reserved: [],
});

/** Whether a segment touches a box, by clipping it (Liang and Barsky). */
export function crossesArea([a, b]: Segment, area: Area, gap = 0): boolean {
  let [enter, leave] = [0, 1];
  const sides = [
    [a[0] - b[0], a[0] - (area.x0 - gap)],
    [b[0] - a[0], area.x1 + gap - a[0]],
    [a[1] - b[1], a[1] - (area.y0 - gap)],
    [b[1] - a[1], area.y1 + gap - a[1]],
  ] as const;
  for (const [p, q] of sides) {
    if (p === 0) {
      if (q < 0) return false;
    } else if (p < 0) enter = Math.max(enter, q / p);
    else leave = Math.min(leave, q / p);
  }
  return enter <= leave;
}

export function segmentsCross([a, b]: Segment, [c, d]: Segment): boolean {
  const side = (p: Vec2, q: Vec2, r: Vec2): number =>
    (q[0] - p[0]) * (r[1] - p[1]) - (q[1] - p[1]) * (r[0] - p[0]);
  return side(a, b, c) * side(a, b, d) < 0 && side(c, d, a) * side(c, d, b) < 0;
}

/** Whether two level or two upright segments come within `beside` of each other across and `along` lengthwise. */
export function sameLane(a: Segment, b: Segment, beside: number, along: number): boolean {
  const level = (s: Segment): boolean => s[0][1] === s[1][1];
  if (level(a) !== level(b)) return false;
  const [l, c] = level(a) ? ([0, 1] as const) : ([1, 0] as const);
  const [a0, a1] = [Math.min(a[0][l], a[1][l]), Math.max(a[0][l], a[1][l])];
  const [b0, b1] = [Math.min(b[0][l], b[1][l]), Math.max(b[0][l], b[1][l])];
  return Math.abs(a[0][c] - b[0][c]) < beside && a0 < b1 + along && b0 < a1 + along;
}

/** How far a shape reaches in each of some directions: a convex shape that holds it, cheap to keep clear of. */
export type Reach = readonly { readonly direction: Vec2; readonly most: number }[];

const reachDirections = 24;

export const reachOf = (points: readonly Vec2[]): Reach =>
  Array.from({ length: reachDirections }, (_, i) => {
    const angle = (2 * Math.PI * i) / reachDirections;
    const [x, y]: Vec2 = [maths.cos(angle), maths.sin(angle)];
    let most = -Infinity;
    for (const p of points) most = Math.max(most, p[0] * x + p[1] * y);
    return { direction: [x, y], most };
  });

/** Whether a box comes within `gap` of what has that reach; sometimes also where it is a little farther. */
export const touchesReach = (reach: Reach, area: Area, gap: number): boolean =>
  reach.every(({ direction: [x, y], most }) => {
    const least = x * (x > 0 ? area.x0 : area.x1) + y * (y > 0 ? area.y0 : area.y1);
    return least <= most + gap;
  });
