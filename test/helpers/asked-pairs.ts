import {
  type BacklashKind,
  circumferentialFrom,
  thinningFor,
  withThinning,
} from '../../core/gear/backlash.js';
import type { GearSpec } from '../../core/gear/spec.js';

/** What the tests of running pairs ask the program for: its own figures, to be found again on the meshes. */
export interface AskedPair {
  readonly gears: readonly [GearSpec, GearSpec];
  /** mm */
  readonly distance: number;
  /** Circumferential backlash asked for, mm. */
  readonly play: number;
}

export function askPair(
  [gear, mate]: readonly [GearSpec, GearSpec],
  distance: number,
  kind: BacklashKind,
  value: number,
  split: 'equal' | 'wheel' = 'equal',
): AskedPair {
  const play = circumferentialFrom(kind, value, gear, mate, distance);
  return { gears: withThinning(gear, mate, thinningFor(play, gear, mate, distance), split), distance, play };
}

/** The parameters of a part that say what the specification says. */
export function parametersOf(spec: GearSpec): Record<string, unknown> {
  const { normalModule, teeth, normalPressureAngle, helixAngle, profileShift } = spec;
  return {
    module: normalModule,
    teeth,
    pressureAngle: normalPressureAngle,
    ...(helixAngle === 0 ? {} : { helixAngle }),
    profileShift,
    addendum: spec.addendum,
    dedendum: spec.dedendum,
    rootRadius: spec.rootRadius,
    // Rounding leaves ±1e-16 where a pair needs none.
    thinning: Math.max(0, spec.thinning),
    tipShortening: spec.tipShortening ?? 0,
  };
}
