import type { Vec3 } from '../../solid/types.js';
import type { Basis } from '../plans.js';
import type { AirPocket } from './pockets.js';

/** Air in the mould while it fills: mm, mm³, radians. Pattern coordinates. */
export interface AirPlan {
  /** Pockets below it are not told. */
  readonly threshold: number;
  /** With the part's own vents, largest first. */
  readonly pockets: readonly AirPocket[];
  readonly ventsAdded: readonly { readonly name: string; readonly at: Vec3; readonly diameter: number }[];
  /** With the added vents. */
  readonly left: readonly AirPocket[];
  /** Below the threshold, with the added vents. */
  readonly ignored: { readonly count: number; readonly volume: number };
  /** The part turned so before it is gated traps `left`; missing where nothing is left or no turn tried is better. */
  readonly tilt?: { readonly axis: 'x' | 'y'; readonly angle: number; readonly left: number };
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
