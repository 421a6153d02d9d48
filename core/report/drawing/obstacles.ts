import type { Vec2 } from '../../solid/types.js';
import { type Area, overlaps } from './sheet-marks.js';

export type Segment = readonly [Vec2, Vec2];

/** What is already on a view, in mm on paper. */
export interface Obstacles {
  readonly texts: Area[];
  /** Dimension lines. */
  readonly lines: Segment[];
  /** Extension lines: may be crossed, but better not by text. */
  readonly extensions: Segment[];
  readonly leaders: Segment[];
}

export const noObstacles = (): Obstacles => ({ texts: [], lines: [], extensions: [], leaders: [] });

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

/** Whether two segments on parallel axes lie in one lane. */
export const sameLane = (a: Segment, b: Segment, gap: number): boolean => {
  const box = ([p, q]: Segment): Area => ({
    x0: Math.min(p[0], q[0]),
    x1: Math.max(p[0], q[0]),
    y0: Math.min(p[1], q[1]),
    y1: Math.max(p[1], q[1]),
  });
  const level = (s: Segment): boolean => s[0][1] === s[1][1];
  return level(a) === level(b) && overlaps(box(a), box(b), gap);
};

/** Convex hull (Andrew's monotone chain), counter-clockwise in the coordinates given. */
export function convexHull(points: readonly Vec2[]): readonly Vec2[] {
  const sorted = [...points].sort((p, q) => p[0] - q[0] || p[1] - q[1]);
  const half = (list: readonly Vec2[]): Vec2[] => {
    const chain: Vec2[] = [];
    for (const p of list) {
      while (chain.length >= 2) {
        const [a, b] = [chain.at(-2) as Vec2, chain.at(-1) as Vec2];
        if ((b[0] - a[0]) * (p[1] - a[1]) - (b[1] - a[1]) * (p[0] - a[0]) > 0) break;
        chain.pop();
      }
      chain.push(p);
    }
    return chain.slice(0, -1);
  };
  return sorted.length < 3 ? sorted : [...half(sorted), ...half(sorted.reverse())];
}

/** Whether a box comes within `gap` of a convex hull (counter-clockwise): no side of either parts them. */
export function touchesHull(hull: readonly Vec2[], area: Area, gap: number): boolean {
  if (hull.length === 0) return false;
  const corners: Vec2[] = [
    [area.x0, area.y0],
    [area.x1, area.y0],
    [area.x1, area.y1],
    [area.x0, area.y1],
  ];
  const parted = (nx: number, ny: number): boolean => {
    let most = -Infinity;
    let least = Infinity;
    for (const [x, y] of hull) most = Math.max(most, x * nx + y * ny);
    for (const [x, y] of corners) least = Math.min(least, x * nx + y * ny);
    return least > most + gap;
  };
  if (parted(1, 0) || parted(-1, 0) || parted(0, 1) || parted(0, -1)) return false;
  for (let i = 0; i < hull.length; i++) {
    const [a, b] = [hull[i] as Vec2, hull[(i + 1) % hull.length] as Vec2];
    const length = Math.hypot(b[0] - a[0], b[1] - a[1]);
    if (length < 1e-9) continue;
    const [nx, ny] = [(b[1] - a[1]) / length, (a[0] - b[0]) / length];
    const most = a[0] * nx + a[1] * ny;
    if (corners.every(([x, y]) => x * nx + y * ny > most + gap)) return false;
  }
  return true;
}
