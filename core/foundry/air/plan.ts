import type { Vec3 } from '../../solid/types.js';
import type { Basis } from '../plans.js';
import type { AirPocket } from './pockets.js';
import type { Tilt } from './tilt.js';

/** Trapped at the worst of the ways a mould may lean: mm³, radians. */
export interface OffLevelAir {
  readonly volume: number;
  readonly places: number;
  /** The side that stands high, from +x towards +y. */
  readonly toward: number;
  /** Missing where nothing is trapped. */
  readonly largest?: AirPocket;
}

/** Air in the mould while it fills: mm, mm³, mm/s, Pa, radians. Pattern coordinates. */
export interface AirPlan {
  /** Pockets below it are not told. */
  readonly threshold: number;
  /** With the part's own vents, largest first. */
  readonly pockets: readonly AirPocket[];
  /** Those for a level pour first. */
  readonly ventsAdded: readonly { readonly name: string; readonly at: Vec3; readonly diameter: number }[];
  /** With the added vents. */
  readonly left: readonly AirPocket[];
  /** Below the threshold, with the added vents. */
  readonly ignored: { readonly count: number; readonly volume: number };
  /** Missing where nothing is left or no turn tried halves it. */
  readonly tilt?: Tilt;
  /** The flask a little off level at the pour. */
  readonly offLevel: {
    readonly angle: number;
    readonly directions: number;
    /** With the vents for a level pour; from six tenths of the threshold on, what is vented. */
    readonly before: OffLevelAir;
    /** How many of `ventsAdded` are for it. */
    readonly ventsAdded: number;
    readonly left: OffLevelAir;
    /** Where something is left: the lean within which it is less than the threshold, if one tried is. */
    readonly levelWithin?: number;
  };
  /** Air driven out by the metal through all vents; missing without vents. */
  readonly outflow?: {
    /** Mean of all vents. */
    readonly velocityMmPerSecond: number;
    /** That drives it through them. */
    readonly pressurePa: number;
    /** Of the metal at the gate, to compare. */
    readonly metalPressurePa: number;
  };
  readonly bases: Readonly<Record<string, Basis>>;
}
