/** What the shell calculations give: plain data for the traveller and `summary.json`. mm, mm², g, °C, s, MPa. */
import type { Finding } from '../../part/finding.js';
import type { Vec3 } from '../../solid/types.js';
import type { Basis } from '../plans.js';

/** A shell round one gated pattern, in place of a flask. */
export interface ShellPlan {
  /** Stuccoed coats; a seal coat of slurry alone comes over them. */
  readonly coats: number;
  /** mm, seal coat and all. */
  readonly thickness: number;
  /** mm² of the gated pattern. */
  readonly area: number;
  /** mm³ of the dry shell. */
  readonly volume: number;
  /** Outside, x, y, z. */
  readonly size: Vec3;
  /** Of a circle that holds it in plan. */
  readonly diameter: number;
  /** g used on one pattern, with what drips, drains and falls off for good. */
  readonly slurry: number;
  readonly stucco: number;
  /** The least that covers the coated pattern in a round tank. */
  readonly tank: { readonly diameter: number; readonly depth: number; readonly slurry: number };
  /** g: dried shell with the pattern in it, out of the kiln, poured. */
  readonly mass: { readonly dried: number; readonly fired: number; readonly poured: number };
  /** g that the slurry lifts the bare pattern by: printed solid, and hollow. */
  readonly lift: { readonly solid: number; readonly hollow: number };
  /** The metal's pressure at the foot, the greatest stress it causes, what is allowed; the flat that governs. */
  readonly stress: {
    readonly pressure: number;
    readonly greatest: number;
    readonly allowed: number;
    readonly flat: number;
  };
  /** How it is poured: standing by itself, or bedded to the cup in dry sand. */
  readonly stands: 'bare' | 'in dry sand';
  /** The narrowest gap of the pattern that is too narrow for two coats on both walls. */
  readonly narrowGap?: number;
  readonly findings: readonly Finding[];
  readonly bases: Readonly<Record<string, Basis>>;
}

/** One coat of the job, by the clock. */
export interface Coat {
  readonly name: 'prime' | 'backup' | 'seal';
  /** From 1. */
  readonly number: number;
  /** Of the grain thrown on, mm; left out for slurry alone. */
  readonly grain?: readonly [number, number];
  /** mm of shell when it is dry. */
  readonly thickness: number;
  /** s from the first dip, and s to dry. */
  readonly at: number;
  readonly dry: number;
}

/** Coating all the job's patterns, in place of mixing. */
export interface CoatingPlan {
  readonly name: string;
  readonly title: string;
  /** For the pattern with the most coats; those with fewer leave out the last backups. */
  readonly coats: readonly Coat[];
  /** s from the first dip until the shell may go into the fire. */
  readonly total: number;
  /** g/mm³ */
  readonly slurryDensity: number;
  /** Flour, sol: g to make a kilogram of slurry. */
  readonly recipe: { readonly flour: number; readonly sol: number };
  /** g, sums over the job with waste. */
  readonly slurry: number;
  readonly stucco: number;
  readonly wasteFraction: number;
  /** The tank that covers the largest pattern, and g to have in it when the last coat is dipped. */
  readonly tank: ShellPlan['tank'];
  readonly room: {
    readonly temperature: readonly [number, number];
    readonly humidity: readonly [number, number];
  };
  readonly bases: Readonly<Record<string, Basis>>;
}
