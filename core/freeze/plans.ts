/** What the calculation of filling and freezing tells: plain data for the traveller and `summary.json`. mm, mm³, s, °C. */
import type { Basis } from '../foundry/plans.js';
import type { Finding } from '../part/finding.js';
import type { Vec3 } from '../solid/types.js';

export const freezeLevels = ['coarse', 'fine', 'off'] as const;
export type FreezeLevel = (typeof freezeLevels)[number];

/** A place in a casting that freezes after all metal next to it. */
export interface LatePlace {
  readonly at: Vec3;
  /** s until it is solid. */
  readonly solidAt: number;
  /** s until the last liquid way from it to the gating closes; 0: it never had one, `solidAt`: it is fed to the end. */
  readonly shutAt: number;
  /** mm³ of liquid about it when that way closed. */
  readonly cutOff: number;
  /** mm³ of void that its freezing may leave. */
  readonly void: number;
  /** Where the way to the gating closes first, on its best way there; missing where it is fed. */
  readonly neck?: Vec3;
  /** K/mm: the least thermal gradient on the shortest liquid way to where that closes, without the place itself. */
  readonly leastGradient: number;
}

/** Cells next to one another that the metal may not reach. */
export interface ThinPlace {
  readonly at: Vec3;
  /** mm³ */
  readonly volume: number;
  /** Time to freeze over time to fill, the least in it. */
  readonly margin: number;
  /** mm, about: twice the volume over the area that touches the mould. */
  readonly thickness: number;
}

/** How the mould fills. */
export interface FillPlan {
  /** s from the first metal in the sprue until castings, vents and sprue are full. */
  readonly total: number;
  /** s until the castings are full. */
  readonly castings: number;
  /** mm³/s: at the start, and as the castings are full. */
  readonly flow: { readonly first: number; readonly last: number };
  /** Pa: greatest pressure of the air that leaves by the vents. */
  readonly backPressure: number;
  /** Level against time for a chart: s, mm above the mould's lowest metal, mm³ filled. */
  readonly history: readonly { readonly time: number; readonly level: number; readonly volume: number }[];
  /** mm³ of cavity that no metal reaches. */
  readonly unreached: number;
  /** The least in the castings, where it is, and its places under the limit, worst first. */
  readonly margin: number;
  readonly marginAt: Vec3;
  readonly marginLimit: number;
  readonly thinPlaces: readonly ThinPlace[];
}

export interface FreezePlan {
  readonly level: 'coarse' | 'fine';
  /** mm: edge of the cells about the pattern. */
  readonly cell: number;
  readonly cells: number;
  readonly steps: number;
  /** Share of the heat moved that the balance does not account for. */
  readonly imbalance: number;
  /** °C of metal and mould as the metal comes; s from the kiln to the pour. */
  readonly start: { readonly metal: number; readonly mould: number; readonly delay: number };
  readonly fill: FillPlan;
  /** mm: radius that sharp edges come out with at the castings' lowest and highest places, held off by surface tension. */
  readonly edgeRadius: { readonly lowest: number; readonly highest: number };
  /** s from the full mould: castings solid, all solid. */
  readonly solid: { readonly castings: number; readonly all: number };
  /** Latest first; the castings' alone. */
  readonly latePlaces: readonly LatePlace[];
  /** mm³ that the castings draw as they cool and freeze, and that cup, sprue and runners can give. */
  readonly feed: { readonly demand: number; readonly supply: number };
  /** Niyama's G/√Ṫ, √(K·s)/mm: share of the castings' metal under the limit, and the least. */
  readonly niyama: { readonly limit: number; readonly below: number; readonly least: number };
  /** s from the full mould until it may be moved, and until it may be quenched (the metal's hottest under `quench`, °C). */
  readonly move: number;
  readonly quench: { readonly at: number; readonly temperature: number };
  /** °C: hottest the mould's face gets, where, and what the investment stands. */
  readonly facePeak: { readonly temperature: number; readonly at: Vec3; readonly limit: number };
  readonly findings: readonly Finding[];
  readonly bases: Readonly<Record<string, Basis>>;
}
