import { maths } from '../maths/maths.js';
import { straightDepth } from './basic-rack.js';
import { inv } from './involute.js';
import type { GearSpec } from './spec.js';

/** The sizes that follow from a gear's specification alone. Lengths mm, angles rad; symbols of ISO 21771. */
export interface GearGeometry {
  /** m_t = m_n / cos β. */
  readonly transverseModule: number;
  /** α_t: tan α_t = tan α_n / cos β. */
  readonly transversePressureAngle: number;
  /** β_b: sin β_b = sin β cos α_n. */
  readonly baseHelixAngle: number;
  /** d = z m_t. */
  readonly referenceDiameter: number;
  /** d_b = d cos α_t. */
  readonly baseDiameter: number;
  /** d_a = d + 2 m_n (h_aP* + x) − 2 k m_n. */
  readonly tipDiameter: number;
  /** d_f = d − 2 m_n (h_fP* − x); thinning does not deepen the root. */
  readonly rootDiameter: number;
  /** s_n at the reference cylinder, thinning taken off. */
  readonly normalThickness: number;
  /** s_t at the reference cylinder. */
  readonly transverseThickness: number;
  /** p_n = π m_n. */
  readonly normalPitch: number;
  /** p_t = π m_t. */
  readonly transversePitch: number;
  /** p_bn = p_n cos α_n. */
  readonly normalBasePitch: number;
  /** p_bt = p_t cos α_t. */
  readonly transverseBasePitch: number;
  /** p_x = p_n / sin β; Infinity for a spur gear. */
  readonly axialPitch: number;
  /** p_z = z p_x, the rise of a tooth in one turn; Infinity for a spur gear. */
  readonly lead: number;
}

/**
 * Formulas of ISO 21771:2007 (from memory, proved in the tests against a rolled rack and printed examples).
 * Nothing is checked here: a specification outside its ranges gives NaN.
 */
export function gearGeometry(spec: GearSpec): GearGeometry {
  const { normalModule: m, teeth: z, normalPressureAngle: alpha, helixAngle: beta, profileShift: x } = spec;
  const cosBeta = maths.cos(beta);
  const transverseModule = m / cosBeta;
  const transversePressureAngle = maths.atan(maths.tan(alpha) / cosBeta);
  const referenceDiameter = z * transverseModule;
  const normalPitch = Math.PI * m;
  const transversePitch = normalPitch / cosBeta;
  const normalThickness = normalPitch / 2 + 2 * x * m * maths.tan(alpha) - spec.thinning;
  const axialPitch = beta === 0 ? Infinity : normalPitch / maths.sin(beta);
  return {
    transverseModule,
    transversePressureAngle,
    baseHelixAngle: maths.asin(maths.sin(beta) * maths.cos(alpha)),
    referenceDiameter,
    baseDiameter: referenceDiameter * maths.cos(transversePressureAngle),
    tipDiameter: referenceDiameter + 2 * m * (spec.addendum + x) - 2 * (spec.tipShortening ?? 0),
    rootDiameter: referenceDiameter - 2 * m * (spec.dedendum - x),
    normalThickness,
    transverseThickness: normalThickness / cosBeta,
    normalPitch,
    transversePitch,
    normalBasePitch: normalPitch * maths.cos(alpha),
    transverseBasePitch: transversePitch * maths.cos(transversePressureAngle),
    axialPitch,
    lead: z * axialPitch,
  };
}

/**
 * Transverse pressure angle α_yt at a diameter, cos α_yt = d_b / d_y, rad.
 * RangeError below the base circle, where there is no involute.
 */
export function pressureAngleAt(spec: GearSpec, diameter: number): number {
  const { baseDiameter } = gearGeometry(spec);
  // A diameter given as the base diameter itself may be short of it by a rounding.
  if (!(diameter >= baseDiameter * (1 - 1e-12))) {
    throw new RangeError(
      `diameter is ${diameter} mm; the involute starts at the base circle, ${baseDiameter} mm`,
    );
  }
  return maths.acos(Math.min(1, baseDiameter / diameter));
}

/** Helix angle β_y at a diameter: tan β_y = (d_y / d) tan β, ISO 21771:2007. */
export const helixAngleAt = (spec: GearSpec, diameter: number): number =>
  maths.atan((diameter / gearGeometry(spec).referenceDiameter) * maths.tan(spec.helixAngle));

/**
 * Transverse tooth thickness s_yt = d_y (s_t / d + inv α_t − inv α_yt), an arc, mm; negative beyond the
 * point where the flanks meet. ISO 21771:2007. RangeError below the base circle.
 */
export function transverseThicknessAt(spec: GearSpec, diameter: number): number {
  const g = gearGeometry(spec);
  const half = g.transverseThickness / g.referenceDiameter + inv(g.transversePressureAngle);
  return diameter * (half - inv(pressureAngleAt(spec, diameter)));
}

/** Normal tooth thickness s_yn = s_yt cos β_y at a diameter, mm. */
export const normalThicknessAt = (spec: GearSpec, diameter: number): number =>
  transverseThicknessAt(spec, diameter) * maths.cos(helixAngleAt(spec, diameter));

/** Normal tip thickness s_an, mm; negative when the tooth comes to a point below its tip circle. */
export const tipThickness = (spec: GearSpec): number =>
  normalThicknessAt(spec, gearGeometry(spec).tipDiameter);

/** Half the transverse tooth angle where the involute meets the base circle, ψ_b = s_t / d + inv α_t, rad. */
export function baseHalfAngle(spec: GearSpec): number {
  const g = gearGeometry(spec);
  return g.transverseThickness / g.referenceDiameter + inv(g.transversePressureAngle);
}

/**
 * Least profile shift x_min at which the rack does not undercut: x_min = h_FfP* − z sin² α_t / (2 cos β),
 * h_FfP* being the depth of the rack's straight flank (ISO 21771:2007; Elements of
 * Metric Gear Technology 4.5 has it with depth 1).
 */
export function minimumProfileShift(spec: GearSpec): number {
  const alphaT = gearGeometry(spec).transversePressureAngle;
  return straightDepth(spec) - (spec.teeth * maths.sin(alphaT) ** 2) / (2 * maths.cos(spec.helixAngle));
}

/** Least tooth number z_min (not rounded) that this rack cuts without undercut at this profile shift. */
export function undercutTeeth(spec: GearSpec): number {
  const alphaT = gearGeometry(spec).transversePressureAngle;
  return (
    (2 * maths.cos(spec.helixAngle) * (straightDepth(spec) - spec.profileShift)) / maths.sin(alphaT) ** 2
  );
}

/** Whether the rack's tip cuts into the involute near the base circle. */
export const isUndercut = (spec: GearSpec): boolean => spec.profileShift < minimumProfileShift(spec);

/**
 * Diameter d_Ff at which the involute passes into the fillet, cut by the end of the rack's straight flank:
 * d_Ff² = d_b² + (d sin α_t − 2 m_n (h_FfP* − x) / sin α_t)², ISO 21771:2007.
 * For an undercut gear the involute starts further out than this gives; the base diameter is returned.
 */
export function rootFormDiameter(spec: GearSpec): number {
  const g = gearGeometry(spec);
  const sin = maths.sin(g.transversePressureAngle);
  const depth = spec.normalModule * (straightDepth(spec) - spec.profileShift);
  return maths.hypot(g.baseDiameter, Math.max(0, g.referenceDiameter * sin - (2 * depth) / sin));
}
