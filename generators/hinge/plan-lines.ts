import { maths } from '../../core/maths/maths.js';
import type { DrawnLine } from '../../core/part/drawing-notes.js';
import { type Outline, outlinePolygon, pieceStart } from '../../core/shape/index.js';
import type { Vec2, Vec3 } from '../../core/solid/types.js';
import { faceStart } from './knuckle-section.js';
import { knuckleSpans, notchSpans, type Span } from './knuckles.js';
import type { Notches } from './notch-tools.js';

/** How fine the curves are drawn, mm. */
const fine = 0.02;

/**
 * A leaf seen from above, as it is finished: round its plan, in and out of the notches, along the barrel. z of the
 * lines is `z`.
 */
export function leafPlanLines(plan: Outline, notches: Notches, z: number): readonly DrawnLine[] {
  const at = ([x, y]: Vec2): Vec3 => [x, y, z];
  const start = Math.min(...plan.map((piece) => pieceStart(piece)[0]));
  // All but the side that lies in the barrel's fillet.
  const round = outlinePolygon(plan, fine).filter(([x]) => x > start + 1e-6);
  const r = notches.section.barrelRadius;
  const flat = faceStart(notches.section);
  return [
    { kind: 'visible', closed: true, points: [...round, ...[...barrelSide(notches)].reverse()].map(at) },
    // Where the fillet runs out into the inner face.
    ...knuckleSpans(notches.row, notches.side).flatMap(([from, to]): DrawnLine[] => [
      { kind: 'thin', points: [at([flat, from]), at([flat, to])] },
      { kind: 'thin', points: [at([r, from]), at([r, to])] },
    ]),
  ];
}

/** The barrel's side of a leaf from its lower to its upper end. */
function barrelSide({ row, side, section, floor, radius }: Notches): Vec2[] {
  const half = row.length / 2;
  const far = -section.barrelRadius;
  const corner = (y: number, hand: 1 | -1): Vec2[] =>
    Array.from({ length: 9 }, (_, i): Vec2 => {
      const a = ((hand > 0 ? i : 8 - i) / 8) * (Math.PI / 2);
      return [floor - radius * (1 - maths.sin(a)), y + hand * radius * (1 - maths.cos(a))];
    });
  const notch = ([from, to]: Span): Vec2[] => [
    ...(from <= -half ? [[floor, -half] as Vec2] : [[far, from] as Vec2, ...corner(from, 1)]),
    ...(to >= half ? [[floor, half] as Vec2] : [...corner(to, -1), [far, to] as Vec2]),
  ];
  const spans = notchSpans(row, side);
  return [
    ...((spans[0]?.[0] ?? 0) > -half ? [[far, -half] as Vec2] : []),
    ...spans.flatMap(notch),
    ...((spans[spans.length - 1]?.[1] ?? 0) < half ? [[far, half] as Vec2] : []),
  ];
}
