/** A plate job as read: plain data in mm, radians and °C, defaults filled in. */
import type { BurnoutTime } from '../foundry/burnout.js';
import type { StockMetal } from '../foundry/charge/alloying-programme.js';
import type { GatingSettings } from '../foundry/gating/index.js';
import type { GrowthChoice } from '../foundry/growth.js';
import type { FreezeLevel } from '../freeze/plans.js';
import type { MeshFile } from '../mesh/mesh-file.js';
import type { SurfaceClass } from '../part/stock.js';
import type { NestBed } from '../plate/contract.js';
import type { LengthUnit, TemperatureUnit } from '../units/index.js';
import type { PlateSort } from './bed-schema.js';
import type { Shop } from './shop.js';

/** A bed with everything said. */
export type PrintBed = Required<NestBed>;

/** How patterns are laid out on plates. */
export interface Nesting {
  /** Which share a plate: any, or those of one alloy or for flasks of one size, in the order poured. */
  readonly sortBy: PlateSort;
  /** Time to go on improving, s. */
  readonly seconds: number;
  readonly seed: number;
  /** At least so many; left out: a few. */
  readonly rounds?: number;
}

export interface PrinterCorrection {
  /** Factors on the printed size, after growth. */
  readonly xy: number;
  readonly z: number;
}

export interface JobFlask {
  readonly name: string;
  /** Inside, mm. */
  readonly diameter: number;
  readonly height: number;
  /** Of its steel, mm. */
  readonly wall: number;
  /** Open at both ends, or closed at one. */
  readonly base: 'plate' | 'closed';
}

export interface JobPrices {
  /** Three capital letters, ISO 4217. */
  readonly currency: string;
  /** Price of 1 kg of metal by alloy, for every alloy of the job; empty where the job gives none. */
  readonly metalPerKg: Readonly<Record<string, number>>;
  readonly investmentPerKg?: number;
  readonly slurryPerKg?: number;
  readonly stuccoPerKg?: number;
  readonly plasticPerKg?: number;
  readonly energyPerKwh?: number;
  readonly consumablesPerMould?: number;
}

/** Stock set in the job, mm per side; the other classes keep the foundry's own. */
export type StockOverrides = Readonly<Partial<Record<SurfaceClass, number>>>;

/** One kind of pattern on a tree of several. */
export interface TreeMember {
  /** Unique on its tree and safe as a folder's name. */
  readonly name: string;
  /** As of a part of the job. */
  readonly part: string;
  readonly piece?: string;
  /** Patterns of it on each tree. */
  readonly count: number;
  readonly growth?: GrowthChoice;
  readonly stock: StockOverrides;
  readonly parameters: Readonly<Record<string, number | string | boolean>>;
}

/** What a tree of several kinds has as its `part`. */
export const treePart = 'tree';

/** How the job writes an entry, as pieces of a group in one line of YAML; '' where it says nothing. */
export interface WrittenEntry {
  /** Its preset, growth, stock and parameters. */
  readonly casting: string;
  readonly gating: string;
}

export interface JobPart {
  /** Unique in the job and safe as a folder's name. */
  readonly name: string;
  /** The part definition's name, or the path of its file as the job writes it. */
  readonly part: string;
  /** One of the definition's pieces; left out where it has none. */
  readonly piece?: string;
  /** Name of the job's entry that it came of together with others; they are made together or not at all. */
  readonly entry?: string;
  readonly quantity: number;
  /** Patterns in one mould, round one sprue; left out: one. */
  readonly patternsPerTree?: number;
  /** The kinds on a tree of several; `quantity` is then all its castings, `patternsPerTree` the sum of their counts. */
  readonly tree?: readonly TreeMember[];
  /** Places where metal enters each; left out: as many as its rules ask for. */
  readonly gates?: number;
  readonly alloy: string;
  /** Where the job sets it, for all or for this part; otherwise it comes from the alloy. */
  readonly growth?: GrowthChoice;
  readonly stock: StockOverrides;
  /** What is set of this part's gating, before what the job sets for all. */
  readonly gating?: Partial<GatingSettings>;
  /** Values for every parameter that was given or has a fixed default. */
  readonly parameters: Readonly<Record<string, number | string | boolean>>;
  /** In jobs that are to be packed, for advice; of no account to what is made. */
  readonly written?: WrittenEntry;
}

/** A part made for a request; of it more is known, or where that lies. */
export interface Asked {
  readonly request: JobPart;
}

export interface Job {
  readonly name: string;
  readonly title: string;
  readonly notes: readonly string[];
  /** How the papers print. */
  readonly units: LengthUnit;
  readonly degrees: TemperatureUnit;
  /** How bare lengths in its parts' texts are meant; mm where left out. */
  readonly textUnit?: LengthUnit;
  readonly investment: string;
  /** Shells: put into the hot kiln, or heated from cold; other moulds take no notice. Default flash. */
  readonly shellFiring?: 'flash' | 'ramp';
  /** When the kiln starts or the flasks are to be ready, `2026-05-09T18:30`; without, the programme has no clock. */
  readonly burnoutTime?: BurnoutTime;
  /** How finely each mould's filling and freezing are worked out; left out: coarsely. */
  readonly freeze?: FreezeLevel;
  /** From the kiln to the pour, s; left out: `usualDelay`. */
  readonly pourDelay?: number;
  /** Whether other gatings are tried where a casting would be unsound. */
  readonly improve?: boolean;
  /** Whether what was worked out of every cell is written. */
  readonly freezeFields?: boolean;
  /** The shop that does the work. */
  readonly shop: Shop;
  /** Greatest chord deviation, mm; each part's own when left out. */
  readonly tolerance?: number | undefined;
  /** Of the print, mm. */
  readonly layerHeight: number;
  readonly bed: PrintBed;
  /** Left out: all defaults. */
  readonly nesting?: Nesting;
  readonly printerCorrection: PrinterCorrection;
  /** Null: the built-in list. */
  readonly flasks: readonly JobFlask[] | null;
  /** Whether small patterns are put on trees together, so that fewer flasks are poured. */
  readonly packFlasks?: boolean;
  /** What is set of the gating; the rest is worked out. */
  readonly gating?: Partial<GatingSettings>;
  /** On the shelf, to make alloys of: the shop's, and the job's own. Left out or none: alloys are bought as ingot. */
  readonly metals?: readonly StockMetal[];
  /** Null: no cost is worked out. */
  readonly prices: JobPrices | null;
  readonly parts: readonly JobPart[];
  /** What the files hold that its parts name, by those names. */
  readonly meshFiles?: ReadonlyMap<string, MeshFile>;
}
