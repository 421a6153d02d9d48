import { maths } from '../maths/maths.js';
import { baseHalfAngle, gearGeometry } from './gear-geometry.js';
import { inverseInvolute } from './involute.js';
import { backlash, centreDistance, referenceCentreDistance, workingPressureAngleAt } from './pair.js';
import type { GearSpec } from './spec.js';

/** The same play said in the ways a shop asks for it. */
export interface BacklashSizes {
  /** j_wt, arc at the working pitch circle in the transverse section, mm. */
  readonly circumferential: number;
  /** j_bn = j_wt cos α_wt cos β_b, shortest distance between the flanks, mm: what a feeler gauge finds. */
  readonly normal: number;
  /** How far the axes may close before the teeth bind on both flanks, mm; Infinity when they never would. */
  readonly centreDistance: number;
  /** Play of each gear with the other held, rad. */
  readonly gearAngle: number;
  readonly mateAngle: number;
}

export type BacklashKind = 'circumferential' | 'normal' | 'centre-distance';

/**
 * The centre distance at which both flanks touch, mm: inv α_w0 = (z₁ψ₁ + z₂ψ₂ − π) / (z₁ + z₂), ψ being the half
 * angles of the teeth at their base circles (ISO 21771:2007, written for the thickness as it is, thinning and all).
 * Zero when the teeth are so thin that the base circles touch first.
 */
export function tightCentreDistance(gear: GearSpec, mate: GearSpec): number {
  const sum = gear.teeth + mate.teeth;
  const value = (gear.teeth * baseHalfAngle(gear) + mate.teeth * baseHalfAngle(mate) - Math.PI) / sum;
  if (value < 0) return 0;
  const least = referenceCentreDistance(gear, mate) * maths.cos(gearGeometry(gear).transversePressureAngle);
  return least / maths.cos(inverseInvolute(value));
}

/** Backlash at a centre distance, mm (by default the pair's own), in every way of saying it. */
export function backlashSizes(
  gear: GearSpec,
  mate: GearSpec,
  distance = centreDistance(gear, mate),
): BacklashSizes {
  const { circumferential, normal } = backlash(gear, mate, distance);
  const sum = gear.teeth + mate.teeth;
  const tight = tightCentreDistance(gear, mate);
  return {
    circumferential,
    normal,
    centreDistance: tight > 0 ? distance - tight : Number.POSITIVE_INFINITY,
    gearAngle: circumferential / ((distance * gear.teeth) / sum),
    mateAngle: circumferential / ((distance * mate.teeth) / sum),
  };
}

/**
 * A backlash of one kind as circumferential backlash j_wt, mm. Normal by j_wt = j_bn / (cos α_wt cos β_b), centre
 * distance by the exact change of the involutes: j_wt = 2 a (inv α_wt − inv α_w0), α_w0 at a − Δa; for small Δa
 * this is the handbooks' 2 Δa tan α_wt. RangeError when closing by Δa would bring the base circles together.
 */
export function circumferentialFrom(
  kind: BacklashKind,
  value: number,
  gear: GearSpec,
  mate: GearSpec,
  distance = centreDistance(gear, mate),
): number {
  const alphaWt = workingPressureAngleAt(gear, mate, distance);
  if (kind === 'circumferential') return value;
  if (kind === 'normal') return value / (maths.cos(alphaWt) * maths.cos(gearGeometry(gear).baseHelixAngle));
  const closed = workingPressureAngleAt(gear, mate, distance - value);
  return 2 * distance * (maths.tan(alphaWt) - alphaWt - (maths.tan(closed) - closed));
}

/**
 * Total thinning of the two gears (normal, at their reference cylinders), mm, that gives a circumferential backlash
 * at a centre distance. The thinning they have already is not counted. Exact: the normal backlash is linear in it,
 * j_bn = (Δs_1 + Δs_2) cos α_n + what the centre distance gives. Negative when the distance alone gives more.
 */
export function thinningFor(
  circumferential: number,
  gear: GearSpec,
  mate: GearSpec,
  distance = centreDistance(gear, mate),
): number {
  const alphaWt = workingPressureAngleAt(gear, mate, distance);
  const wanted = circumferential * maths.cos(alphaWt) * maths.cos(gearGeometry(gear).baseHelixAngle);
  const bare = backlash({ ...gear, thinning: 0 }, { ...mate, thinning: 0 }, distance).normal;
  return (wanted - bare) / maths.cos(gear.normalPressureAngle);
}

/**
 * How the thinning is shared: `equal`; all on the wheel where the pinion's teeth are the weak ones; all on gear 1
 * where its mate is there already.
 */
export const thinningSplits = ['equal', 'wheel', 'gear-1'] as const;
export type ThinningSplit = (typeof thinningSplits)[number];

/** Both gears with a total thinning, mm, shared between them; the wheel is the one with more teeth. */
export function withThinning(
  gear: GearSpec,
  mate: GearSpec,
  total: number,
  split: ThinningSplit = 'equal',
): [GearSpec, GearSpec] {
  if (split === 'equal')
    return [
      { ...gear, thinning: total / 2 },
      { ...mate, thinning: total / 2 },
    ];
  const gearIsWheel = split === 'gear-1' || gear.teeth > mate.teeth;
  return [
    { ...gear, thinning: gearIsWheel ? total : 0 },
    { ...mate, thinning: gearIsWheel ? 0 : total },
  ];
}
