import { maths } from '../maths/maths.js';
import type { PlaneCurve } from '../solid/sample-curve.js';
import { cartesian, flankPoint, type InvoluteFlank, type PolarPoint, rollAtRadius } from './rack-envelope.js';

/** The end of a tooth at its tip cylinder. */
export interface Tip {
  /** Roll angle ξ of the flank's highest point. */
  readonly roll: number;
  /** Half angle of the tip land, rad; negative where the flanks meet below the tip. */
  readonly halfAngle: number;
  /** Radius as made, mm; 0 for a sharp corner. */
  readonly rounding: number;
  /** Centre of the rounding; the sharp corner itself without one. */
  readonly centre: PolarPoint;
  /** The rounding from tip land to flank, where there is one. */
  readonly curve?: PlaneCurve;
}

/**
 * The tip corner, rounded by a circle tangent to flank and tip cylinder. Its centre lies on the involute offset
 * inward by ρ (the same base circle, started ρ / r_b nearer the tooth's middle) and on the circle r_a − ρ.
 * A radius that does not fit between the tooth's middle and `lowestRoll` is cut down to the largest that does.
 * @param asked mm, ≥ 0
 */
export function roundTip(flank: InvoluteFlank, tipRadius: number, asked: number, lowestRoll: number): Tip {
  const sharpRoll = rollAtRadius(flank, tipRadius);
  const corner = flankPoint(flank, sharpRoll);
  const sharp: Tip = { roll: sharpRoll, halfAngle: corner.angle, rounding: 0, centre: corner };
  if (asked <= 0 || corner.angle <= 0) return sharp;
  const rb = flank.baseRadius;
  const fitted = (rounding: number) => {
    const centreRadius = tipRadius - rounding;
    const centreRoll = rollAtRadius(flank, centreRadius);
    const angle = flank.baseHalfAngle - rounding / rb - (centreRoll - maths.atan(centreRoll));
    return { centreRadius, angle, roll: centreRoll + rounding / rb };
  };
  const fits = (rounding: number): boolean => {
    const f = fitted(rounding);
    return f.centreRadius > rb && f.angle >= 0 && f.roll > lowestRoll;
  };
  let rounding = asked;
  if (!fits(rounding)) {
    let low = 0;
    for (let i = 0; i < 60; i++) {
      const middle = (low + rounding) / 2;
      if (fits(middle)) low = middle;
      else rounding = middle;
    }
    rounding = low;
  }
  if (rounding < 1e-6) return sharp;
  const f = fitted(rounding);
  const centre: PolarPoint = { radius: f.centreRadius, angle: f.angle };
  const [cx, cy] = cartesian(centre);
  // The flank's normal at the contact is tangential to the base circle at angle ψ_b − ξ.
  const contact = flank.baseHalfAngle - f.roll + Math.PI / 2;
  return {
    roll: f.roll,
    halfAngle: f.angle,
    rounding,
    centre,
    curve: {
      from: f.angle,
      to: contact,
      at: (t) => [cx + rounding * maths.cos(t), cy + rounding * maths.sin(t)],
    },
  };
}
