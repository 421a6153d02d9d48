import type { Alloy, AlloyFamily } from '../foundry/alloys/index.js';

/** What the strength reckoning wants of a material. MPa = N/mm². */
export interface GearMaterial {
  readonly name: string;
  /** Static stress allowed at the tooth's foot, MPa. */
  readonly allowableStress: number;
  /** How the allowable stress came about, in words. */
  readonly basis: string;
  /** MPa */
  readonly elasticModulus: number;
  /** Surface endurance limit for Buckingham's wear load, MPa; null where no open figure is known. */
  readonly surfaceEndurance: number | null;
}

/** Young's modulus by family, MPa (handbook values, from memory; grey iron class 30 by the tangent at low load). */
const elasticModuli: Readonly<Record<AlloyFamily, number>> = {
  copper: 105_000,
  aluminium: 72_000,
  zinc: 83_000,
  iron: 103_000,
  tin: 50_000,
  silver: 75_000,
};

/** E. Buckingham, Analytical Mechanics of Gears, 1949 (from memory): 90 000 psi cast iron, 83 000 psi phosphor bronze. */
const psi = 0.006894757;
const ironEndurance = 90_000 * psi;
const bronzeEndurance = 83_000 * psi;

/**
 * Share of the specified tensile strength that the tooth's foot may carry at rest. A factor of 4 turns C90500's
 * 276 MPa into 69 MPa, the 10 000 psi that catalogues of Lewis ratings give for bronze, and class 30 iron's 207 MPa
 * into 52 MPa against the 8 000 psi (55 MPa) of older handbooks.
 */
export const usualSafetyFactor = 4;

/**
 * A casting alloy as gear material: tensile strength over `safetyFactor`, and never more than two thirds of the yield
 * strength. Strengths are minima of sand castings; a soft or unsound casting is weaker.
 * RangeError for a safety factor below 1.
 */
export function castGearMaterial(
  alloy: Pick<Alloy, 'name' | 'title' | 'family' | 'strength' | 'composition'>,
  safetyFactor = usualSafetyFactor,
): GearMaterial {
  if (!(safetyFactor >= 1)) throw new RangeError(`safety factor is ${safetyFactor}; it must be at least 1`);
  const { tensile, yield: proof } = alloy.strength;
  const byTensile = tensile / safetyFactor;
  const byYield = proof === null ? Number.POSITIVE_INFINITY : (2 / 3) * proof;
  const tin = alloy.composition.Sn?.nominal ?? 0;
  return {
    name: alloy.title,
    allowableStress: Math.min(byTensile, byYield),
    basis:
      byTensile <= byYield
        ? `${tensile} MPa tensile, as cast, over a safety factor of ${safetyFactor}`
        : `two thirds of ${proof} MPa yield, as cast`,
    elasticModulus: elasticModuli[alloy.family],
    surfaceEndurance:
      alloy.family === 'iron'
        ? ironEndurance
        : alloy.family === 'copper' && tin >= 8
          ? bronzeEndurance
          : null,
  };
}
