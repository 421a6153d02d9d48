/** A shop as its profile describes it: plain data in mm, g, °C, °C/h, s and W, left out where the profile is silent. */

import type { Alloy } from '../foundry/alloys/index.js';
import type { BurnoutKiln } from '../foundry/burnout.js';
import type { Crucible } from '../foundry/charge/crucibles.js';
import type { MeltFurnace } from '../foundry/charge/melt-plan.js';

export interface Mixing {
  /** g of water to a gram of powder; the investment's own when left out. */
  readonly waterRatio?: number;
  /** Fraction mixed beyond the volume; the usual when left out. */
  readonly waste?: number;
  /** g of powder in a bag as bought. */
  readonly bag: number;
  /** Whether slurry and filled flasks go under a bell jar; otherwise they are vibrated. */
  readonly vacuum: boolean;
}

export interface Shop {
  /** What the papers call it; none for the built-in defaults. */
  readonly title?: string;
  readonly plastic: string;
  /** Fraction by which a print comes out small; the plastic's usual when left out. */
  readonly printShrinkage?: number;
  /** Smallest step of the scale, g. */
  readonly scale: number;
  readonly mixing: Mixing;
  readonly kiln: BurnoutKiln;
  readonly furnace: MeltFurnace;
  /** The built-in list when left out. */
  readonly crucibles?: readonly Crucible[];
  /** Beside the table's. */
  readonly alloys: readonly Alloy[];
}
