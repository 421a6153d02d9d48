import type { Alloy } from '../foundry/alloys/index.js';
import { allowableStress, elasticModulus, usualSafetyFactor } from '../foundry/cast-strength.js';

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

/** E. Buckingham, Analytical Mechanics of Gears, 1949 (from memory): 90 000 psi cast iron, 83 000 psi phosphor bronze. */
const psi = 0.006894757;
const ironEndurance = 90_000 * psi;
const bronzeEndurance = 83_000 * psi;

/**
 * A casting alloy as gear material: tensile strength over `safetyFactor`, and never more than two thirds of the yield
 * strength. Strengths are minima of sand castings; a soft or unsound casting is weaker.
 * RangeError for a safety factor below 1.
 */
export function castGearMaterial(
  alloy: Pick<Alloy, 'name' | 'title' | 'family' | 'strength' | 'composition'>,
  safetyFactor = usualSafetyFactor,
): GearMaterial {
  const { stress, basis } = allowableStress(alloy, safetyFactor);
  const tin = alloy.composition.Sn?.nominal ?? 0;
  return {
    name: alloy.title,
    allowableStress: stress,
    basis,
    elasticModulus: elasticModulus(alloy),
    surfaceEndurance:
      alloy.family === 'iron'
        ? ironEndurance
        : alloy.family === 'copper' && tin >= 8
          ? bronzeEndurance
          : null,
  };
}
