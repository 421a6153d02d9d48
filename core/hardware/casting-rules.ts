/** Rules of shape for castings in an investment mould. mm. */
import type { Alloy } from '../foundry/alloys/index.js';
import { type Finding, warn } from '../part/finding.js';
import { formatNumber } from '../units/format-number.js';

/**
 * Fillet between two sections: a third of the thinner at least, half of their mean usually, never under 1 mm (founders'
 * rule, a third to a half of the section; from memory; 1 mm common practice, no source). A larger one makes a hot spot.
 */
export const filletRadius = (first: number, second = first) => ({
  least: Math.max(1, Math.min(first, second) / 3),
  usual: Math.max(1, (first + second) / 4),
  most: Math.max(1, Math.max(first, second)),
});

/** Draft: none is needed, for the pattern burns out of the mould instead of being drawn, radians. */
export const draftAngle = 0;

/** Rounding of outside edges as cast: sharper ones do not fill and do not last on the pattern (common practice, no source). */
export const leastEdgeRadius = 0.5;

/** Flat left between two bevels or roundings (common practice, no source). */
export const leastLand = 0.6;

/** Thinnest wall that fills: the alloy's, for castings of hand size; 1 mm for any (investment-foundry guides, 1.0 to 2.0 mm). */
export const leastWall = (alloy?: Pick<Alloy, 'minimumSection'>): number => alloy?.minimumSection ?? 1;

/** Thinnest fin of plaster between two walls of the casting that holds (common practice, no source). */
export const leastFin = 1.5;

/**
 * How deep such a fin may be: as deep as thick to 2 mm, twice to 4 mm, three times beyond where it stands on one edge,
 * five times where it is held on two (common practice, no source; plaster is weaker than the fired shell that design
 * guides have figures for).
 */
export function finLimit(thickness: number, held: 'one-edge' | 'two-edges' = 'one-edge'): number {
  if (thickness < leastFin) return 0;
  if (thickness < 2) return thickness;
  if (thickness < 4) return 2 * thickness;
  return (held === 'one-edge' ? 3 : 5) * thickness;
}

/** A finding where a slot's fin of plaster would break; nothing where it holds. `where`: `between horn and base`. */
export function finFindings(
  thickness: number,
  depth: number,
  where: string,
  held: 'one-edge' | 'two-edges' = 'one-edge',
  ...parameters: string[]
): readonly Finding[] {
  const limit = finLimit(thickness, held);
  if (depth <= limit + 1e-9) return [];
  const mm = (value: number): string => `${formatNumber(value, { digits: 2 })} mm`;
  return [
    warn(
      'mould-fin-thin',
      `the mould's fin ${where} is ${mm(thickness)} thick and ${mm(depth)} deep; ${limit === 0 ? `under ${mm(leastFin)} none holds` : `this thick it holds to ${mm(limit)}`}`,
      'widen the gap, make it shallower or fill it and cut it in the metal',
      ...parameters,
    ),
  ];
}

/** Thickest over thinnest section of a casting: 1 is even; over 2 the thick place wants a taper or a feeder (common practice, no source). */
export function sectionUniformity(thicknesses: readonly number[]): number {
  if (thicknesses.length === 0) throw new RangeError('no section given');
  return Math.max(...thicknesses) / Math.min(...thicknesses);
}
export const mostUniformity = 2;

/**
 * Largest circle in the T of a rib on a plate, with its fillets (Heuvers' circles): it touches the plate's far side
 * and both fillets; diameter ((a/2 + r)² + (t + r)² − r²) / (t + 2 r). Over the sections it measures the hot spot.
 * @param plate thickness t
 * @param rib thickness a, up to 2 t
 * @param fillet radius r
 */
export const junctionCircle = (plate: number, rib: number, fillet: number): number =>
  ((rib / 2 + fillet) ** 2 + (plate + fillet) ** 2 - fillet ** 2) / (plate + 2 * fillet);
