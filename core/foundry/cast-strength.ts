/** What a cast section may carry: shared by teeth, hinges, cleats and pulls. MPa = N/mm². */
import type { Alloy, AlloyFamily } from './alloys/index.js';

/** Young's modulus by family, MPa (handbook values, from memory; grey iron class 30 by the tangent at low load). */
const elasticModuli: Readonly<Record<AlloyFamily, number>> = {
  copper: 105_000,
  aluminium: 72_000,
  zinc: 83_000,
  iron: 103_000,
  tin: 50_000,
  silver: 75_000,
};

export const elasticModulus = (alloy: Pick<Alloy, 'family'>): number => elasticModuli[alloy.family];

/**
 * Share of the specified tensile strength that a section may carry at rest. A factor of 4 turns C90500's 276 MPa
 * into 69 MPa, the 10 000 psi that catalogues of Lewis ratings give for bronze, and class 30 iron's 207 MPa into
 * 52 MPa against the 8 000 psi (55 MPa) of older handbooks.
 */
export const usualSafetyFactor = 4;

export interface AllowableStress {
  /** In tension and bending, MPa. */
  readonly stress: number;
  /** How it came about, in words. */
  readonly basis: string;
}

/**
 * Tensile strength over `safetyFactor`, and never more than two thirds of the yield strength. Strengths are those of
 * the alloy table, most of them minima of sand castings; a soft or unsound casting is weaker.
 * RangeError for a safety factor below 1.
 */
export function allowableStress(
  alloy: Pick<Alloy, 'strength'>,
  safetyFactor = usualSafetyFactor,
): AllowableStress {
  if (!(safetyFactor >= 1)) throw new RangeError(`safety factor is ${safetyFactor}; it must be at least 1`);
  const { tensile, yield: proof } = alloy.strength;
  const byTensile = tensile / safetyFactor;
  const byYield = proof === null ? Number.POSITIVE_INFINITY : (2 / 3) * proof;
  return {
    stress: Math.min(byTensile, byYield),
    basis:
      byTensile <= byYield
        ? `${tensile} MPa tensile, as cast, over a safety factor of ${safetyFactor}`
        : `two thirds of ${proof} MPa yield, as cast`,
  };
}
