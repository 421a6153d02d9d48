import { maths } from '../maths/maths.js';
import { type Outline, pieceDirection, pieceEnd, pieceStart } from './outline.js';
import { jointTurn } from './outline-carriers.js';

/** Signed distance of a point of the plane from an outline, negative inside; writes the unit gradient. */
export type PlaneDistance = (x: number, y: number, gradient: Float64Array) => number;

/** A piece with what the distance needs of it. */
interface Side {
  readonly ax: number;
  readonly ay: number;
  readonly bx: number;
  readonly by: number;
  /** Hand of the turns at its ends: past an outer corner a point is outside, past an inner one inside. */
  readonly before: number;
  readonly after: number;
  /** Of a line: direction and length. */
  readonly ux: number;
  readonly uy: number;
  readonly length: number;
  /** Of an arc: centre, radius (0 for a line), hand, and whether it is more than half a circle. */
  readonly cx: number;
  readonly cy: number;
  readonly radius: number;
  readonly hand: number;
  readonly large: boolean;
  readonly full: boolean;
}

/** @param skip pieces that bound nothing, such as the axis of a turned profile. */
export function outlineDistance(
  outline: Outline,
  skip: (piece: Outline[number]) => boolean = () => false,
): PlaneDistance {
  const sides = outline.flatMap((piece, i) => (skip(piece) ? [] : [sideOf(outline, i)]));
  return (x, y, gradient) => {
    let best = Number.POSITIVE_INFINITY;
    let signed = 0;
    let gx = 0;
    let gy = 0;
    for (const side of sides) {
      // Which end lies nearest where the foot falls outside the piece: 0 for none, −1 before, 1 after.
      let end = 0;
      let d: number;
      if (side.radius === 0) {
        const px = x - side.ax;
        const py = y - side.ay;
        const along = px * side.ux + py * side.uy;
        if (along < -1e-9) end = -1;
        else if (along > side.length + 1e-9) end = 1;
        d = px * side.uy - py * side.ux;
        if (end === 0 && Math.abs(d) < best) {
          best = Math.abs(d);
          signed = d;
          gx = side.uy;
          gy = -side.ux;
        }
      } else {
        const px = x - side.cx;
        const py = y - side.cy;
        if (!side.full) {
          const fromStart = side.hand * ((side.ax - side.cx) * py - (side.ay - side.cy) * px);
          const toEnd = side.hand * (px * (side.by - side.cy) - py * (side.bx - side.cx));
          const least = -1e-9 * side.radius;
          const within = side.large
            ? fromStart >= least || toEnd >= least
            : fromStart >= least && toEnd >= least;
          if (!within)
            end = (x - side.ax) ** 2 + (y - side.ay) ** 2 < (x - side.bx) ** 2 + (y - side.by) ** 2 ? -1 : 1;
        }
        const r = Math.sqrt(px * px + py * py);
        d = side.hand * (r - side.radius);
        if (end === 0 && Math.abs(d) < best) {
          best = Math.abs(d);
          signed = d;
          gx = r > 0 ? (side.hand * px) / r : side.hand;
          gy = r > 0 ? (side.hand * py) / r : 0;
        }
      }
      if (end === 0) continue;
      // At a smooth joint the pieces themselves say it.
      const turn = end < 0 ? side.before : side.after;
      if (turn === 0) continue;
      const qx = x - (end < 0 ? side.ax : side.bx);
      const qy = y - (end < 0 ? side.ay : side.by);
      d = Math.sqrt(qx * qx + qy * qy);
      if (d >= best) continue;
      best = d;
      signed = turn * d;
      gx = d > 0 ? (turn * qx) / d : 0;
      gy = d > 0 ? (turn * qy) / d : 0;
    }
    gradient[0] = gx;
    gradient[1] = gy;
    return signed;
  };
}

function sideOf(outline: Outline, i: number): Side {
  const n = outline.length;
  const piece = outline[i]!;
  const turnAfter = (k: number): number =>
    Math.sign(jointTurn(outline[k]!, outline[(k + 1) % n]!, pieceDirection));
  const [a, b] = [pieceStart(piece), pieceEnd(piece)];
  const length = maths.hypot(b[0] - a[0], b[1] - a[1]);
  const arc = piece.kind === 'arc' ? piece : null;
  return {
    ax: a[0],
    ay: a[1],
    bx: b[0],
    by: b[1],
    before: turnAfter((i + n - 1) % n),
    after: turnAfter(i),
    ux: arc ? 0 : (b[0] - a[0]) / length,
    uy: arc ? 0 : (b[1] - a[1]) / length,
    length,
    cx: arc?.centre[0] ?? 0,
    cy: arc?.centre[1] ?? 0,
    radius: arc?.radius ?? 0,
    hand: Math.sign(arc?.sweep ?? 1),
    large: Math.abs(arc?.sweep ?? 0) > Math.PI,
    full: Math.abs(arc?.sweep ?? 0) > 2 * Math.PI - 1e-9,
  };
}
