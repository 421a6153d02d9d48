import { maths } from '../../core/maths/maths.js';
import { type Outline, pieceAt, pieceEnd, pieceStart } from '../../core/shape/index.js';
import { outlineDistance } from '../../core/shape/outline-distance.js';
import type { Vec2 } from '../../core/solid/types.js';

/** Distance between points looked at on a section, mm: between them the gap of two curves hardly changes. */
const spacing = 0.4;

/**
 * Distance, mm, of a section from another that is turned over, y → −y, and swung about the origin by `turn`, radians:
 * at 0 the two lie on each other like closed leaves, at π they point apart. Negative where a corner of one is in the
 * other.
 */
export function turningDistance(fixed: Outline, moving: Outline): (turn: number) => number {
  const [toFixed, toMoving] = [outlineDistance(fixed), outlineDistance(moving)];
  const [onFixed, onMoving] = [pointsOf(fixed), pointsOf(moving)];
  const scratch = new Float64Array(3);
  return (turn) => {
    const [cos, sin] = [maths.cos(turn), maths.sin(turn)];
    let least = Number.POSITIVE_INFINITY;
    // Turned over, then swung counter-clockwise: a reflection, which is its own way back.
    for (const [x, y] of onMoving)
      least = Math.min(least, toFixed(cos * x + sin * y, sin * x - cos * y, scratch));
    for (const [x, y] of onFixed)
      least = Math.min(least, toMoving(cos * x + sin * y, sin * x - cos * y, scratch));
    return least;
  };
}

function pointsOf(outline: Outline): readonly Vec2[] {
  return outline.flatMap((piece) => {
    const [from, to] = [pieceStart(piece), pieceEnd(piece)];
    const length =
      piece.kind === 'line'
        ? maths.hypot(to[0] - from[0], to[1] - from[1])
        : piece.radius * Math.abs(piece.sweep);
    // A long straight side needs few points: its ends decide.
    const n = Math.max(1, Math.min(24, Math.ceil(length / spacing)));
    return Array.from({ length: n }, (_, i) => pieceAt(piece, i / n));
  });
}
