/** The shape of `summary.json`: every number on the traveller, with units. Increase the version when it changes. */
import type { AirPlan } from '../foundry/air/index.js';
import type {
  BurnoutPlan,
  CastingTolerancePlan,
  Caution,
  ChargePlan,
  CostPlan,
  FlaskPlan,
  GatingPlan,
  GrowthPlan,
  InvestmentPlan,
  PourPlan,
  StockPlan,
} from '../foundry/plans.js';
import type { CoatingPlan, ShellPlan } from '../foundry/shell/plans.js';
import type { FreezePlan } from '../freeze/plans.js';
import type { Fitting, SurfaceNote } from '../part/contract.js';
import type { Finding } from '../part/finding.js';
import type { Vec2 } from '../solid/types.js';
import type { PlateSort } from './bed-schema.js';
import type { PrintBed } from './job.js';
import type { Shop } from './shop.js';

export const summaryVersion = 1;

/** The units of every number in the summary. */
export const summaryUnits = {
  length: 'mm',
  area: 'mm²',
  volume: 'mm³',
  mass: 'g',
  temperature: '°C',
  time: 's',
  angle: 'rad',
  energy: 'J',
  pressure: 'MPa',
} as const;

export interface DimensionRow {
  readonly symbol: string;
  readonly name: string;
  readonly unit: 'mm' | 'rad' | '1';
  readonly axis: 'xy' | 'z' | 'none';
  readonly part: number;
  readonly casting: number;
  readonly pattern: number;
  readonly method: string;
  /** What the print measures when the printer has made its error, where that is not `pattern` / correction. */
  readonly printed?: number;
  /** ± of the casting's size, mm; its grade in the part's `castingTolerance`. Missing where none is defined. */
  readonly castingTolerance?: number;
  /** For the inspection sheet alone. */
  readonly detail?: boolean;
  /** What a gauge is set to, or a calculated size; measured when left out. */
  readonly role?: 'setting' | 'reference';
}

export interface MeshFacts {
  readonly triangles: number;
  readonly volume: number;
  /** Outside sizes in x, y, z. */
  readonly size: readonly [number, number, number];
}

/** One kind of pattern on a tree of several. */
export interface MemberSummary {
  /** Unique on its tree. */
  readonly name: string;
  /** As of a part. */
  readonly part: string;
  readonly partFile?: string;
  readonly piece?: string;
  readonly title: string;
  /** Patterns of it on each tree, and castings of it in all. */
  readonly count: number;
  readonly quantity: number;
  readonly parameters: Readonly<Record<string, number | string | boolean>>;
  readonly growth: GrowthPlan;
  readonly stock: StockPlan;
  readonly surfaces: readonly SurfaceNote[];
  readonly fittings: readonly Fitting[];
  /** g: one part, one casting. */
  readonly mass: { readonly part: number; readonly casting: number };
  readonly volume: { readonly part: number; readonly casting: number; readonly pattern: number };
  readonly meshes: Readonly<Record<'part' | 'casting' | 'pattern', MeshFacts>>;
  readonly dimensions: readonly DimensionRow[];
  readonly castingTolerance?: CastingTolerancePlan;
  readonly files: Readonly<Record<string, string>>;
}

interface PartFacts {
  readonly name: string;
  /** The part definition's name. */
  readonly part: string;
  /** Path of the part file that it is from, as the job writes it. */
  readonly partFile?: string;
  /** Which of the part's castings it is; missing where it is cast in one. */
  readonly piece?: string;
  readonly title: string;
  readonly quantity: number;
  /** Patterns in one mould, round one sprue, and moulds: `quantity` castings at least. */
  readonly patternsPerTree: number;
  readonly moulds: number;
  readonly parameters: Readonly<Record<string, number | string | boolean>>;
  readonly alloy: string;
  readonly growth: GrowthPlan;
  readonly printerCorrection: { readonly xy: number; readonly z: number };
  readonly stock: StockPlan;
  readonly surfaces: readonly SurfaceNote[];
  /** Bought or cut for each casting. */
  readonly fittings: readonly Fitting[];
  /** g: one part, one casting; one mould's gating and its `charge`, castings and gating without melt loss. */
  readonly mass: {
    readonly part: number;
    readonly casting: number;
    readonly gating: number;
    readonly charge: number;
  };
  /** mm³ of the meshes: one piece; `gated` one mould's patterns. */
  readonly volume: {
    readonly part: number;
    readonly casting: number;
    readonly pattern: number;
    readonly gated: number;
  };
  readonly meshes: Readonly<Record<'part' | 'casting' | 'pattern' | 'gated', MeshFacts>>;
  /** Greatest chord deviation of its meshes, mm. */
  readonly tolerance: number;
  readonly dimensions: readonly DimensionRow[];
  /** Grade of the rows' casting tolerances. */
  readonly castingTolerance?: CastingTolerancePlan;
  readonly gating: GatingPlan;
  /** Where the flask's axis is to be in plan, mm: at the sprue of a tree; missing where it is the middle of the whole. */
  readonly flaskAxis?: Vec2;
  /** The kinds on a tree of several. Masses, volumes and meshes of part, casting and pattern are then of all on one tree. */
  readonly members?: readonly MemberSummary[];
  /** Where metal would trap air, and the vents added for it. */
  readonly air?: AirPlan;
  /** How it fills and freezes, where that was calculated. */
  readonly freeze?: FreezePlan;
  readonly findings: readonly Finding[];
  /** Paths relative to the output folder. */
  readonly files: Readonly<Record<string, string>>;
}

/** A part of the job that is left out of all that is told and written. */
export interface PartNotMade {
  readonly name: string;
  /** The part definition's name, or the path of its file as the job writes it. */
  readonly part: string;
  readonly piece?: string;
  readonly quantity: number;
  readonly alloy: string;
  /** Why, and what would mend it. */
  readonly findings: readonly Finding[];
}

/** What a pattern's mould is: invested in a flask, or clothed in a shell. */
export type PartMould =
  | { readonly flask: FlaskPlan; readonly shell?: never }
  | { readonly shell: ShellPlan; readonly flask?: never };

export type PartSummary = PartFacts & PartMould;

export const isInFlask = (p: PartSummary): p is PartSummary & { readonly flask: FlaskPlan } =>
  p.flask !== undefined;
export const isInShell = (p: PartSummary): p is PartSummary & { readonly shell: ShellPlan } =>
  p.shell !== undefined;

/** The mould's own findings. */
export const mouldFindings = (mould: PartMould): readonly Finding[] => (mould.flask ?? mould.shell).findings;

export interface PlatePlacement {
  readonly name: string;
  /** Of `moulds`, from 1. */
  readonly copy: number;
  /** Where the pattern's origin goes, mm from the bed's front left corner. */
  readonly x: number;
  readonly y: number;
  /** Turn about Z, radians, before placing. */
  readonly turn: number;
}

export interface PlateSummary {
  readonly name: string;
  readonly placements: readonly PlatePlacement[];
  /** Highest point, mm. */
  readonly height: number;
  /** Plastic in it, g, printed solid. */
  readonly plastic: number;
  /** Share of the bed inside its margin that the patterns cover, seen from above. */
  readonly filled: number;
  /** The alloy or the flask, by name, that its patterns share; missing where any may share a plate. */
  readonly batch?: string;
  readonly files: Readonly<Record<string, string>>;
}

interface JobFacts {
  readonly schemaVersion: typeof summaryVersion;
  readonly units: typeof summaryUnits;
  readonly job: { readonly name: string; readonly title: string; readonly notes: readonly string[] };
  readonly bed: PrintBed;
  /** With this seed and these rounds, and no seconds, the same plates are had again on any machine. */
  readonly nesting: { readonly sortBy: PlateSort; readonly seed: number; readonly rounds: number };
  /** The shop whose profile the numbers hold for. */
  readonly shop: Shop;
  /** Greatest chord deviation of any mesh, mm. */
  readonly tolerance: number;
  readonly parts: readonly PartSummary[];
  /** Parts of the job that could not be made, where there are any; nothing else tells of them. */
  readonly notMade?: readonly PartNotMade[];
  readonly burnout: BurnoutPlan;
  /** One an alloy. */
  readonly pour: readonly PourPlan[];
  readonly charge: readonly ChargePlan[];
  readonly plates: readonly PlateSummary[];
  /** Null where the job gives no prices. */
  readonly cost: CostPlan | null;
  readonly cautions: readonly Caution[];
  readonly findings: readonly Finding[];
}

/** What all the moulds of a job are made of: powder and water, or coats. Every part's mould is of the same kind. */
export type JobMoulds =
  | { readonly investment: InvestmentPlan; readonly coating?: never }
  | { readonly coating: CoatingPlan; readonly investment?: never };

export type Summary = JobFacts & JobMoulds;
