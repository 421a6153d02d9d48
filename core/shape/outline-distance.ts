import { type ArcPiece, type Outline, pieceDirection, pieceEnd, pieceStart } from './outline.js';
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
  readonly arc: ArcPiece | null;
  /** Of a line: direction and length. */
  readonly ux: number;
  readonly uy: number;
  readonly length: number;
}

/** @param skip pieces that bound nothing, such as the axis of a turned profile. */
export function outlineDistance(
  outline: Outline,
  skip: (piece: Outline[number]) => boolean = () => false,
): PlaneDistance {
  const n = outline.length;
  const turnAfter = (i: number): number => jointTurn(outline[i]!, outline[(i + 1) % n]!, pieceDirection);
  const pieces = outline.flatMap((piece, i): Side[] => {
    if (skip(piece)) return [];
    const [a, b] = [pieceStart(piece), pieceEnd(piece)];
    const ends = {
      ax: a[0],
      ay: a[1],
      bx: b[0],
      by: b[1],
      before: Math.sign(turnAfter((i + n - 1) % n)),
      after: Math.sign(turnAfter(i)),
    };
    const length = Math.hypot(b[0] - a[0], b[1] - a[1]);
    return piece.kind === 'line'
      ? [{ ...ends, arc: null, ux: (b[0] - a[0]) / length, uy: (b[1] - a[1]) / length, length }]
      : [{ ...ends, arc: piece, ux: 0, uy: 0, length: 0 }];
  });
  return (x, y, gradient) => {
    let best = Number.POSITIVE_INFINITY;
    let signed = 0;
    let [gx, gy] = [0, 0];
    const corner = (cx: number, cy: number, turn: number): void => {
      const d = Math.hypot(x - cx, y - cy);
      // At a smooth joint the pieces themselves say it.
      if (turn === 0 || d >= best) return;
      best = d;
      signed = turn * d;
      gx = d > 0 ? (turn * (x - cx)) / d : 0;
      gy = d > 0 ? (turn * (y - cy)) / d : 0;
    };
    for (const piece of pieces) {
      if (piece.arc === null) {
        const [px, py] = [x - piece.ax, y - piece.ay];
        const along = px * piece.ux + py * piece.uy;
        if (along < 0) corner(piece.ax, piece.ay, piece.before);
        else if (along > piece.length) corner(piece.bx, piece.by, piece.after);
        if (along < -1e-9 || along > piece.length + 1e-9) continue;
        const d = px * piece.uy - py * piece.ux;
        if (Math.abs(d) >= best) continue;
        best = Math.abs(d);
        signed = d;
        gx = piece.uy;
        gy = -piece.ux;
        continue;
      }
      const { centre, radius, start, sweep } = piece.arc;
      const [px, py] = [x - centre[0], y - centre[1]];
      const hand = Math.sign(sweep);
      let turned = (hand * (Math.atan2(py, px) - start)) % (2 * Math.PI);
      if (turned < -1e-9) turned += 2 * Math.PI;
      if (turned <= hand * sweep + 1e-9) {
        const r = Math.hypot(px, py);
        const d = hand * (r - radius);
        if (Math.abs(d) >= best) continue;
        best = Math.abs(d);
        signed = d;
        gx = r > 0 ? (hand * px) / r : hand;
        gy = r > 0 ? (hand * py) / r : 0;
      } else {
        corner(piece.ax, piece.ay, piece.before);
        corner(piece.bx, piece.by, piece.after);
      }
    }
    gradient[0] = gx;
    gradient[1] = gy;
    return signed;
  };
}
