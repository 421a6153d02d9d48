import { maths } from '../maths/maths.js';
import type { FlankTable } from './flank-table.js';

/**
 * Contact along the transverse line of action of two external gears, which runs from one base circle's tangent
 * point T₁ to the other's T₂. Places on it are given by ρ₁, the distance from T₁, which is the gear's radius of
 * curvature there; the mate's is what is left of |T₁T₂|. ISO 21771:2007, clause 5.
 */
export interface LineContact {
  /** |T₁T₂| = a sin α_wt, mm. */
  readonly tangentDistance: number;
  /** ρ₁ where contact begins, at the gear's root and the mate's tip, and where it ends; mm. */
  readonly from: number;
  readonly to: number;
  /** g_α, mm: 0 when the flanks never meet. */
  readonly length: number;
  /** How far the mate's tip reaches below the lowest point of the gear's involute, mm along the line; ≤ 0 is right. */
  readonly belowGearInvolute: number;
  readonly belowMateInvolute: number;
}

export function lineContact(
  gear: FlankTable,
  mate: FlankTable,
  distance: number,
  alphaWt: number,
): LineContact {
  const whole = distance * maths.sin(alphaWt);
  const [tipOfMate, tipOfGear] = [whole - mate.highCurvature, gear.highCurvature];
  const [footOfGear, footOfMate] = [gear.lowCurvature, whole - mate.lowCurvature];
  const [from, to] = [Math.max(tipOfMate, footOfGear), Math.min(tipOfGear, footOfMate)];
  return {
    tangentDistance: whole,
    from,
    to,
    length: Math.max(0, to - from),
    belowGearInvolute: footOfGear - tipOfMate,
    belowMateInvolute: tipOfGear - footOfMate,
  };
}

/** The stretch of the line of action that flanks use, as ρ₁, mm. */
export type ContactSpan = Pick<LineContact, 'from' | 'to'>;

/** The same for a pinion in a ring, whose ρ₂ − ρ₁ = a sin α_wt. */
export function internalContact(
  pinion: FlankTable,
  ring: FlankTable,
  distance: number,
  alphaWt: number,
): ContactSpan & { readonly tangentDistance: number } {
  const whole = distance * maths.sin(alphaWt);
  return {
    tangentDistance: whole,
    from: Math.max(pinion.lowCurvature, ring.lowCurvature - whole),
    to: Math.min(pinion.highCurvature, ring.highCurvature - whole),
  };
}

/**
 * Specific sliding ζ₁ = 1 − (ρ₂ / ρ₁) (z₁ / z₂), the sliding velocity over the rolling velocity of the flank it is
 * reckoned on (ISO 21771:2007). −Infinity at the flank's own base circle.
 */
export const specificSliding = (
  ownCurvature: number,
  otherCurvature: number,
  ownTeeth: number,
  otherTeeth: number,
): number =>
  ownCurvature <= 0
    ? Number.NEGATIVE_INFINITY
    : 1 - (otherCurvature * ownTeeth) / (ownCurvature * otherTeeth);
