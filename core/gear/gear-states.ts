import { maths } from '../maths/maths.js';
import type { GearSpec } from './spec.js';

/**
 * The gear whose flanks are the given gear's, moved out by `stock` mm along their normal.
 *
 * The parallel of an involute helicoid is one of the same base cylinder. Along the base tangent in the
 * transverse section the move is s / cos β_b, so the tooth grows by the angle 2 s / (cos β_b r_b), which is
 * 2 s cos β / (cos β_b cos α_t) of normal thickness at the reference cylinder. With
 * cos β_b cos α_t = cos β cos α_n (ISO 21771:2007) that is 2 s / cos α_n.
 *
 * Only the flanks and what is measured on them (span, pins, chordal thickness, backlash) are those of the
 * casting: root and fillet are those the thinner rack would cut, not the moved ones.
 */
export const withFlankStock = (spec: GearSpec, stock: number): GearSpec => ({
  ...spec,
  thinning: spec.thinning - (2 * stock) / maths.cos(spec.normalPressureAngle),
});

/** The gear with its tip circle moved out by `stock` mm a side. */
export const withTipStock = (spec: GearSpec, stock: number): GearSpec => ({
  ...spec,
  tipShortening: (spec.tipShortening ?? 0) - stock,
});

/** The gear uniformly scaled, as a casting is to its pattern: every length by `growth`, every angle kept. */
export const scaleGear = (spec: GearSpec, growth: number): GearSpec => ({
  ...spec,
  normalModule: spec.normalModule * growth,
  thinning: spec.thinning * growth,
  tipShortening: (spec.tipShortening ?? 0) * growth,
});
