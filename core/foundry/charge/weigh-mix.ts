/** A mix in whole steps of the scale, heat by heat. Mass in g. */
import { stepShares } from '../scale.js';
import { mixOfGrams, mixStrays } from './alloying.js';
import { type AlloyingLimits, type AlloyingMix, type ElementOut, sum } from './alloying-programme.js';

export interface WeighedMix {
  /** Of each stock metal before rounding; of each heat and metal after it. */
  readonly exact: readonly number[];
  readonly heats: readonly (readonly number[])[];
  /** Limits that rounding crosses, whatever is tried. */
  readonly out: readonly ElementOut[];
}

/**
 * Whole steps of all, then of each heat from what is left, so that the shelf gives what it has and no more. The
 * cheapest mix lies on a limit, and rounding may cross it: then single steps are moved from one metal to another,
 * each time where it brings the heat nearest to its limits, the cheapest where several do.
 * @param heats charge of each, g, whole steps
 */
export function weighMix(
  asked: AlloyingLimits,
  mix: AlloyingMix,
  heats: readonly number[],
  step: number,
): WeighedMix {
  const { stock } = asked;
  const exact = stock.map((m) => mix.items.find((i) => i.name === m.name)?.mass ?? 0);
  let rest = sum(heats);
  let left = stepShares(exact, rest, step);
  const shared = heats.map((charge) => {
    const part = charge / rest;
    const taken = stepShares(
      left.map((g) => g * part),
      charge,
      step,
    );
    left = left.map((g, i) => g - taken[i]!);
    rest -= charge;
    return taken;
  });
  const shelf = stock.map(
    (m, i) => (m.available ?? Number.POSITIVE_INFINITY) - sum(shared.map((grams) => grams[i]!)),
  );
  const mended = shared.map((grams) => mend(asked, grams, shelf, step));
  return {
    exact,
    heats: mended,
    out: mended.flatMap((grams) => mixStrays(asked, mixOfGrams(stock, grams))),
  };
}

/** Moves steps until the heat is in specification or no move helps; takes what it moves from `shelf`. */
function mend(
  asked: AlloyingLimits,
  grams: readonly number[],
  shelf: number[],
  step: number,
): readonly number[] {
  const { stock } = asked;
  const judge = (g: readonly number[]): { readonly stray: number; readonly cost: number } => {
    const mix = mixOfGrams(stock, g);
    return { stray: sum(mixStrays(asked, mix).map((o) => o.by)), cost: mix.cost };
  };
  let now = grams;
  let judged = judge(now);
  const pairs = stock.flatMap((_, from) => stock.flatMap((_, to) => (from === to ? [] : [{ from, to }])));
  while (judged.stray > 0) {
    const moves = pairs.flatMap(({ from, to }) => {
      if (now[from]! < step * 0.999 || shelf[to]! < step * 0.999) return [];
      const next = now.map((g, i) => (i === from ? g - step : i === to ? g + step : g));
      return [{ from, to, next, judged: judge(next) }];
    });
    const nearer = moves.filter((m) => m.judged.stray < judged.stray - 1e-9);
    if (nearer.length === 0) break;
    nearer.sort((a, b) => a.judged.stray - b.judged.stray || a.judged.cost - b.judged.cost);
    const best = nearer[0]!;
    shelf[best.from]! += step;
    shelf[best.to]! -= step;
    now = best.next;
    judged = best.judged;
  }
  return now.map((g) => Number(g.toFixed(9)));
}
