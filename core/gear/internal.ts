import { maths } from '../maths/maths.js';
import { baseHalfAngle, gearGeometry, helixAngleAt } from './gear-geometry.js';
import type { InternalGearSpec } from './internal-form.js';
import { inv, inverseInvolute } from './involute.js';
import { type SpanMeasurement, spanOver } from './span.js';
import type { GearSpec } from './spec.js';

/*
 * Internal gears. Signs: ISO 21771 gives an internal gear a negative tooth number and with it negative diameters and
 * centre distance; here z₂, its diameters and a are positive and the formulas carry the sign, while the profile shift
 * keeps ISO's meaning: x₂ > 0 moves the ring's datum line inwards, makes its teeth thicker and its bore smaller.
 * Handbooks that move the cutter outwards for a positive shift (Elements of Metric Gear Technology, section 5) have
 * x₂ with the opposite sign. The pinion is an ordinary external gear.
 */

/** The tooth space of a ring as an external tooth: same flanks, thick where the ring is open. */
export const spaceSpec = (ring: InternalGearSpec): GearSpec => ({
  ...ring,
  profileShift: -ring.profileShift,
  thinning: -ring.thinning,
  addendum: ring.dedendum,
  dedendum: ring.addendum,
  tipShortening: 0,
});

export interface InternalGeometry {
  readonly referenceDiameter: number;
  readonly baseDiameter: number;
  /** The bore between the tooth tips, d_a = d − 2 m_n (h_aP* + x) + 2 k m_n. */
  readonly tipDiameter: number;
  /** d_f = d + 2 m_n (h_fP* − x); a pinion cutter's own tip can leave it slightly larger or smaller. */
  readonly rootDiameter: number;
  /** Normal thickness of the teeth at the reference cylinder. */
  readonly normalThickness: number;
  /** ψ: half angle of the tooth space where its involutes meet the base circle, rad. */
  readonly spaceHalfAngle: number;
}

/** Sizes of a ring, mm; ISO 21771:2007 (from memory) with the signs above. */
export function internalGeometry(ring: InternalGearSpec): InternalGeometry {
  const g = gearGeometry(ring);
  const { normalModule: m, profileShift: x } = ring;
  return {
    referenceDiameter: g.referenceDiameter,
    baseDiameter: g.baseDiameter,
    tipDiameter: g.referenceDiameter - 2 * m * (ring.addendum + x) + 2 * (ring.tipShortening ?? 0),
    rootDiameter: g.referenceDiameter + 2 * m * (ring.dedendum - x),
    normalThickness: g.normalThickness,
    spaceHalfAngle: baseHalfAngle(spaceSpec(ring)),
  };
}

/** Normal tip thickness s_an of a ring's tooth, mm: what its spaces leave of the pitch at the tip circle. */
export function internalTipThickness(ring: InternalGearSpec): number {
  const { tipDiameter, baseDiameter, spaceHalfAngle } = internalGeometry(ring);
  const atTip = maths.acos(Math.min(1, baseDiameter / tipDiameter));
  const angle = (2 * Math.PI) / ring.teeth - 2 * (spaceHalfAngle - inv(atTip));
  return tipDiameter * (angle / 2) * maths.cos(helixAngleAt(ring, tipDiameter));
}

/** RangeError unless pinion and ring share module, angles and leave a difference of teeth. */
function requireInternalMates(pinion: GearSpec, ring: InternalGearSpec): void {
  for (const key of ['normalModule', 'normalPressureAngle', 'helixAngle'] as const) {
    if (Math.abs(pinion[key] - ring[key]) > 1e-9)
      throw new RangeError(
        `${key} is ${pinion[key]} on the pinion and ${ring[key]} on the ring; mates share it`,
      );
  }
  if (ring.teeth <= pinion.teeth)
    throw new RangeError(`the ring has ${ring.teeth} teeth; it needs more than the pinion's ${pinion.teeth}`);
}

/** a_d = (d₂ − d₁) / 2, mm. */
export function internalReferenceDistance(pinion: GearSpec, ring: InternalGearSpec): number {
  requireInternalMates(pinion, ring);
  return (gearGeometry(ring).referenceDiameter - gearGeometry(pinion).referenceDiameter) / 2;
}

/**
 * α_wt without backlash but for the thinning: inv α_wt = inv α_t − 2 tan α_n (x₁ + x₂) / (z₂ − z₁), rad.
 * RangeError when the shifts are so large that no mesh exists.
 */
export function internalWorkingPressureAngle(pinion: GearSpec, ring: InternalGearSpec): number {
  requireInternalMates(pinion, ring);
  const sum = pinion.profileShift + ring.profileShift;
  const difference = ring.teeth - pinion.teeth;
  const atReference = inv(gearGeometry(ring).transversePressureAngle);
  const value = atReference - (2 * maths.tan(ring.normalPressureAngle) * sum) / difference;
  if (value < 0) {
    const most = (atReference * difference) / (2 * maths.tan(ring.normalPressureAngle));
    throw new RangeError(`profile shift sum is ${sum}; this internal pair can have at most ${most}`);
  }
  return inverseInvolute(value);
}

/** a = a_d cos α_t / cos α_wt, mm. */
export const internalCentreDistance = (pinion: GearSpec, ring: InternalGearSpec): number =>
  (internalReferenceDistance(pinion, ring) * maths.cos(gearGeometry(ring).transversePressureAngle)) /
  maths.cos(internalWorkingPressureAngle(pinion, ring));

/** α_wt at a centre distance, mm. RangeError when it is less than the difference of the base radii. */
export function internalPressureAngleAt(pinion: GearSpec, ring: InternalGearSpec, distance: number): number {
  const least =
    internalReferenceDistance(pinion, ring) * maths.cos(gearGeometry(ring).transversePressureAngle);
  if (!(distance >= least * (1 - 1e-12)))
    throw new RangeError(`centre distance is ${distance} mm; this internal pair needs at least ${least} mm`);
  return maths.acos(Math.min(1, least / distance));
}

/** x₁ + x₂ that makes an internal pair mesh at a centre distance; the gears' own x are ignored. */
export function internalShiftSum(pinion: GearSpec, ring: InternalGearSpec, distance: number): number {
  const fall =
    inv(gearGeometry(ring).transversePressureAngle) - inv(internalPressureAngleAt(pinion, ring, distance));
  return ((ring.teeth - pinion.teeth) * fall) / (2 * maths.tan(ring.normalPressureAngle));
}

/**
 * ε_α between the tip circles: [√(r_a1² − r_b1²) − √(r_a2² − r_b2²) + a sin α_wt] / p_bt (Elements of Metric Gear
 * Technology, section 11).
 */
export function internalContactRatio(
  pinion: GearSpec,
  ring: InternalGearSpec,
  distance = internalCentreDistance(pinion, ring),
): number {
  const g = gearGeometry(pinion);
  const r = internalGeometry(ring);
  const reach = (tip: number, base: number) => Math.sqrt(Math.max(0, tip ** 2 - base ** 2)) / 2;
  const along = distance * maths.sin(internalPressureAngleAt(pinion, ring, distance));
  return (
    (reach(g.tipDiameter, g.baseDiameter) - reach(r.tipDiameter, r.baseDiameter) + along) /
    g.transverseBasePitch
  );
}

/**
 * Backlash at a centre distance, mm: j_wt = 2 a [z₂ (ψ₂ − inv α_wt) − z₁ (ψ₁ − inv α_wt)] / (z₂ − z₁), ψ₂ of the space.
 * Unlike an external pair it closes as the axes move apart.
 */
export function internalBacklash(
  pinion: GearSpec,
  ring: InternalGearSpec,
  distance = internalCentreDistance(pinion, ring),
): { readonly circumferential: number; readonly normal: number } {
  const alphaWt = internalPressureAngleAt(pinion, ring, distance);
  const openSpace = ring.teeth * (internalGeometry(ring).spaceHalfAngle - inv(alphaWt));
  const tooth = pinion.teeth * (baseHalfAngle(pinion) - inv(alphaWt));
  const circumferential = (2 * distance * (openSpace - tooth)) / (ring.teeth - pinion.teeth);
  return {
    circumferential,
    normal: circumferential * maths.cos(alphaWt) * maths.cos(gearGeometry(ring).baseHelixAngle),
  };
}

export interface BetweenPins {
  /** D_M, mm. */
  readonly pinDiameter: number;
  /** Size between two pins or balls in opposite (odd z: nearly opposite) spaces, mm. */
  readonly dimension: number;
  readonly centreDiameter: number;
  /** Diameter where pin and flanks touch, mm. */
  readonly contactDiameter: number;
}

/**
 * inv φ = ψ − D_M / (m_n z cos α_n); M = d_b / cos φ − D_M, for odd tooth numbers d_b cos(90°/z) / cos φ − D_M.
 * Elements of Metric Gear Technology, section 10; on helical gears for balls. RangeError when the pin is wider than
 * the space at the base circle.
 */
export function measureBetweenPins(ring: InternalGearSpec, pinDiameter: number): BetweenPins {
  const g = gearGeometry(ring);
  const scale = ring.normalModule * ring.teeth * maths.cos(ring.normalPressureAngle);
  const half = internalGeometry(ring).spaceHalfAngle;
  const value = half - pinDiameter / scale;
  if (!(value >= 0))
    throw new RangeError(
      `pin diameter is ${pinDiameter} mm; this tooth space takes at most ${half * scale} mm`,
    );
  const phi = inverseInvolute(value);
  const centreDiameter = g.baseDiameter / maths.cos(phi);
  const across = ring.teeth % 2 === 0 ? 1 : maths.cos(Math.PI / (2 * ring.teeth));
  return {
    pinDiameter,
    dimension: centreDiameter * across - pinDiameter,
    centreDiameter,
    contactDiameter: maths.hypot(
      g.baseDiameter,
      g.baseDiameter * maths.tan(phi) + pinDiameter * maths.cos(g.baseHelixAngle),
    ),
  };
}

/** Base tangent length inside a ring across k tooth spaces: that of k teeth of the gear that would fill them. */
export const internalSpanOver = (ring: InternalGearSpec, spacesSpanned: number): SpanMeasurement =>
  spanOver(spaceSpec(ring), spacesSpanned);
