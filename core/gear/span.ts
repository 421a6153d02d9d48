import { maths } from '../maths/maths.js';
import { gearGeometry, rootFormDiameter } from './gear-geometry.js';
import { inv } from './involute.js';
import type { GearSpec } from './spec.js';

/** Base tangent length over a number of teeth, between the parallel faces of a disc micrometer or caliper. */
export interface SpanMeasurement {
  /** k, the number of teeth between the jaws. */
  readonly teethSpanned: number;
  /** W_k, mm. */
  readonly span: number;
  /** Diameter where the jaws touch the flanks when set evenly, mm: d_k² = d_b² + (W_k cos β_b)². */
  readonly contactDiameter: number;
  /** How far apart along the axis the two contacts are, W_k sin β_b, mm; 0 for a spur gear. */
  readonly axialExtent: number;
}

/**
 * Width of contact a helical gear needs beyond the bare distance of the contacts, mm: at least 3 in Elements of
 * Metric Gear Technology, section 10 (from memory).
 */
export const spanContactBand = 3;

/**
 * W_k = m_n cos α_n [π (k − ½) + z inv α_t] + 2 x m_n sin α_n − (thinning) cos α_n.
 * ISO 21771:2007; Elements of Metric Gear Technology, section 10. Whether the jaws reach the flanks is not checked here.
 */
export function spanOver(spec: GearSpec, teethSpanned: number): SpanMeasurement {
  const { normalModule: m, normalPressureAngle: alpha, teeth: z, profileShift: x } = spec;
  const g = gearGeometry(spec);
  const span =
    m * maths.cos(alpha) * (Math.PI * (teethSpanned - 0.5) + z * inv(g.transversePressureAngle)) +
    2 * x * m * maths.sin(alpha) -
    spec.thinning * maths.cos(alpha);
  return {
    teethSpanned,
    span,
    contactDiameter: maths.hypot(g.baseDiameter, span * maths.cos(g.baseHelixAngle)),
    axialExtent: span * maths.sin(g.baseHelixAngle),
  };
}

/**
 * The tooth number k_th, not rounded, whose jaws would touch at d + 2 x m_n, the middle of the flank.
 * Elements of Metric Gear Technology, section 10, writes the same with W_k eliminated.
 */
export function idealSpanTeeth(spec: GearSpec): number {
  const m = spec.normalModule;
  const g = gearGeometry(spec);
  const middle = Math.max(g.baseDiameter, g.referenceDiameter + 2 * spec.profileShift * m);
  const wanted = Math.sqrt(middle ** 2 - g.baseDiameter ** 2) / maths.cos(g.baseHelixAngle);
  return 1 + (wanted - spanOver({ ...spec, thinning: 0 }, 1).span) / g.normalBasePitch;
}

export interface SpanLimits {
  /** Face width the jaws have, mm; for a double-helical gear that of one half. Unlimited when left out. */
  readonly faceWidth?: number;
  /** Diameters between which the flank is involute, mm: root form and tip circle of the rack-cut gear by default. */
  readonly involuteFrom?: number;
  readonly involuteTo?: number;
}

/** Whether the jaws touch the involute within the limits and, on a helical gear, within the face width. */
export function spanFits(spec: GearSpec, measurement: SpanMeasurement, limits: SpanLimits = {}): boolean {
  const { contactDiameter, axialExtent } = measurement;
  const from = limits.involuteFrom ?? rootFormDiameter(spec);
  const to = limits.involuteTo ?? gearGeometry(spec).tipDiameter;
  const needed = axialExtent === 0 ? 0 : axialExtent + spanContactBand;
  return contactDiameter > from && contactDiameter < to && needed <= (limits.faceWidth ?? Infinity);
}

/**
 * The span to measure: k nearest to {@link idealSpanTeeth} (an exact half goes up, as in the tables), from 2
 * to z − 1, that {@link spanFits}. `undefined` when none does, as on short helical faces: measure over balls.
 */
export function chooseSpan(spec: GearSpec, limits: SpanLimits = {}): SpanMeasurement | undefined {
  const ideal = idealSpanTeeth(spec);
  const nearest = Math.floor(ideal + 0.5 + 1e-9);
  const candidates: number[] = [];
  for (let step = 0; step <= 3; step++) candidates.push(nearest - step, nearest + step);
  return candidates
    .filter((k, i) => k >= 2 && k < spec.teeth && candidates.indexOf(k) === i)
    .map((k) => spanOver(spec, k))
    .find((measurement) => spanFits(spec, measurement, limits));
}

/** Profile shift x that gives a span W_k, mm, with the specification's own thinning; its x is ignored. */
export function profileShiftFromSpan(spec: GearSpec, teethSpanned: number, span: number): number {
  const plain = spanOver({ ...spec, profileShift: 0 }, teethSpanned).span;
  return (span - plain) / (2 * spec.normalModule * maths.sin(spec.normalPressureAngle));
}
