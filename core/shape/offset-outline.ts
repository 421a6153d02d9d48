import { SolidError } from '../solid/errors.js';
import type { Vec2 } from '../solid/types.js';
import { arc, line, type Outline, type OutlinePiece, pieceAt, pieceDirection } from './outline.js';
import { cutPiece, jointTurn, meetNear, shiftedCarrier } from './outline-carriers.js';

/**
 * The outline moved along its outward normal by `by` mm (negative: inwards), exactly: lines stay lines, arcs keep
 * their centres, sharp corners stay sharp. Arcs and lines that the move uses up close to a point; `keepClosed`
 * keeps those in the list, so that pieces still correspond with those of the outline.
 *
 * Looks at neighbouring pieces only: far parts of an outline that run into each other are not found here (the
 * kernel refuses them).
 *
 * @throws SolidError `bad-outline` when neighbours no longer meet: nothing is left there
 */
export function offsetOutline(outline: Outline, by: number, keepClosed = false): Outline {
  const alive = outline.map((piece) => shiftedCarrier(piece, by) !== null);
  for (let round = 0; round <= outline.length; round++) {
    const joints = meetAll(outline, alive, by);
    const cut = outline.map((piece, i) => {
      if (!alive[i]) return null;
      if (alive.filter(Boolean).length === 1) return wholeCircle(piece, by);
      return cutPiece(piece, by, joints[(i + outline.length - 1) % outline.length]!, joints[i]!);
    });
    const lost = cut.findIndex((piece, i) => alive[i] && piece === null);
    if (lost < 0) {
      return cut.flatMap((piece, i): OutlinePiece[] => {
        if (piece) return [piece];
        return keepClosed ? [closedPiece(outline[i]!, joints[i]!)] : [];
      });
    }
    cut.forEach((piece, i) => {
      if (!piece) alive[i] = false;
    });
  }
  throw gone(by);
}

/** The joint after each piece, in the moved outline: where the living pieces round it meet. */
function meetAll(outline: Outline, alive: readonly boolean[], by: number): readonly Vec2[] {
  const n = outline.length;
  if (!alive.includes(true)) throw gone(by);
  return outline.map((_, i) => {
    let [before, after] = [i, (i + 1) % n];
    while (!alive[before]) before = (before + n - 1) % n;
    while (!alive[after]) after = (after + 1) % n;
    const [a, b] = [outline[before]!, outline[after]!];
    const smooth = (before + 1) % n === after && jointTurn(a, b, pieceDirection) === 0;
    if (smooth) return movedEnd(a, by);
    const hint = movedEnd(a, by);
    const other = movedStart(b, by);
    const near: Vec2 = [(hint[0] + other[0]) / 2, (hint[1] + other[1]) / 2];
    const met = meetNear(shiftedCarrier(a, by)!, shiftedCarrier(b, by)!, near);
    if (!met) {
      if (before === after) return hint;
      throw gone(by);
    }
    return met;
  });
}

const movedEnd = (piece: OutlinePiece, by: number): Vec2 => moved(piece, 1, by);
const movedStart = (piece: OutlinePiece, by: number): Vec2 => moved(piece, 0, by);

function moved(piece: OutlinePiece, share: number, by: number): Vec2 {
  const [x, y] = pieceAt(piece, share);
  const [dx, dy] = pieceDirection(piece, share);
  return [x + by * dy, y - by * dx];
}

function wholeCircle(piece: OutlinePiece, by: number): OutlinePiece | null {
  if (piece.kind === 'line' || Math.abs(piece.sweep) < 2 * Math.PI - 1e-9) return null;
  return { ...piece, radius: piece.radius + Math.sign(piece.sweep) * by };
}

const closedPiece = (piece: OutlinePiece, at: Vec2): OutlinePiece =>
  piece.kind === 'line' ? line(at, at) : arc(at, 0, piece.start, piece.sweep);

const gone = (by: number): SolidError =>
  new SolidError('bad-outline', `an outline moved by ${by} mm leaves nothing of some side; move it less`);
