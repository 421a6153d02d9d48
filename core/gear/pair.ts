import { maths } from '../maths/maths.js';
import { gearGeometry, transverseThicknessAt } from './gear-geometry.js';
import { inv, inverseInvolute } from './involute.js';
import type { GearSpec } from './spec.js';

/** RangeError unless the two gears are cut by the same basic rack angle, module and helix. */
function requireMates(gear: GearSpec, mate: GearSpec): void {
  for (const key of ['normalModule', 'normalPressureAngle', 'helixAngle'] as const) {
    if (Math.abs(gear[key] - mate[key]) > 1e-9) {
      throw new RangeError(
        `${key} is ${gear[key]} on one gear and ${mate[key]} on the other; mates share it`,
      );
    }
  }
}

/** Reference centre distance a_d = (d_1 + d_2) / 2, mm: where the gears run when x_1 + x_2 = 0. */
export function referenceCentreDistance(gear: GearSpec, mate: GearSpec): number {
  requireMates(gear, mate);
  return (gearGeometry(gear).referenceDiameter + gearGeometry(mate).referenceDiameter) / 2;
}

/**
 * Transverse working pressure angle α_wt of the pair meshing without backlash but for its thinning, rad:
 * inv α_wt = inv α_t + 2 tan α_n (x_1 + x_2) / (z_1 + z_2), ISO 21771:2007.
 * RangeError when the shift sum is so low that no such mesh exists.
 */
export function workingPressureAngle(gear: GearSpec, mate: GearSpec): number {
  requireMates(gear, mate);
  const { transversePressureAngle } = gearGeometry(gear);
  const sum = gear.profileShift + mate.profileShift;
  const involute =
    inv(transversePressureAngle) +
    (2 * maths.tan(gear.normalPressureAngle) * sum) / (gear.teeth + mate.teeth);
  if (involute < 0) {
    const least =
      (-inv(transversePressureAngle) * (gear.teeth + mate.teeth)) / (2 * maths.tan(gear.normalPressureAngle));
    throw new RangeError(`profile shift sum is ${sum}; these tooth numbers need at least ${least}`);
  }
  return inverseInvolute(involute);
}

/** Centre distance a = a_d cos α_t / cos α_wt, mm. Errors as for {@link workingPressureAngle}. */
export function centreDistance(gear: GearSpec, mate: GearSpec): number {
  const { transversePressureAngle } = gearGeometry(gear);
  return (
    (referenceCentreDistance(gear, mate) * maths.cos(transversePressureAngle)) /
    maths.cos(workingPressureAngle(gear, mate))
  );
}

/**
 * Working pressure angle α_wt at a given centre distance, rad: cos α_wt = a_d cos α_t / a.
 * RangeError when the base circles would overlap.
 */
export function workingPressureAngleAt(gear: GearSpec, mate: GearSpec, distance: number): number {
  const least = referenceCentreDistance(gear, mate) * maths.cos(gearGeometry(gear).transversePressureAngle);
  if (!(distance >= least * (1 - 1e-12))) {
    throw new RangeError(`centre distance is ${distance} mm; these base circles need at least ${least} mm`);
  }
  return maths.acos(Math.min(1, least / distance));
}

/** Profile shift sum x_1 + x_2 that makes the pair mesh at a centre distance; the gears' own x are ignored. */
export function profileShiftSum(gear: GearSpec, mate: GearSpec, distance: number): number {
  const alphaWt = workingPressureAngleAt(gear, mate, distance);
  const rise = inv(alphaWt) - inv(gearGeometry(gear).transversePressureAngle);
  return ((gear.teeth + mate.teeth) * rise) / (2 * maths.tan(gear.normalPressureAngle));
}

/** Working pitch diameters d_w1, d_w2 at a centre distance, mm. */
export const workingDiameters = (gear: GearSpec, mate: GearSpec, distance: number): [number, number] => {
  const sum = gear.teeth + mate.teeth;
  return [(2 * distance * gear.teeth) / sum, (2 * distance * mate.teeth) / sum];
};

/**
 * Tip shortening k m_n, mm, that keeps the rack's root clearance on both gears when their shift sum opens the
 * centre distance: k m_n = m_n (x_1 + x_2) − (a − a_d), not negative. It gives the tip heights
 * h_a1 = (1 + y − x_2) m of Elements of Metric Gear Technology, 4.5; ISO 21771 counts k with the opposite sign.
 */
export const pairTipShortening = (gear: GearSpec, mate: GearSpec): number =>
  Math.max(
    0,
    gear.normalModule * (gear.profileShift + mate.profileShift) -
      (centreDistance(gear, mate) - referenceCentreDistance(gear, mate)),
  );

/** Both gears with the tip shortening of the pair in place of their own. */
export function withPairTipShortening(gear: GearSpec, mate: GearSpec): [GearSpec, GearSpec] {
  const tipShortening = pairTipShortening(gear, mate);
  return [
    { ...gear, tipShortening },
    { ...mate, tipShortening },
  ];
}

/** Contact along the transverse line of action, mm, bounded by the two tip circles. */
export interface PathOfContact {
  /** g_α, the length of the path; it ends at a base tangent point where a tip reaches past one. */
  readonly length: number;
  /** The same between the tip circles, tangent points or no: the figure handbooks give. */
  readonly nominalLength: number;
  /** From the pitch point to the gear's tip circle: its addendum path. */
  readonly gearAddendum: number;
  /** From the pitch point to the mate's tip circle. */
  readonly mateAddendum: number;
  /** The mate's tip would reach past the point where the line of action leaves the gear's base circle. */
  readonly interferesOnGear: boolean;
  readonly interferesOnMate: boolean;
}

/**
 * Path of contact at a centre distance (by default the pair's own), ISO 21771:2007. The flanks are taken
 * to be involute down to the base circle: what undercut removes is not considered. Past a base tangent point
 * there is no contact, so the path ends there and the interference is reported.
 */
export function pathOfContact(
  gear: GearSpec,
  mate: GearSpec,
  distance = centreDistance(gear, mate),
): PathOfContact {
  const alphaWt = workingPressureAngleAt(gear, mate, distance);
  const whole = distance * maths.sin(alphaWt);
  const share = gear.teeth / (gear.teeth + mate.teeth);
  const reach = (spec: GearSpec, toPitchPoint: number, room: number) => {
    const g = gearGeometry(spec);
    const beyond = Math.sqrt(Math.max(0, g.tipDiameter ** 2 - g.baseDiameter ** 2)) / 2 - toPitchPoint;
    return { path: Math.min(beyond, room), beyond, interferes: beyond > room * (1 + 1e-12) };
  };
  const ofGear = reach(gear, whole * share, whole * (1 - share));
  const ofMate = reach(mate, whole * (1 - share), whole * share);
  return {
    length: Math.max(0, ofGear.path + ofMate.path),
    nominalLength: Math.max(0, ofGear.beyond + ofMate.beyond),
    gearAddendum: ofGear.path,
    mateAddendum: ofMate.path,
    interferesOnGear: ofMate.interferes,
    interferesOnMate: ofGear.interferes,
  };
}

/** Transverse contact ratio ε_α = g_α / p_bt at a centre distance (by default the pair's own). */
export const contactRatio = (gear: GearSpec, mate: GearSpec, distance?: number): number =>
  pathOfContact(gear, mate, distance).length / gearGeometry(gear).transverseBasePitch;

/** Overlap ratio ε_β = b sin β / (π m_n) over the face width that meshes, mm; 0 for spur gears. */
export const overlapRatio = (gear: GearSpec, faceWidth: number): number =>
  (faceWidth * maths.sin(gear.helixAngle)) / (Math.PI * gear.normalModule);

/** Play between the flanks of a pair, mm. */
export interface Backlash {
  /** j_wt, arc at the working pitch circle in the transverse section. */
  readonly circumferential: number;
  /** j_bn = j_wt cos α_wt cos β_b, shortest distance between the flanks. */
  readonly normal: number;
}

/** Backlash at a centre distance (by default the pair's own), from both gears' tooth thickness; ISO 21771:2007. */
export function backlash(gear: GearSpec, mate: GearSpec, distance = centreDistance(gear, mate)): Backlash {
  const alphaWt = workingPressureAngleAt(gear, mate, distance);
  const [gearDiameter, mateDiameter] = workingDiameters(gear, mate, distance);
  const circumferential =
    (Math.PI * gearDiameter) / gear.teeth -
    transverseThicknessAt(gear, gearDiameter) -
    transverseThicknessAt(mate, mateDiameter);
  return {
    circumferential,
    normal: circumferential * maths.cos(alphaWt) * maths.cos(gearGeometry(gear).baseHelixAngle),
  };
}
