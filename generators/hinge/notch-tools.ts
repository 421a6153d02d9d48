import { maths } from '../../core/maths/maths.js';
import type { BuildKit } from '../../core/part/contract.js';
import { segmentsOfCircle } from '../../core/solid/segments.js';
import type { Polygon, Solid, Vec2 } from '../../core/solid/types.js';
import type { KnuckleSection } from './knuckle-section.js';
import { type KnuckleRow, type LeafSide, notchSpans, type Span } from './knuckles.js';

/** The notches of one leaf. */
export interface Notches {
  readonly row: KnuckleRow;
  readonly side: LeafSide;
  readonly section: KnuckleSection;
  /** Axis to the floor, mm. */
  readonly floor: number;
  /** Rounding of the inner corners in plan, mm. */
  readonly radius: number;
}

/** The corners' rounding ends this far under the inner face, mm. */
const underFace = 0.02;

/**
 * What the notches for the other leaf's knuckles take away, about the pin's axis along Y at z = 0: open towards −x,
 * and past the row's end where one lies there. Their inner corners are round as high as the flat leaf; over that,
 * where only the fillet's foot stands, they are square, so that nothing of barrel and fillet is left in them for the
 * other leaf to meet. Their sides, the ends of the knuckles, have the mating stock, the floor and corners the skin's.
 */
export function notchTools(
  notches: Notches,
  stock: { readonly mating: number; readonly skin: number },
  kit: BuildKit,
): readonly Solid[] {
  return notchSpans(notches.row, notches.side).flatMap((span) => notchTool(notches, span, stock, kit));
}

function notchTool(
  { row: { length }, section, floor: finished, radius: rounding }: Notches,
  [from, to]: Span,
  { mating, skin }: { readonly mating: number; readonly skin: number },
  { kernel, tolerance }: BuildKit,
): readonly Solid[] {
  const past = skin + 1;
  const open = -(section.barrelRadius + past);
  const floor = finished - skin;
  const [atStart, atEnd] = [from <= -length / 2, to >= length / 2];
  const low = atStart ? from - past : from + mating;
  const high = atEnd ? to + past : to - mating;
  const radius = Math.max(0, rounding - skin);
  const tall = section.barrelRadius + past;
  const box = (z: number): Solid => kernel.box([open, low, z], [floor, high, tall]);
  if (radius < 1e-6) return [box(-tall)];
  const corner = (y: number, hand: 1 | -1, square: boolean): Vec2[] => {
    if (square) return [[floor, y]];
    const chords = Math.max(2, Math.ceil(segmentsOfCircle(radius, tolerance) / 4));
    return Array.from({ length: chords + 1 }, (_, i): Vec2 => {
      const share = hand < 0 ? i / chords : 1 - i / chords;
      const a = (share * Math.PI) / 2;
      // From the side at y to the floor, about a centre inside the notch.
      return [floor - radius + radius * maths.sin(a), y - hand * radius + hand * radius * maths.cos(a)];
    });
  };
  const plan: Polygon = [[open, low], ...corner(low, -1, atStart), ...corner(high, 1, atEnd), [open, high]];
  return [kernel.extrude([plan], -tall, tall), box(skin - section.faceDrop - underFace)];
}
