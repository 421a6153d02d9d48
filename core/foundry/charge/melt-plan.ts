/** What the planning of a melt takes and gives: plain data in g, °C, s, J and W. */
import type { Finding } from '../../part/finding.js';
import type { Alloy, Range } from '../alloys/index.js';
import type { Basis } from '../plans.js';
import type { BenchCheck } from './bench-check.js';
import type { Crucible } from './crucibles.js';
import type { HeatCasting } from './heats.js';
import type { MetalMix } from './metal-mix.js';

export interface MeltCasting extends HeatCasting {
  /** s */
  readonly pourTime: number;
  /** On the mould's tree; default 1. */
  readonly patterns?: number;
}

export interface MeltFurnace {
  /** W, where it is known. */
  readonly power?: number | undefined;
  /** Share of its energy that reaches the metal. */
  readonly efficiency: number;
}

export interface MeltInput {
  readonly alloy: Alloy;
  readonly castings: readonly MeltCasting[];
  /** °C wanted at the first mould, and the range it may lie in. */
  readonly metalTemperature: number;
  readonly metalRange: Range;
  /** Whether the temperature was set by hand, and so is never raised. Default false. */
  readonly temperatureSet?: boolean;
  /** Fractions, as in the charge's plan. */
  readonly meltLoss: number;
  readonly reserveFraction: number;
  /** Crucibles the shop owns. Default: none, and a common size is suggested. */
  readonly crucibles?: readonly Crucible[];
  /** g, to which charges are rounded up. Default 1, as kitchen scales show. */
  readonly scaleStep?: number;
  readonly furnace: MeltFurnace;
  /** s from the furnace to the first mould, and from one mould to the next. Defaults 15 and 5. */
  readonly toFirst?: number;
  readonly between?: number;
}

/** A mould in the order of pouring. */
export interface PouredMould {
  readonly name: string;
  readonly copy: number;
  /** °C when its pour begins, and the least that fills it. */
  readonly temperature: number;
  readonly lowest: number;
  /** Whether the pot goes back into the furnace before it. */
  readonly reheated: boolean;
  /** °C at which the reheated pot leaves the furnace again, to be at `temperature` when it reaches the mould. */
  readonly leaves?: number;
}

/** One crucible's worth. */
export interface HeatPlan {
  readonly castings: readonly { readonly name: string; readonly quantity: number }[];
  /** g */
  readonly inMoulds: number;
  /** What to weigh out, g, rounded up to the scale's step. */
  readonly charge: number;
  /** What the furnace draws for it, J, and the time at its rated power, s, where that is known. */
  readonly drawn: number;
  readonly time?: number;
  /** °C when it leaves the furnace. */
  readonly leaves: number;
  readonly moulds: readonly PouredMould[];
}

export interface MeltPlan {
  readonly crucible: {
    readonly name: string;
    readonly title: string;
    /** Working capacity of this alloy, g. */
    readonly capacity: number;
    /** Whether the shop has it, or it is one that would do. */
    readonly owned: boolean;
  };
  readonly scaleStep: number;
  readonly efficiency: number;
  readonly power?: number;
  /** °C at the first mould of every heat: as asked, or raised so that the last still fills. */
  readonly metalTemperature: number;
  readonly heats: readonly HeatPlan[];
  /** Pattern's weight and what it should multiply to, by casting. */
  readonly bench: readonly BenchCheck[];
  /** Of the shop's metals, where it has any listed. */
  readonly mix?: MetalMix;
  readonly findings: readonly Finding[];
  readonly bases: Readonly<Record<string, Basis>>;
}
