import type { BuildKit } from '../../core/part/contract.js';
import type { Stock } from '../../core/part/stock.js';
import { type Outline, plateSolid, roundEdge } from '../../core/shape/index.js';
import type { Solid } from '../../core/solid/types.js';
import { type ScrewHolePlan, screwHoleTools } from '../hardware/screw-holes.js';
import { knuckleOutline } from '../hinge/knuckle-section.js';
import { knuckleSpans, type LeafSide } from '../hinge/knuckles.js';
import { notchTools } from '../hinge/notch-tools.js';
import { type BorePlan, boreTools } from '../hinge/pin-bore.js';
import { plateOutline, strapOutline } from './outlines.js';
import type { StrapHingeSizes } from './sizes.js';

/** The plate has the outer knuckles, the strap the inner. */
export type StrapLeaf = 'strap' | 'plate';
export const sideOf = (leaf: StrapLeaf): LeafSide => (leaf === 'plate' ? 'outer' : 'inner');

export const leafOutlineOf = (s: StrapHingeSizes, leaf: StrapLeaf): Outline =>
  leaf === 'plate' ? plateOutline(s) : strapOutline(s);

export const screwsOf = (s: StrapHingeSizes, leaf: StrapLeaf) =>
  leaf === 'plate' ? s.plateScrewsAt : s.strapScrewsAt;

/** How far the barrel's own strip of leaf goes into strap or plate, mm. */
const lap = 1;

/**
 * Strap or plate with a barrel over the whole row, the pin's axis along Y at z = 0; knuckles and bore are cut after.
 * Two bodies: the prism of a knuckle's section, its ends rounded, and the plan's plate, its edges rounded alike. Where
 * they lap, all their faces are the same.
 */
function wholeBarrel(
  s: StrapHingeSizes,
  leaf: StrapLeaf,
  { skin }: Stock,
  { kernel, tolerance }: BuildKit,
): Solid {
  const edge = roundEdge(s.edge);
  const grown = { side: skin, top: skin, bottom: skin };
  const half = s.rootWidth / 2;
  const prism = plateSolid(
    kernel,
    {
      outline: knuckleOutline({ ...s.strapSection, reach: s.leafStart + s.edge + lap, edge: 0 }),
      z0: -half,
      z1: half,
      topEdge: edge,
      bottomEdge: edge,
    },
    tolerance,
    grown,
  ).rotate('x', Math.PI / 2);
  const plate = plateSolid(
    kernel,
    {
      outline: leafOutlineOf(s, leaf),
      z0: -s.barrelRadius,
      z1: -s.strapSection.faceDrop,
      topEdge: edge,
      bottomEdge: edge,
    },
    tolerance,
    grown,
  );
  return prism.add(plate);
}

/** z of the inner face, finished. */
export const faceHeight = (s: StrapHingeSizes): number => s.thickness;

export const screwStock = (stock: Stock) => ({ bore: stock.bore, top: stock.skin, under: stock.skin });

/** Strap or plate in one state, back down at z = 0. The checks must have passed. */
export function leafSolid(
  s: StrapHingeSizes,
  leaf: StrapLeaf,
  stock: Stock,
  plans: { readonly bore: BorePlan; readonly holes: ScrewHolePlan },
  kit: BuildKit,
): Solid {
  const side = sideOf(leaf);
  const body = wholeBarrel(s, leaf, stock, kit);
  const tools = [
    ...notchTools(
      { row: s.row, side, section: s.strapSection, floor: s.notchFloor, radius: s.notchRadius },
      stock,
      kit,
    ),
    ...boreTools(
      plans.bore,
      s.holeDiameter,
      knuckleSpans(s.row, side),
      { bore: stock.bore, ends: side === 'outer' ? stock.skin : stock.mating },
      kit,
      side === 'outer' && s.rivetMouth > 0 ? { mouthDiameter: s.rivetMouth } : undefined,
    ),
  ];
  const cut = body.subtract(...tools).translate([0, 0, s.barrelRadius]);
  const at = screwsOf(s, leaf);
  if (at.length === 0) return cut;
  const holes = screwHoleTools(
    { seat: s.screw.seat, at, mouth: faceHeight(s), sink: 0, clear: 0 },
    plans.holes,
    screwStock(stock),
    kit,
  );
  return holes.length === 0 ? cut : cut.subtract(...holes);
}
