import { basicRackProfiles, maxRootRadius } from '../../core/gear/basic-rack.js';
import type { GearSpec } from '../../core/gear/spec.js';
import { type Finding, stop } from '../../core/part/finding.js';

/** The tooth parameters as they come from the form or the job. */
export interface ToothParameters {
  readonly module?: number | undefined;
  readonly diametralPitch?: number | undefined;
  readonly teeth: number;
  readonly pressureAngle: number;
  readonly profileShift: number;
  readonly rackProfile: 'A' | 'B' | 'C' | 'D';
  readonly addendum?: number | undefined;
  readonly dedendum?: number | undefined;
  readonly rootRadius?: number | undefined;
  readonly thinning: number;
  readonly tipShortening: number;
  readonly tipRounding: number;
}

const mmPerInch = 25.4;
const defaultModule = 2;

/** The gear that the parameters ask for, or the finding that says why they contradict each other. */
export function gearSpecOf(p: ToothParameters, helixAngle: number): GearSpec | Finding {
  if (p.module !== undefined && p.diametralPitch !== undefined) {
    return stop(
      'module-and-diametral-pitch',
      'Both a module and a diametral pitch are given; they say the same thing.',
      'Keep one of the two.',
      'module',
      'diametralPitch',
    );
  }
  const rack = basicRackProfiles[p.rackProfile];
  const normalModule =
    p.module ?? (p.diametralPitch === undefined ? defaultModule : mmPerInch / p.diametralPitch);
  const dedendum = p.dedendum ?? rack.dedendum;
  const normalPressureAngle = p.pressureAngle;
  // A steeper rack has a narrower tip: the standard's radius is kept only as far as it fits.
  const fits = maxRootRadius({ normalPressureAngle, dedendum }, p.thinning / normalModule);
  if (fits < 0) {
    return stop(
      'rack-pointed',
      `A dedendum factor of ${dedendum} brings the flanks of the basic rack to a point at this pressure angle.`,
      'Use a smaller dedendum or pressure angle.',
      'dedendum',
      'pressureAngle',
    );
  }
  return {
    normalModule,
    teeth: p.teeth,
    normalPressureAngle,
    helixAngle,
    profileShift: p.profileShift,
    addendum: p.addendum ?? rack.addendum,
    dedendum,
    rootRadius: p.rootRadius ?? Math.max(0, Math.min(rack.rootRadius, fits)),
    thinning: p.thinning,
    ...(p.tipShortening > 0 ? { tipShortening: p.tipShortening } : {}),
  };
}
