import type { BuildKit } from '../../core/part/contract.js';
import type { Stock } from '../../core/part/stock.js';
import { plateSolid, roundEdge } from '../../core/shape/index.js';
import type { Solid } from '../../core/solid/types.js';
import { type ScrewHolePlan, screwHoleTools } from '../hardware/screw-holes.js';
import { knuckleOutline } from '../hinge/knuckle-section.js';
import { knuckleSpans, type LeafSide } from '../hinge/knuckles.js';
import { notchTools } from '../hinge/notch-tools.js';
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
  const notches = notchTools(
    { row, side, section, floor: sizes.notchFloor, radius: sizes.notchRadius },
    stock,
    kit,
  );
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
