import type { BuildKit } from '../../core/part/contract.js';
import type { Stock } from '../../core/part/stock.js';
import { plateSolid, roundEdge } from '../../core/shape/index.js';
import { segmentsOfCircle } from '../../core/solid/segments.js';
import type { Polygon, Solid, Vec2 } from '../../core/solid/types.js';
import { type ScrewHolePlan, screwHoleTools } from '../hardware/screw-holes.js';
import { knuckleOutline } from '../hinge/knuckle-section.js';
import { knuckleSpans, type LeafSide, notchSpans, type Span } from '../hinge/knuckles.js';
import { type BorePlan, boreTools } from '../hinge/pin-bore.js';
import type { ButtHingeSizes } from './sizes.js';

/** The pin's axis lies along Y at this height; the barrel's lowest line, and the back if flush, at z = 0. */
export const axisHeight = ({ section }: ButtHingeSizes): number => section.barrelRadius;

/** z of the inner face, finished. */
export const faceHeight = ({ section }: ButtHingeSizes): number => section.barrelRadius - section.faceDrop;

/** One leaf in one state, back down. The checks must have passed. */
export function leafSolid(
  sizes: ButtHingeSizes,
  side: LeafSide,
  stock: Stock,
  plans: { readonly bore: BorePlan; readonly holes: ScrewHolePlan },
  kit: BuildKit,
): Solid {
  const { kernel, tolerance } = kit;
  const { section, length, row } = sizes;
  const edge = roundEdge(section.edge);
  const prism = plateSolid(
    kernel,
    { outline: knuckleOutline(section), z0: -length / 2, z1: length / 2, topEdge: edge, bottomEdge: edge },
    tolerance,
    { side: stock.skin, top: stock.skin, bottom: stock.skin },
  ).rotate('x', Math.PI / 2);
  const notches = notchSpans(row, side).flatMap((span) => notchTools(sizes, span, stock, kit));
  const bore = boreTools(
    plans.bore,
    sizes.holeDiameter,
    knuckleSpans(row, side),
    { bore: stock.bore, ends: side === 'outer' ? stock.skin : stock.mating },
    kit,
    side === 'outer' && sizes.rivetMouth > 0 ? { mouthDiameter: sizes.rivetMouth } : undefined,
  );
  const axis = axisHeight(sizes);
  const leaf = prism.subtract(...notches, ...bore).translate([0, 0, axis]);
  if (sizes.screwsAt.length === 0) return leaf;
  const face = faceHeight(sizes);
  const holes = screwHoleTools(
    { seat: sizes.screw.seat, at: sizes.screwsAt, mouth: face, sink: 0, clear: 0 },
    plans.holes,
    screwStock(sizes, stock),
    kit,
  );
  return holes.length === 0 ? leaf : leaf.subtract(...holes);
}

/** The back lies over z = 0 where the barrel is proud of it. */
export const screwStock = ({ section }: ButtHingeSizes, stock: Stock) => ({
  bore: stock.bore,
  top: stock.skin,
  under: stock.skin - (section.barrelRadius - section.backDrop),
});

/** The corners' rounding ends this far under the inner face, mm. */
const underFace = 0.02;

/**
 * A notch about the pin's axis: open towards −x, and past the leaf's end where it lies there. Its inner corners are
 * round as high as the flat leaf; over that, where only the fillet's foot stands, they are square, so that nothing of
 * barrel and fillet is left in them for the other leaf to meet.
 */
function notchTools(
  { notchFloor, notchRadius, section, length }: ButtHingeSizes,
  [from, to]: Span,
  { mating, skin }: Stock,
  { kernel, tolerance }: BuildKit,
): readonly Solid[] {
  const past = skin + 1;
  const open = -(section.barrelRadius + past);
  const floor = notchFloor - mating;
  const [atStart, atEnd] = [from <= -length / 2, to >= length / 2];
  const low = atStart ? from - past : from + mating;
  const high = atEnd ? to + past : to - mating;
  const radius = Math.max(0, notchRadius - mating);
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
      return [floor - radius + radius * Math.sin(a), y - hand * radius + hand * radius * Math.cos(a)];
    });
  };
  const plan: Polygon = [[open, low], ...corner(low, -1, atStart), ...corner(high, 1, atEnd), [open, high]];
  return [kernel.extrude([plan], -tall, tall), box(skin - section.faceDrop - underFace)];
}
