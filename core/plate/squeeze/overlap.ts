import type { Room } from '../room.js';
import type { Body, Edge, Layer } from './body.js';
import type { Spot } from './spot.js';

/**
 * What pushes one body: the overlap, the sum of squared depths by the boundary they stand for (mm³), and its normal
 * equations in x, y and turn, of which a step follows.
 */
export interface Push {
  overlap: number;
  /** mm, the deepest. */
  deepest: number;
  gx: number;
  gy: number;
  gt: number;
  xx: number;
  xy: number;
  xt: number;
  yy: number;
  yt: number;
  tt: number;
  /** Points looked at, ever: the measure of effort. */
  work: number;
}

export const noPush = (): Push => ({
  overlap: 0,
  deepest: 0,
  gx: 0,
  gy: 0,
  gt: 0,
  xx: 0,
  xy: 0,
  xt: 0,
  yy: 0,
  yt: 0,
  tt: 0,
  work: 0,
});

export function clearPush(p: Push): void {
  p.overlap = p.deepest = p.gx = p.gy = p.gt = 0;
  p.xx = p.xy = p.xt = p.yy = p.yt = p.tt = 0;
}

/** Adds what pushes `a` out of `b`, times `weight`, where they are nearer than `needs` of each layer. */
export function pushApart(
  into: Push,
  a: Body,
  at: Spot,
  b: Body,
  from: Spot,
  needs: readonly number[],
  weight: number,
  isFine: boolean,
): void {
  for (let k = 0; k < needs.length; k++) {
    const [one, other, need] = [a.layers[k]!, b.layers[k]!, needs[k]!];
    const reach = one.radius + other.radius + need;
    const [dx, dy] = [at.x - from.x, at.y - from.y];
    if (dx * dx + dy * dy >= reach * reach) continue;
    if (isBeside(one, other, from, dx, dy, need) || isBeside(other, one, at, -dx, -dy, need)) continue;
    pushPoints(into, isFine ? one.fine : one.coarse, at, other, from, need, weight, false, at);
    pushPoints(into, isFine ? other.fine : other.coarse, from, one, at, need, weight, true, at);
  }
}

/** Whether a body's circle, (dx, dy) from the middle of another, keeps clear of the other's box. */
function isBeside(
  { radius }: Layer,
  { halfX, halfY }: Layer,
  { c, s }: Spot,
  dx: number,
  dy: number,
  need: number,
): boolean {
  const u = Math.abs(c * dx + s * dy) - halfX;
  const v = Math.abs(c * dy - s * dx) - halfY;
  const reach = radius + need;
  if (u >= reach || v >= reach) return true;
  return u > 0 && v > 0 && u * u + v * v >= reach * reach;
}

/** The points of `one` in the field of `other`; `turned` where it is `other` that is pushed. */
function pushPoints(
  into: Push,
  { points, weights }: Edge,
  at: Spot,
  { field }: Layer,
  from: Spot,
  need: number,
  weight: number,
  turned: boolean,
  middle: Spot,
): void {
  const { x0, y0, cell, cols, rows, values } = field;
  const scale = 1 / cell;
  const c = (at.c * from.c + at.s * from.s) * scale;
  const s = (at.s * from.c - at.c * from.s) * scale;
  const [dx, dy] = [at.x - from.x, at.y - from.y];
  const tx = (from.c * dx + from.s * dy - x0) * scale;
  const ty = (from.c * dy - from.s * dx - y0) * scale;
  const [mostX, mostY] = [cols - 1, rows - 1];
  into.work += weights.length;
  for (let i = 0, k = 0; i < points.length; i += 2, k++) {
    const px = points[i]!;
    const py = points[i + 1]!;
    const u = c * px - s * py + tx;
    if (!(u > 0 && u < mostX)) continue;
    const v = s * px + c * py + ty;
    if (!(v > 0 && v < mostY)) continue;
    const col = u | 0;
    const row = v | 0;
    const fu = u - col;
    const fv = v - row;
    const n = row * cols + col;
    const a = values[n]!;
    const b = values[n + 1]!;
    const d = values[n + cols]!;
    const e = values[n + cols + 1]!;
    const low = a + (b - a) * fu;
    const high = d + (e - d) * fu;
    const depth = need - (low + (high - low) * fv);
    if (depth <= 0) continue;
    // The way out of the field, in its own frame and then on the bed.
    const nu = (b - a + (e - d - b + a) * fv) * scale;
    const nv = (high - low) * scale;
    let nx = from.c * nu - from.s * nv;
    let ny = from.s * nu + from.c * nv;
    // Where on the bed it is, about the middle of what is pushed.
    const rx = at.c * px - at.s * py + at.x - middle.x;
    const ry = at.s * px + at.c * py + at.y - middle.y;
    if (turned) {
      nx = -nx;
      ny = -ny;
    }
    add(into, depth, nx, ny, rx, ry, weight * weights[k]!);
  }
}

/** mm of boundary that a corner over the edge counts. */
const edgeWeight = 2;

/** Adds what pushes a body inside the margins, `extra` mm more. */
export function pushInside(
  into: Push,
  body: Body,
  at: Spot,
  room: Room,
  extra: number,
  weight: number,
): void {
  const w = weight * edgeWeight;
  body.layers.forEach(({ hull, radius }, k) => {
    const edge = room.margin + (k === 1 ? room.brim : 0) + extra;
    const { width, depth } = room;
    if (
      !room.round &&
      at.x - radius >= edge &&
      at.y - radius >= edge &&
      at.x + radius <= width - edge &&
      at.y + radius <= depth - edge
    )
      return;
    into.work += hull.length >> 1;
    for (let i = 0; i < hull.length; i += 2) {
      const rx = at.c * hull[i]! - at.s * hull[i + 1]!;
      const ry = at.s * hull[i]! + at.c * hull[i + 1]!;
      const [x, y] = [at.x + rx, at.y + ry];
      if (room.round) {
        const [ox, oy] = [x - width / 2, y - width / 2];
        const away = Math.sqrt(ox * ox + oy * oy);
        const over = away - (width / 2 - edge);
        if (over > 0) add(into, over, -ox / away, -oy / away, rx, ry, w);
        continue;
      }
      if (x < edge) add(into, edge - x, 1, 0, rx, ry, w);
      if (x > width - edge) add(into, x - width + edge, -1, 0, rx, ry, w);
      if (y < edge) add(into, edge - y, 0, 1, rx, ry, w);
      if (y > depth - edge) add(into, y - depth + edge, 0, -1, rx, ry, w);
    }
  });
}

function add(into: Push, depth: number, nx: number, ny: number, rx: number, ry: number, w: number): void {
  const t = rx * ny - ry * nx;
  into.overlap += w * depth * depth;
  if (depth > into.deepest) into.deepest = depth;
  into.gx += w * depth * nx;
  into.gy += w * depth * ny;
  into.gt += w * depth * t;
  into.xx += w * nx * nx;
  into.xy += w * nx * ny;
  into.xt += w * nx * t;
  into.yy += w * ny * ny;
  into.yt += w * ny * t;
  into.tt += w * t * t;
}

/** mm and radians that one step goes at most. */
const [farthest, mostTurn] = [12, 0.4];

/** The step that the normal equations ask for, damped (K. Levenberg, 1944); a short one. */
export function stepOf(p: Push, damping: number): readonly [x: number, y: number, turn: number] {
  const base = (p.xx + p.yy) / 2;
  const a = p.xx + damping * base + 1e-9;
  const d = p.yy + damping * base + 1e-9;
  const f = p.tt * (1 + damping) + base * 4 + 1e-9;
  const { xy: b, xt: c, yt: e, gx, gy, gt } = p;
  // The inverse by cofactors: they are three by three and symmetric.
  const [xx, xy, xt] = [d * f - e * e, c * e - b * f, b * e - c * d];
  const [yy, yt, tt] = [a * f - c * c, b * c - a * e, a * d - b * b];
  const whole = a * xx + b * xy + c * xt;
  if (!(Math.abs(whole) > 1e-18)) return [0, 0, 0];
  const dx = (xx * gx + xy * gy + xt * gt) / whole;
  const dy = (xy * gx + yy * gy + yt * gt) / whole;
  const dt = (xt * gx + yt * gy + tt * gt) / whole;
  const length = Math.max(1e-12, Math.sqrt(dx * dx + dy * dy));
  const by = Math.min(1, farthest / length, mostTurn / Math.max(1e-12, Math.abs(dt)));
  return [by * dx, by * dy, by * dt];
}
