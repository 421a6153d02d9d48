/** Coating all the job's patterns: the clock, the slurry and stucco, the tank. */
import { checkRange } from '../input.js';
import { defaultWaste, type ShellInvestment } from '../investment.js';
import { coatClock, shellSlurryDensity } from './coats.js';
import type { CoatingPlan, ShellPlan } from './plans.js';

export interface CoatingInput {
  readonly investment: ShellInvestment;
  /** A shell plan each; `quantity` patterns of it. One at least. */
  readonly shells: readonly (Pick<ShellPlan, 'coats' | 'slurry' | 'stucco' | 'tank'> & {
    readonly quantity: number;
  })[];
  /** As given to the shells, whose figures hold it already. */
  readonly wasteFraction?: number;
}

/** Sums over the shells, and the clock of the one with the most coats. */
export function planCoating({ investment, shells, wasteFraction = defaultWaste }: CoatingInput): CoatingPlan {
  checkRange('shells', shells.length, 1, Number.POSITIVE_INFINITY);
  const { coats, sources } = investment;
  const clock = coatClock(coats, Math.max(...shells.map((s) => s.coats)));
  const last = clock.at(-1)!;
  const sum = (pick: 'slurry' | 'stucco'): number =>
    shells.reduce((total, s) => total + s[pick] * s.quantity, 0);
  const tank = shells.map((s) => s.tank).sort((a, b) => b.slurry - a.slurry)[0]!;
  const flour = (1000 * coats.flourPerSol) / (coats.flourPerSol + 1);
  return {
    name: investment.name,
    title: investment.title,
    coats: clock,
    total: last.at + last.dry,
    slurryDensity: shellSlurryDensity(coats),
    recipe: { flour, sol: 1000 - flour },
    slurry: sum('slurry'),
    stucco: sum('stucco'),
    wasteFraction,
    tank,
    room: coats.room,
    bases: {
      slurryDensity: {
        rule: `(1 + f) / ((f + s) / ρ + (1 − s)), f = ${coats.flourPerSol} flour to sol, s = ${coats.solSilica} silica in the sol`,
        source: `Mass balance; ${sources.slurry}`,
      },
      drying: { rule: 'dips within 8 h of a day, each coat dry before the next', source: sources.drying },
    },
  };
}
