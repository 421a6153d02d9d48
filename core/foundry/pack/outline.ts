/** Convex outlines in plan, and how far apart two of them are. mm. */
import { maths } from '../../maths/maths.js';
import { turnAt } from '../../solid/plane-hull.js';
import type { Vec2 } from '../../solid/types.js';
import type { TreePlace } from '../gating/index.js';

/** An outline of few corners inside a hull, and how far the hull goes beyond it. */
export interface Rough {
  readonly corners: readonly Vec2[];
  readonly short: number;
}

/** Leaves out the corners that stand out least. */
export function roughen(hull: readonly Vec2[], most: number): Rough {
  const corners = [...hull];
  const height = (i: number): number => {
    const [a, b, c] = [-1, 0, 1].map((k) => corners[(i + k + corners.length) % corners.length]!) as [
      Vec2,
      Vec2,
      Vec2,
    ];
    return turnAt(a, b, c) / Math.max(1e-12, maths.hypot(c[0] - a[0], c[1] - a[1]));
  };
  while (corners.length > most) {
    let least = 0;
    for (let i = 1; i < corners.length; i++) if (height(i) < height(least)) least = i;
    corners.splice(least, 1);
  }
  const short = Math.max(0, ...hull.map((p) => outsideBy(p, corners)));
  return { corners, short };
}

/** How far a point lies outside a convex outline at most; negative inside. */
const outsideBy = (p: Vec2, outline: readonly Vec2[]): number =>
  Math.max(
    ...outline.map((a, i) => {
      const b = outline[(i + 1) % outline.length]!;
      return -turnAt(a, b, p) / Math.max(1e-12, maths.hypot(b[0] - a[0], b[1] - a[1]));
    }),
  );

/** The points where a pattern stands at its place. */
export function placeOutline(points: readonly Vec2[], { turn: by, x, y }: TreePlace): readonly Vec2[] {
  const [c, s] = [maths.cos(by), maths.sin(by)];
  return points.map(([px, py]) => [c * px - s * py + x, s * px + c * py + y]);
}

/** Whether two convex outlines keep `gap` apart: along some side's normal, or where corner stands against corner. */
export function keepsApart(a: readonly Vec2[], b: readonly Vec2[], gap: number): boolean {
  return apartAlong(a, b, gap) || apartAlong(b, a, gap) || apartAtCorners(a, b, gap);
}

function apartAtCorners(a: readonly Vec2[], b: readonly Vec2[], gap: number): boolean {
  let [least, nx, ny] = [Number.POSITIVE_INFINITY, 0, 0];
  for (const [ax, ay] of a)
    for (const [bx, by] of b) {
      const squared = (bx - ax) * (bx - ax) + (by - ay) * (by - ay);
      if (squared < least) [least, nx, ny] = [squared, bx - ax, by - ay];
    }
  if (least < gap * gap) return false;
  const farthest = Math.max(...a.map(([x, y]) => nx * x + ny * y));
  const nearest = Math.min(...b.map(([x, y]) => nx * x + ny * y));
  return nearest - farthest >= gap * Math.sqrt(least);
}

function apartAlong(a: readonly Vec2[], b: readonly Vec2[], gap: number): boolean {
  for (let i = 0; i < a.length; i++) {
    const [x0, y0] = a[i]!;
    const [x1, y1] = a[i + 1 < a.length ? i + 1 : 0]!;
    const [nx, ny] = [y1 - y0, x0 - x1];
    const least = gap * Math.sqrt(nx * nx + ny * ny) + nx * x0 + ny * y0;
    let clear = true;
    for (const [x, y] of b)
      if (nx * x + ny * y < least) {
        clear = false;
        break;
      }
    if (clear) return true;
  }
  return false;
}
