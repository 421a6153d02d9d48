import { maths } from '../../core/maths/maths.js';
import {
  blendFields,
  type Field,
  type Outline,
  plateField,
  rectangleOutline,
  sweepTube,
  type Tube,
  tubeField,
} from '../../core/shape/index.js';
import { leafOutline, waistedOutline } from '../hardware/base-outline.js';
import { underDeck } from '../hardware/deck-body.js';
import { greatest } from '../hardware/greatest.js';
import type { HornCleatSizes } from './sizes.js';

/** Height of the horns' centre line in the middle, over the deck. */
export const crownHeight = ({ baseThickness, clearance, hornHeight }: HornCleatSizes): number =>
  baseThickness + clearance + hornHeight / 2;

/** Height of the horns' centre line at `x` along the cleat: level in the middle, ever steeper outwards. */
export function spineHeight(sizes: HornCleatSizes, x: number): number {
  const share = (2 * x) / sizes.length;
  return crownHeight(sizes) + sizes.sweep * (0.6 * share ** 2 + 0.4 * maths.pow(share, 4));
}

/** Half the height of a horn at a share of its length: full in the middle, then tapering evenly. */
export function hornHalf({ hornHeight, tipHeight }: HornCleatSizes, share: number): number {
  const round = 0.35;
  const taper = (maths.hypot(round, share) - round) / (maths.hypot(round, 1) - round);
  return (hornHeight + (tipHeight - hornHeight) * taper) / 2;
}

/** Squareness of a horn's section in the middle: a little flatter than an ellipse where screw heads lie in it. */
export const crownExponent = ({ fasteners }: Pick<HornCleatSizes, 'fasteners'>): number =>
  fasteners === 2 ? 2.35 : 2.1;

/** Both horns, one tube from tip to tip. Its tips reach the asked length over all, whatever their slope. */
export function hornTube(sizes: HornCleatSizes): Tube {
  const ratio = sizes.hornWidth / sizes.hornHeight;
  const nose = 0.85 * sizes.tipHeight;
  const make = (half: number): Tube =>
    sweepTube({
      spine: (t) => [(2 * t - 1) * half, 0, spineHeight(sizes, (2 * t - 1) * half)],
      across: [0, 1, 0],
      section: (t) => {
        const share = Math.abs(2 * t - 1);
        const above = hornHalf(sizes, share);
        const fade = Math.max(0, 1 - share * share) ** 2;
        // Broad over the screws, round at the tips.
        const breadth = 1.04 + (ratio - 1.04) * fade;
        return { across: breadth * above, above, exponent: 2 + (crownExponent(sizes) - 2) * fade };
      },
      roundStart: nose,
      roundEnd: nose,
    });
  let half = sizes.length / 2;
  for (let i = 0; i < 3; i++) half -= extremes(make(half)).x - sizes.length / 2;
  return make(half);
}

/** The furthest x and the greatest height of the horns. */
export function extremes(tube: Tube): { readonly x: number; readonly z: number } {
  return {
    x: greatest((u) => tube.at(u, 0.75)[0], 0.5, 1),
    z: greatest((u) => tube.at(u, 0.25)[2], 0.5, 1),
  };
}

/** Section of a leg or the neck, rounded as far as its thickness goes. */
const legOutline = ({ legLength, legWidth }: HornCleatSizes, x: number): Outline =>
  rectangleOutline([x, 0], legLength, legWidth, 0.49 * Math.min(legLength, legWidth));

/** Legs, or the neck: from under the deck up into the horns. */
function legFields(sizes: HornCleatSizes, low: number): readonly Field[] {
  const { legAt, legLength, legWidth, hornHeight, base } = sizes;
  const edge = Math.min(0.2 * hornHeight, 0.4 * Math.min(legLength, legWidth));
  const at = (x: number): Field =>
    plateField({
      outline: legOutline(sizes, x),
      z0: low,
      // Ends well inside the horns, rounded so as to stay there.
      z1: crownHeight(sizes) + 0.2 * hornHeight,
      topRadius: edge,
      bottomRadius: 0.5,
    });
  return base === 'closed' ? [at(0)] : [at(legAt), at(-legAt)];
}

/** The base as seen from above: a leaf, or for four screws a plate with drawn-in sides. */
export function baseOutline(sizes: HornCleatSizes): Outline {
  const { baseLength, baseWidth, fasteners, screwAlong, screwAcross, legWidth, fillet, edgeRadius } = sizes;
  if (fasteners === 2) {
    const end = Math.min(0.4 * baseWidth, 0.4 * baseLength);
    return leafOutline(baseLength / 2 - end, end, baseWidth / 2);
  }
  const corner = Math.min(baseLength / 2 - screwAlong, baseWidth / 2 - screwAcross);
  const waist = Math.max(legWidth / 2 + fillet + edgeRadius, 0.68 * (baseWidth / 2));
  return waistedOutline(baseLength / 2 - corner, baseWidth / 2 - corner, corner, waist);
}

/** Horns, legs and base with their fillets, legs and base going on under the deck. */
export function cleatField(sizes: HornCleatSizes, mating: number): Field {
  const low = -underDeck - mating;
  const base = plateField({
    outline: baseOutline(sizes),
    z0: low,
    z1: sizes.baseThickness,
    topRadius: sizes.edgeRadius,
    bottomRadius: sizes.edgeRadius,
  });
  const body = blendFields([tubeField(hornTube(sizes)), ...legFields(sizes, low + 1), base], sizes.fillet);
  // What the first mesh must not miss: tips, legs and base between their sides, fillets.
  const thin = Math.min(
    sizes.tipHeight,
    sizes.legWidth,
    sizes.legLength,
    sizes.baseThickness,
    2 * sizes.fillet,
  );
  return { ...body, detail: Math.min(body.detail, 0.5 * thin) };
}
