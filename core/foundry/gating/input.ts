import type { GatePlace, VentPlace } from '../../part/contract.js';
import type { Basis } from '../plans.js';
import type { TreePlace } from './tree.js';

/** What the pour-time and velocity rules tell apart. Silicon bronze counts as `copper`. */
export const metalFamilies = [
  'tin-bronze',
  'brass',
  'copper',
  'aluminium-bronze',
  'aluminium',
  'iron',
  'zinc',
  'other',
] as const;
export type MetalFamily = (typeof metalFamilies)[number];

export interface GatingMetal {
  readonly name: string;
  readonly family: MetalFamily;
  /** Liquid, g/mm³. */
  readonly liquidDensity: number;
  /** Volume lost on freezing as a fraction of the casting's; negative where the metal grows. */
  readonly freezingContraction: number;
  /** Chvorinov's B in the mould it is poured into, s/mm²; see `freezingFactors` for rough values. */
  readonly freezingFactor: number;
  /** Liquidus less solidus, °C. */
  readonly freezingRange: number;
}

/**
 * Chvorinov's B in plaster investment (k 0.35, ρ 1100, c 840), s/mm²: copper alloy into a 400 °C mould, aluminium
 * into 300 °C. Recomputed from assumed properties: order of magnitude only.
 */
export const freezingFactors = { copper: 15.6, aluminium: 23.5 } as const;

/** The solid that is gated, in pattern size and coordinates. */
export interface GatingCasting {
  /** mm³ */
  readonly volume: number;
  /** mm² */
  readonly area: number;
  /** g */
  readonly mass: number;
  /** z of its highest and lowest points, mm. */
  readonly top: number;
  readonly bottom: number;
  /** Of the circle round it in plan, mm. */
  readonly radius: number;
  /** V/A of the thinnest wall (half its thickness), mm; the whole casting's V/A where left out. */
  readonly thinnestModulus?: number;
}

/** All overridable; lengths mm, times s, angles radians. */
export interface GatingSettings {
  /** How many, 1 to 4; null: one where it meets the rules, more where they meet more of them. */
  readonly gates: number | null;
  /** Longest pour; null: from the handbook rule and the freezing time. */
  readonly pourTime: number | null;
  readonly dischargeCoefficient: number;
  /** Fill within this share of the thinnest wall's freezing time. */
  readonly freezingShare: number;
  /** Metal surface in the cup over the casting's highest point. */
  readonly leastHead: number;
  /** Sprue between foot and cup. */
  readonly leastSprueLength: number;
  readonly leastSprueDiameter: number;
  /** Feeder / casting modulus. */
  readonly modulusRatio: number;
  /** Share of the feeder's volume that can leave it, its own contraction included. */
  readonly feederEfficiency: number;
  readonly cupSeconds: number;
  /** The cup need not hold more than this share of the casting for the flow rule. */
  readonly cupShare: number;
  readonly cupWallAngle: number;
  readonly cupLeastDiameter: number;
  /** Null: as wide as the casting, at least 50 mm. Beyond it the cup gets deeper. */
  readonly cupLargestDiameter: number | null;
  readonly ventLeastDiameter: number;
  /** Reached only where the area needs it and the place allows it. */
  readonly ventLargestDiameter: number;
  /** Mould left between vents, sprue and cup. */
  readonly clearance: number;
  /** Mould left between the patterns of a tree. */
  readonly patternGap: number;
  /** Through the gate, mm/s; null: by metal family. */
  readonly velocityLimit: number | null;
}

export const defaultGatingSettings: GatingSettings = {
  gates: null,
  pourTime: null,
  dischargeCoefficient: 0.8,
  freezingShare: 0.2,
  leastHead: 30,
  leastSprueLength: 12,
  leastSprueDiameter: 4,
  modulusRatio: 1.2,
  feederEfficiency: 0.14,
  cupSeconds: 2,
  cupShare: 0.5,
  cupWallAngle: Math.PI / 3,
  cupLeastDiameter: 30,
  cupLargestDiameter: null,
  ventLeastDiameter: 1.5,
  ventLargestDiameter: 4,
  clearance: 3,
  patternGap: 10,
  velocityLimit: null,
};

const practice = 'common practice, no source';

const settingBases: Readonly<Record<keyof GatingSettings, Basis>> = {
  gates: { rule: 'one gate where it serves', source: practice },
  pourTime: { rule: 'longest pour', source: practice },
  dischargeCoefficient: { rule: 'C = 0.8', source: 'lecture notes on gating system design; P. N. Rao' },
  freezingShare: { rule: 'fill within 1/5 of the thinnest wall’s freezing time', source: practice },
  leastHead: { rule: 'metal at least 30 mm over the casting’s highest point', source: practice },
  leastSprueLength: { rule: 'at least 12 mm of sprue to saw through', source: practice },
  leastSprueDiameter: { rule: 'sprue at least 4 mm, to print and burn out safely', source: practice },
  modulusRatio: {
    rule: 'feeder modulus ≥ 1.2 × casting modulus',
    source: 'R. Wlodawer, Directional Solidification of Steel Castings; J. Campbell (from memory)',
  },
  feederEfficiency: {
    rule: 'a cylindrical feeder gives 14 % of its volume',
    source: 'J. Campbell, Complete Casting Handbook (from memory)',
  },
  cupSeconds: { rule: 'cup holds 2 s of flow', source: practice },
  cupShare: { rule: 'but no more than half the casting’s volume for that', source: practice },
  cupWallAngle: { rule: 'cup wall 60° above the horizontal (45° prints without support)', source: practice },
  cupLeastDiameter: { rule: 'cup at least 30 mm wide, to hit with a crucible', source: practice },
  cupLargestDiameter: { rule: 'cup no wider than the casting or 50 mm; deeper beyond', source: practice },
  ventLeastDiameter: { rule: 'vents from 1.5 mm', source: practice },
  ventLargestDiameter: {
    rule: 'to 3 mm, 4 mm where the area needs it and the place allows it',
    source: practice,
  },
  clearance: { rule: 'at least 3 mm of mould between vents, sprue and cup', source: practice },
  patternGap: { rule: '10 mm of mould between the patterns of a tree', source: practice },
  velocityLimit: { rule: 'gate velocity', source: practice },
};

/** Where a setting's value comes from. */
export const settingBasis = (settings: GatingSettings, key: keyof GatingSettings): Basis =>
  settings[key] === defaultGatingSettings[key]
    ? settingBases[key]
    : { rule: `${key} = ${settings[key]}`, source: 'set in the job' };

/** One kind of pattern on a tree of several, in its own coordinates: as the parts of the same names of the whole input. */
export interface TreeKind {
  /** Told with its gates and vents. */
  readonly name: string;
  readonly gates: readonly GatePlace[];
  readonly vents: readonly VentPlace[];
  readonly distances?: readonly Float64Array[];
  /** One of them. */
  readonly casting: GatingCasting;
  /** Where its patterns stand. */
  readonly places: readonly TreePlace[];
}

export interface GatingInput {
  /** Best first, pattern coordinates. */
  readonly gates: readonly GatePlace[];
  readonly vents: readonly VentPlace[];
  /** From each of `gates`, then `vents`, through the metal: see `measureInnerDistances`. Left out: reach is not judged. */
  readonly distances?: readonly Float64Array[];
  /** The patterns of a tree, each with `gates` and `vents`; `casting` is one of them, its radius that of all. Left out: one as it is. */
  readonly tree?: readonly TreePlace[];
  /** A tree of several kinds: in place of `gates`, `vents` and `tree`, and `casting` is then all of them together, see `allKinds`. */
  readonly kinds?: readonly TreeKind[];
  /** Vents where the whole, as it stands, needs them. */
  readonly furtherVents?: readonly VentPlace[];
  /** From the lowest point to the cup's level at most, mm: what the flasks take. Left out: no limit. */
  readonly heightLimit?: number;
  readonly casting: GatingCasting;
  readonly metal: GatingMetal;
  readonly settings?: Partial<GatingSettings>;
}
