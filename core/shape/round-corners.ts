import { maths } from '../maths/maths.js';
import { SolidError } from '../solid/errors.js';
import type { Vec2 } from '../solid/types.js';
import {
  arcBetween,
  type Outline,
  type OutlinePiece,
  pieceDirection,
  pieceEnd,
  pieceStart,
  polygonOutline,
} from './outline.js';
import { cutPiece, footOn, jointTurn, meetNear, shiftedCarrier } from './outline-carriers.js';

/**
 * Rounds the corners of an outline with exact tangent arcs, outer corners and inner ones (fillets) alike.
 *
 * @param radius mm, of the corner at the end of piece `i`; 0 leaves it sharp. `turn` is positive at an outer
 * corner of a counter-clockwise outline, negative at an inner one, radians.
 * @throws SolidError `bad-outline` when an arc does not fit on its two sides
 */
export function roundCorners(
  outline: Outline,
  radius: number | ((corner: number, turn: number) => number),
): Outline {
  const n = outline.length;
  const corners = outline.map((piece, i) => {
    const next = outline[(i + 1) % n]!;
    const turn = jointTurn(piece, next, pieceDirection);
    const r = turn === 0 ? 0 : typeof radius === 'number' ? radius : radius(i, turn);
    return r > 0 ? cornerArc(piece, next, turn, r) : null;
  });
  return outline.flatMap((piece, i) => {
    const [before, after] = [corners[(i + n - 1) % n], corners[i]];
    const from = before ? before.end : pieceStart(piece);
    const to = after ? after.start : pieceEnd(piece);
    const length = maths.hypot(to[0] - from[0], to[1] - from[1]);
    const used = length < 1e-9;
    const kept = before || after ? (used ? null : cutPiece(piece, 0, from, to)) : piece;
    if (!kept && !used)
      throw new SolidError(
        'bad-outline',
        `the arcs at the corners of piece ${i} of an outline need more length than it has; make them smaller`,
      );
    return [...(kept ? [kept] : []), ...(after ? [after.piece] : [])];
  });
}

interface CornerArc {
  readonly start: Vec2;
  readonly end: Vec2;
  readonly piece: OutlinePiece;
}

function cornerArc(before: OutlinePiece, after: OutlinePiece, turn: number, radius: number): CornerArc {
  // The centre lies to the left of an outer corner, to the right of an inner one.
  const side = turn > 0 ? -radius : radius;
  const [a, b] = [shiftedCarrier(before, side), shiftedCarrier(after, side)];
  const centre = a && b ? meetNear(a, b, pieceEnd(before)) : null;
  if (!centre)
    throw new SolidError('bad-outline', `an arc of ${radius} mm does not fit at a corner of an outline`);
  const start = footOn(shiftedCarrier(before, 0)!, centre);
  const end = footOn(shiftedCarrier(after, 0)!, centre);
  return { start, end, piece: arcBetween(start, end, centre, turn < 0) };
}

/** A rectangle about a centre, its corners rounded. mm; the radius at most half the shorter side. */
export function rectangleOutline(centre: Vec2, width: number, height: number, radius = 0): Outline {
  const [x, y] = [width / 2, height / 2];
  const sharp = polygonOutline([
    [centre[0] - x, centre[1] - y],
    [centre[0] + x, centre[1] - y],
    [centre[0] + x, centre[1] + y],
    [centre[0] - x, centre[1] + y],
  ]);
  return roundCorners(sharp, radius);
}
