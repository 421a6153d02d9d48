import { maths } from '../maths/maths.js';
import type { Vec2 } from '../solid/types.js';
import { arcBetween, line, type OutlinePiece, pieceEnd, pieceStart } from './outline.js';

/** The endless line or full circle that a piece lies on. */
export type Carrier =
  | { readonly kind: 'line'; readonly point: Vec2; readonly direction: Vec2 }
  | { readonly kind: 'circle'; readonly centre: Vec2; readonly radius: number };

/** The carrier of a piece moved to the right of its travel by `by`, mm; null for an arc that closes to nothing. */
export function shiftedCarrier(piece: OutlinePiece, by: number): Carrier | null {
  if (piece.kind === 'line') {
    const [dx, dy] = [piece.to[0] - piece.from[0], piece.to[1] - piece.from[1]];
    const length = maths.hypot(dx, dy);
    if (length === 0) return null;
    const direction: Vec2 = [dx / length, dy / length];
    return {
      kind: 'line',
      point: [piece.from[0] + by * direction[1], piece.from[1] - by * direction[0]],
      direction,
    };
  }
  const radius = piece.radius + (piece.sweep > 0 ? by : -by);
  return radius > 1e-9 && piece.radius > 0 ? { kind: 'circle', centre: piece.centre, radius } : null;
}

/** Where two carriers meet, nearest to a point; null when they do not. */
export function meetNear(a: Carrier, b: Carrier, near: Vec2): Vec2 | null {
  const found = meet(a, b);
  return found.reduce<Vec2 | null>(
    (best, p) => (best === null || distance(p, near) < distance(best, near) ? p : best),
    null,
  );
}

function meet(a: Carrier, b: Carrier): readonly Vec2[] {
  if (a.kind === 'line' && b.kind === 'line') {
    const sine = a.direction[0] * b.direction[1] - a.direction[1] * b.direction[0];
    if (Math.abs(sine) < 1e-12) return [];
    const [dx, dy] = [b.point[0] - a.point[0], b.point[1] - a.point[1]];
    const t = (dx * b.direction[1] - dy * b.direction[0]) / sine;
    return [[a.point[0] + t * a.direction[0], a.point[1] + t * a.direction[1]]];
  }
  if (a.kind === 'circle' && b.kind === 'line') return meet(b, a);
  if (a.kind === 'line' && b.kind === 'circle') {
    const [dx, dy] = [b.centre[0] - a.point[0], b.centre[1] - a.point[1]];
    const foot = dx * a.direction[0] + dy * a.direction[1];
    const off = dx * a.direction[1] - dy * a.direction[0];
    return halfChords(b.radius * b.radius - off * off, b.radius).map((h) => [
      a.point[0] + (foot + h) * a.direction[0],
      a.point[1] + (foot + h) * a.direction[1],
    ]);
  }
  if (a.kind === 'circle' && b.kind === 'circle') {
    const [dx, dy] = [b.centre[0] - a.centre[0], b.centre[1] - a.centre[1]];
    const apart = maths.hypot(dx, dy);
    if (apart < 1e-12) return [];
    const foot = (apart * apart + a.radius * a.radius - b.radius * b.radius) / (2 * apart);
    const [ux, uy] = [dx / apart, dy / apart];
    return halfChords(a.radius * a.radius - foot * foot, a.radius).map((h) => [
      a.centre[0] + foot * ux - h * uy,
      a.centre[1] + foot * uy + h * ux,
    ]);
  }
  return [];
}

/** Both half chords of a squared half chord; carriers that just touch give one meeting, not none by rounding. */
function halfChords(squared: number, scale: number): readonly number[] {
  if (squared < -1e-9 * scale * scale) return [];
  const half = Math.sqrt(Math.max(0, squared));
  return [half, -half];
}

/** The point of a carrier nearest to a point. */
export function footOn(carrier: Carrier, p: Vec2): Vec2 {
  if (carrier.kind === 'line') {
    const { point, direction } = carrier;
    const t = (p[0] - point[0]) * direction[0] + (p[1] - point[1]) * direction[1];
    return [point[0] + t * direction[0], point[1] + t * direction[1]];
  }
  const { centre, radius } = carrier;
  const [dx, dy] = [p[0] - centre[0], p[1] - centre[1]];
  const length = maths.hypot(dx, dy) || 1;
  return [centre[0] + (radius * dx) / length, centre[1] + (radius * dy) / length];
}

/**
 * A piece on the same carrier as `piece` moved by `by`, between two points of it; null when that would run
 * backwards, so that nothing of the piece is left.
 */
export function cutPiece(piece: OutlinePiece, by: number, from: Vec2, to: Vec2): OutlinePiece | null {
  if (piece.kind === 'line') {
    const forward =
      (to[0] - from[0]) * (piece.to[0] - piece.from[0]) + (to[1] - from[1]) * (piece.to[1] - piece.from[1]);
    return forward > 0 ? line(from, to) : null;
  }
  const carrier = shiftedCarrier(piece, by);
  if (carrier?.kind !== 'circle') return null;
  const full = Math.abs(piece.sweep) > 2 * Math.PI - 1e-9;
  const cut = arcBetween(footOn(carrier, from), footOn(carrier, to), piece.centre, piece.sweep < 0);
  // More than half a turn more than there was is a short way back.
  return full || Math.abs(cut.sweep) < Math.abs(piece.sweep) + Math.PI ? cut : null;
}

/** Turning angle at the joint from one piece to the next, radians, −π to π; 0 where they join smoothly. */
export function jointTurn(before: OutlinePiece, after: OutlinePiece, direction: DirectionAt): number {
  const [a, b] = [direction(before, 1), direction(after, 0)];
  const turn = maths.atan2(a[0] * b[1] - a[1] * b[0], a[0] * b[0] + a[1] * b[1]);
  return Math.abs(turn) < 1e-7 ? 0 : turn;
}
type DirectionAt = (piece: OutlinePiece, share: number) => Vec2;

export const middle = (a: OutlinePiece, b: OutlinePiece): Vec2 => {
  const [p, q] = [pieceEnd(a), pieceStart(b)];
  return [(p[0] + q[0]) / 2, (p[1] + q[1]) / 2];
};

const distance = (a: Vec2, b: Vec2): number => maths.hypot(a[0] - b[0], a[1] - b[1]);
