import { maths } from '../maths/maths.js';
import { baseHalfAngle, gearGeometry, rootFormDiameter } from './gear-geometry.js';
import { inv, inverseInvolute } from './involute.js';
import type { GearSpec } from './spec.js';

/**
 * Size over two pins or balls laid in opposite (odd z: nearly opposite) tooth spaces. On a helical gear with an
 * odd tooth number it is for balls kept in one transverse plane; pins would need a third. Otherwise pins and
 * balls of one diameter give the same.
 */
export interface PinMeasurement {
  /** D_M, mm. */
  readonly pinDiameter: number;
  /** M_d, mm. */
  readonly dimension: number;
  /** Diameter of the circle through the pin centres, mm. */
  readonly centreDiameter: number;
  /** Diameter where pin and flanks touch, mm. */
  readonly contactDiameter: number;
  /** Diameter of the circle the pins reach out to, mm. */
  readonly outerDiameter: number;
  /** Diameter of the circle the pins reach in to, mm. */
  readonly innerDiameter: number;
}

/** Half angle of the tooth space between its two involutes at the base circle, rad; below 0 when they cross. */
const baseSpaceHalfAngle = (spec: GearSpec): number => Math.PI / spec.teeth - baseHalfAngle(spec);

const measurementAt = (spec: GearSpec, pinDiameter: number, phi: number): PinMeasurement => {
  const g = gearGeometry(spec);
  const centreDiameter = g.baseDiameter / maths.cos(phi);
  const across = spec.teeth % 2 === 0 ? 1 : maths.cos(Math.PI / (2 * spec.teeth));
  // Along the base tangent the contact lies half a pin nearer; on a helix only its transverse part counts.
  const toContact = g.baseDiameter * maths.tan(phi) - pinDiameter * maths.cos(g.baseHelixAngle);
  return {
    pinDiameter,
    dimension: centreDiameter * across + pinDiameter,
    centreDiameter,
    contactDiameter: maths.hypot(g.baseDiameter, toContact),
    outerDiameter: centreDiameter + pinDiameter,
    innerDiameter: centreDiameter - pinDiameter,
  };
};

/**
 * inv φ = D_M / (m_n z cos α_n) − (space half angle at the base circle); centres on d_b / cos φ.
 * ISO 21771:2007; Elements of Metric Gear Technology, section 10; thinning widens the space. RangeError when the
 * pin is so small that it would fall below the base circle. Whether it touches the flanks is {@link pinFits}.
 */
export function measureOverPins(spec: GearSpec, pinDiameter: number): PinMeasurement {
  const scale = spec.normalModule * spec.teeth * maths.cos(spec.normalPressureAngle);
  const half = baseSpaceHalfAngle(spec);
  const value = pinDiameter / scale - half;
  if (!(value >= 0)) {
    throw new RangeError(
      `pin diameter is ${pinDiameter} mm; this tooth space needs at least ${half * scale} mm`,
    );
  }
  return measurementAt(spec, pinDiameter, inverseInvolute(value));
}

/**
 * The pin that touches the flanks at d + 2 x m_n, the middle of the tooth, mm. For spur gears as in Elements of
 * Metric Gear Technology, section 10; for helical ones on the helicoid itself, not on an equivalent spur gear.
 */
export function idealPinDiameter(spec: GearSpec): number {
  const g = gearGeometry(spec);
  const middle = Math.max(g.baseDiameter, g.referenceDiameter + 2 * spec.profileShift * spec.normalModule);
  const contact = Math.sqrt((middle / g.baseDiameter) ** 2 - 1);
  const half = baseSpaceHalfAngle(spec);
  const cosBaseHelix = maths.cos(g.baseHelixAngle);
  // tan φ = contact + D_M cos β_b / d_b must agree with inv φ = D_M / (d_b cos β_b) − half. The difference of
  // the two rises steadily with D_M, so bisection finds its one zero.
  const residual = (pin: number) => {
    const tangent = contact + (pin * cosBaseHelix) / g.baseDiameter;
    return pin / (g.baseDiameter * cosBaseHelix) - half - (tangent - maths.atan(tangent));
  };
  let lo = 0;
  let hi = 2 * g.normalPitch;
  for (let step = 0; step < 80; step++) {
    const mid = (lo + hi) / 2;
    if (residual(mid) < 0) lo = mid;
    else hi = mid;
  }
  return (lo + hi) / 2;
}

export interface PinLimits {
  /** Diameters between which the flank is involute, mm: root form and tip circle of the rack-cut gear by default. */
  readonly involuteFrom?: number;
  readonly involuteTo?: number;
}

/** Whether the pin touches the involute within the limits, stands out above the tips and clears the root. */
export function pinFits(spec: GearSpec, measurement: PinMeasurement, limits: PinLimits = {}): boolean {
  const g = gearGeometry(spec);
  const { contactDiameter, outerDiameter, innerDiameter } = measurement;
  const to = limits.involuteTo ?? g.tipDiameter;
  return (
    contactDiameter > (limits.involuteFrom ?? rootFormDiameter(spec)) &&
    contactDiameter < to &&
    outerDiameter > to &&
    innerDiameter > g.rootDiameter
  );
}

const steps = (from: number, to: number, step: number): number[] =>
  Array.from(
    { length: Math.round((to - from) / step) + 1 },
    (_, i) => Math.round((from + i * step) * 1000) / 1000,
  );

/** Pin and ball diameters a shop is likely to have, mm: dowel pins and drill shanks. Common practice, no source. */
export const stockPinDiameters: readonly number[] = [
  ...steps(0.5, 0.9, 0.1),
  ...steps(1, 9.75, 0.25),
  ...steps(10, 19.5, 0.5),
  ...steps(20, 100, 1),
];

/** The measurements over those pins of `sizes`, mm, that fit, nearest to the ideal one first. */
export function fittingPins(
  spec: GearSpec,
  sizes: readonly number[] = stockPinDiameters,
  limits: PinLimits = {},
): readonly PinMeasurement[] {
  const ideal = idealPinDiameter(spec);
  const scale = spec.normalModule * spec.teeth * maths.cos(spec.normalPressureAngle);
  return [...sizes]
    .filter((size) => size > baseSpaceHalfAngle(spec) * scale && size < 3 * spec.normalModule)
    .sort((a, b) => Math.abs(a - ideal) - Math.abs(b - ideal))
    .map((size) => measureOverPins(spec, size))
    .filter((measurement) => pinFits(spec, measurement, limits));
}

/** The measurement over the pin of `sizes`, mm, nearest to the ideal one among those that fit, if any does. */
export const choosePin = (
  spec: GearSpec,
  sizes: readonly number[] = stockPinDiameters,
  limits: PinLimits = {},
): PinMeasurement | undefined => fittingPins(spec, sizes, limits)[0];

/** Profile shift x that gives a dimension over pins, mm, with the specification's own thinning; its x is ignored. */
export function profileShiftFromPins(spec: GearSpec, pinDiameter: number, dimension: number): number {
  const g = gearGeometry(spec);
  const across = spec.teeth % 2 === 0 ? 1 : maths.cos(Math.PI / (2 * spec.teeth));
  const centreDiameter = (dimension - pinDiameter) / across;
  if (!(centreDiameter >= g.baseDiameter)) {
    throw new RangeError(
      `dimension over pins is ${dimension} mm; with this pin it is at least ${g.baseDiameter * across + pinDiameter} mm`,
    );
  }
  const phi = maths.acos(g.baseDiameter / centreDiameter);
  const scale = spec.normalModule * spec.teeth * maths.cos(spec.normalPressureAngle);
  const unshifted = pinDiameter / scale - baseSpaceHalfAngle({ ...spec, profileShift: 0 });
  return ((inv(phi) - unshifted) * spec.teeth) / (2 * maths.tan(spec.normalPressureAngle));
}
