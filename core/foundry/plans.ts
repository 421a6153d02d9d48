/**
 * The plain-data results of the foundry calculations: what the traveller prints and `summary.json` holds.
 * mm, mm², mm³, g, °C, s, J unless a name says otherwise.
 */

import type { Finding } from '../part/finding.js';
import type { Stock, SurfaceClass } from '../part/stock.js';
import type { Vec3 } from '../solid/types.js';
import type { Spread } from './alloys/index.js';
import type { MeltPlan } from './charge/melt-plan.js';

/** A number's origin: printed small beside it. */
export interface Basis {
  /** The rule in words or symbols, for example `A = W / (ρ t C √(2 g h))`. */
  readonly rule: string;
  /** Standard, handbook and table; or `common practice, no source`; or `set in the job`. */
  readonly source: string;
}

/** One of the things that make a casting differ from its pattern. */
export interface GrowthCause {
  readonly name: string;
  /** What it adds to the growth, as a fraction. */
  readonly effect: Spread;
  readonly basis: Basis;
}

/** One of the ways to come to a growth. */
export interface GrowthWay {
  readonly way: 'handbook' | 'causes' | 'log';
  readonly value: number;
  /** Within which it may lie: the sources' spread, the causes' extremes, or the log's confidence interval. */
  readonly range: readonly [number, number];
}

export interface GrowthPlan {
  /** g = pattern size / casting size, ≥ 1. */
  readonly value: number;
  readonly basis: Basis;
  /** How `value` was come by. */
  readonly way: GrowthWay['way'] | 'set';
  /** What each way gives, the one taken among them. */
  readonly ways: readonly GrowthWay[];
  /** What the composed growth consists of. */
  readonly causes: readonly GrowthCause[];
}

export interface StockPlan {
  readonly stock: Stock;
  readonly basis: Readonly<Record<SurfaceClass, Basis>>;
}

/** How far castings may be off their sizes. */
export interface CastingTolerancePlan {
  /** DCTG of ISO 8062-3, 1 to 12. */
  readonly grade: number;
  readonly basis: Basis;
}

/** A place where the metal enters, and the runner that brings it there where the sprue does not stand on it. */
export interface GateSize {
  readonly name: string;
  /** Centre on the part's surface. */
  readonly at: Vec3;
  /** Ring joined to the part. */
  readonly innerDiameter: number;
  readonly outerDiameter: number;
  readonly area: number;
  /** mm that the part's surface falls away under the foot, which goes so much deeper; 0 where left out. */
  readonly seat?: number;
  /** Whether a cone closes a cored hole's mouth under the foot. */
  readonly coversCore: boolean;
  readonly runner?: {
    readonly diameter: number;
    /** Centre line from the part's surface to the sprue's bottom, rising all the way. */
    readonly path: readonly Vec3[];
  };
}

/** A round sprue on its gate, or over runners to several; cup and vents; in the pattern's coordinates and size. */
export interface GatingPlan {
  /** One without a runner, or several with one each. */
  readonly gates: readonly GateSize[];
  /** Metal through all gates together. */
  readonly entry: {
    readonly area: number;
    /** mm/s */
    readonly velocity: number;
    /** Highest velocity the rule allows, mm/s. */
    readonly velocityLimit: number;
  };
  readonly sprue: {
    /** Centre of its bottom: on the gate, or where the runners meet. */
    readonly at: Vec3;
    readonly bottomDiameter: number;
    readonly topDiameter: number;
    readonly length: number;
    /** Height of the metal surface in the cup above the lowest gate. */
    readonly head: number;
    readonly chokeArea: number;
    /** What set the bottom diameter: of the sprue, or of the runners. */
    readonly governedBy: 'choke' | 'modulus' | 'junction' | 'smallest printable' | 'largest the place allows';
  };
  readonly cup: {
    readonly topDiameter: number;
    readonly depth: number;
    readonly volume: number;
    /** Wall angle above the horizontal, radians, ≥ π/4. */
    readonly wallAngle: number;
  };
  readonly vents: readonly {
    readonly name: string;
    readonly diameter: number;
    /** Centre line from the part's surface to the cup's level. */
    readonly path: readonly Vec3[];
    /** As of a gate. */
    readonly seat?: number;
  }[];
  /** z of the top of cup and vents. */
  readonly topHeight: number;
  readonly fill: {
    /** s */
    readonly pourTime: number;
    /** mm³/s */
    readonly flow: number;
    /** V/A of the casting, mm. */
    readonly castingModulus: number;
    /** Least modulus of the sprue, or of the runners, at a gate, mm. */
    readonly feederModulus: number;
    /** Rule: feeder / casting modulus, and the least it should be. */
    readonly modulusRatio: number;
    readonly modulusRatioLimit: number;
    /** mm³ the casting asks for while freezing, and mm³ sprue and cup can give. */
    readonly feedDemand: number;
    readonly feedSupply: number;
    readonly ventArea: number;
    readonly ventAreaLimit: number;
    /** mm through the metal from the nearest gate to the place farthest from any; absent where not measured. */
    readonly reach?: number;
    /** How far a gate may have to feed. */
    readonly reachLimit: number;
  };
  /** Where the first plan broke rules: the gates of every plan tried, with the codes of the rules each does not meet. */
  readonly compared: readonly { readonly gates: readonly string[]; readonly broken: readonly string[] }[];
  readonly bases: Readonly<Record<string, Basis>>;
  readonly findings: readonly Finding[];
}

export interface FlaskLoads {
  /** g of the whole flask: filled with slurry, out of the kiln, poured. */
  readonly mass: { readonly wet: number; readonly fired: number; readonly poured: number };
  /** g of weight that keeps the pattern down: printed solid, and hollow. */
  readonly lift: { readonly solid: number; readonly hollow: number };
  /** MPa: the metal's pressure on the mould's floor, the bending it causes (0 where steel bears it), what is allowed. */
  readonly floor: { readonly pressure: number; readonly stress: number; readonly strength: number };
}

/** Powder and water as the shop's scale shows them, g: powder up to its step, water to the step nearest the ratio. */
export interface WeighedSlurry {
  readonly step: number;
  readonly powder: number;
  readonly water: number;
}

export interface FlaskPlan {
  readonly name: string;
  readonly insideDiameter: number;
  readonly insideHeight: number;
  /** What is left round, under and over the gated pattern. */
  readonly clearance: { readonly wall: number; readonly floor: number; readonly cover: number };
  /** mm³ of slurry: flask less pattern. */
  readonly slurryVolume: number;
  readonly powder: number;
  readonly water: number;
  /** What to weigh out of them. */
  readonly weigh: WeighedSlurry;
  readonly loads: FlaskLoads;
  readonly findings: readonly Finding[];
  readonly bases: Readonly<Record<string, Basis>>;
}

/** A step of a mix, s from the first contact of powder and water. */
export interface MixingStep {
  readonly purpose: string;
  readonly from: number;
  readonly to: number;
}

export interface InvestmentPlan {
  readonly name: string;
  readonly title: string;
  /** g water per g powder. */
  readonly waterRatio: number;
  /** g/mm³ of the mixed slurry. */
  readonly slurryDensity: number;
  /** Sums over all flasks of the job, with waste. */
  readonly powder: number;
  readonly water: number;
  /** The sums of what is weighed out. */
  readonly weigh: WeighedSlurry;
  readonly wasteFraction: number;
  readonly workingTime: number;
  /** The clock of one mix, and how many mixes fill all flasks one after another. */
  readonly steps: readonly MixingStep[];
  readonly mixes: number;
  /** g in a bag as bought; bags for the whole job, not rounded. */
  readonly bag: number;
  readonly bags: number;
  readonly bases: Readonly<Record<string, Basis>>;
}

export interface BurnoutSegment {
  readonly purpose: string;
  /** °C at the start and end of the ramp. */
  readonly from: number;
  readonly to: number;
  /** °C/h; negative coming down. */
  readonly rate: number;
  /** s */
  readonly ramp: number;
  /** s at `to`. */
  readonly soak: number;
  /** °C between skin and core at the segment's end, by conduction with the mould's water. */
  readonly coreLag?: number;
  /** What to look for, in a few words. */
  readonly watch?: string;
}

/** Clock times without zone, `2026-05-09T18:30`. */
export interface BurnoutClock {
  readonly start: string;
  /** At each segment's end. */
  readonly ends: readonly string[];
}

/** J over all loads. */
export interface BurnoutEnergy {
  readonly moulds: number;
  readonly water: number;
  readonly walls: number;
  readonly total: number;
  readonly basis: Basis;
}

interface Burnout {
  readonly segments: readonly BurnoutSegment[];
  /** The mould's core: s from the start, °C. */
  readonly core?: readonly (readonly [number, number])[];
  /** Where a start or a time to pour is given. */
  readonly clock?: BurnoutClock;
  /** Where the kiln's power is known. */
  readonly energy?: BurnoutEnergy;
  /** Kiln loads the flasks make, where its inside is known. */
  readonly loads?: number;
  /** s */
  readonly total: number;
  readonly peak: number;
  /** The flask's temperature at the pour; of a shell as it leaves the kiln. */
  readonly castingTemperature: number;
  readonly findings: readonly Finding[];
  readonly bases: Readonly<Record<string, Basis>>;
}

export interface FlaskBurnout extends Burnout {
  /** Largest flask, which sets the holds, mm. */
  readonly flaskDiameter: number;
  readonly shellThickness?: never;
}

export interface ShellBurnout extends Burnout {
  /** Thickest shell, mm. */
  readonly shellThickness: number;
  /** Put into the hot kiln, or heated from cold. */
  readonly firing: 'flash' | 'ramp';
  readonly flaskDiameter?: never;
}

export type BurnoutPlan = FlaskBurnout | ShellBurnout;

/** What one alloy's melt must be, for all its castings in the job. */
export interface ChargePlan {
  readonly alloy: string;
  readonly title: string;
  /** Metal in the moulds: castings with gating. */
  readonly inMoulds: number;
  readonly meltLoss: number;
  readonly reserve: number;
  /** What to weigh out. */
  readonly charge: number;
  /** J to melt and superheat, no furnace losses. */
  readonly energy: number;
  /** Crucible, heats and the metal each mould sees. */
  readonly melt?: MeltPlan;
  readonly bases: Readonly<Record<string, Basis>>;
}

/** Temperatures for one alloy's pour. */
export interface PourPlan {
  readonly alloy: string;
  readonly title: string;
  readonly liquidus: number;
  readonly metalTemperature: number;
  readonly metalRange: readonly [number, number];
  readonly flaskTemperature: number;
  readonly flaskRange: readonly [number, number];
  /** Of a bare shell: °C as it leaves the kiln, and s until the metal comes. */
  readonly carry?: { readonly leaves: number; readonly seconds: number };
  /** The names of the patterns it fills, thinnest first: the order to pour in. */
  readonly order: readonly string[];
  readonly findings: readonly Finding[];
  readonly bases: Readonly<Record<string, Basis>>;
}

export interface Caution {
  /** The step of the traveller it stands at. */
  readonly step: 'print' | 'mix' | 'burnout' | 'melt' | 'pour' | 'quench' | 'finish' | 'use';
  readonly hazard: string;
  readonly text: string;
}

export interface CostLine {
  readonly item: string;
  readonly quantity: number;
  readonly unit: string;
  readonly price: number;
  readonly amount: number;
}

export interface CostPlan {
  readonly currency: string;
  readonly lines: readonly CostLine[];
  readonly total: number;
  /** What of it falls on one piece of each part, and on all of them. */
  readonly parts: readonly { readonly name: string; readonly each: number; readonly all: number }[];
}
