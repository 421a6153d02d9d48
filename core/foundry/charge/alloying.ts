/** Alloying from ingots, elements and known scrap at the least cost. Mass in g, shares in mass %. */
import type { ElementSymbol } from '../alloys/index.js';
import { checkPositive, checkRange, FoundryInputError } from '../input.js';
import {
  type AlloyingLimits,
  type AlloyingMix,
  type Asked,
  defaultOther,
  type ElementOut,
  type Limit,
  limitsOf,
  mixOf,
  precision,
  type StockMetal,
  solveMix,
  strayOf,
  sum,
  type Yield,
  yieldOf,
} from './alloying-programme.js';

export type AlloyingInput = AlloyingLimits &
  (
    | {
        /** Molten metal wanted, g: what the moulds and the reserve take, after the losses. */
        readonly melt: number;
        readonly charge?: never;
      }
    | {
        /** Or the metal weighed out in all, g, before the losses. */
        readonly charge: number;
        readonly melt?: never;
      }
  );

export type AlloyingPlan =
  | { readonly ok: true; readonly mix: AlloyingMix }
  | {
      readonly ok: false;
      /** g of the melt or charge asked that the stock is short of; 0 when it is the composition that fails. */
      readonly short: number;
      /** The mix that strays least, by the sum of points; for as much as the stock allows. */
      readonly nearest: AlloyingMix;
      readonly out: readonly ElementOut[];
      /** Least pure metal to buy, g, with which the limits can be met; empty where none helps. */
      readonly help: readonly { readonly element: ElementSymbol; readonly mass: number }[];
    };

const askedOf = (input: AlloyingInput): Asked =>
  input.charge === undefined
    ? { amount: input.melt, counts: (y) => y.total }
    : { amount: input.charge, counts: () => 1 };

/**
 * Grams of each stock metal so that the melt (after the losses) or the charge (before them) weighs what is asked,
 * every element lies within its limits, and the cost is least. Where that cannot be, a second programme lets every
 * limit give and finds the mix that strays by the fewest points; a third finds the least pure metal that would put
 * it right.
 * @throws FoundryInputError for an empty stock, a composition over 100 %, prices and losses out of range.
 */
export function planAlloying(input: AlloyingInput): AlloyingPlan {
  check(input);
  const asked = askedOf(input);
  const yields = input.stock.map((metal) => yieldOf(metal));
  const limits = limitsOf(input);
  const exact = solveMix(asked, yields, limits, 'cost');
  if (exact !== null) return { ok: true, mix: exact };

  const most = yields.reduce(
    (sum, y) => sum + asked.counts(y) * (y.metal.available ?? Number.POSITIVE_INFINITY),
    0,
  );
  // A hair under all there is, lest rounding make the equality impossible.
  const amount = Math.min(asked.amount, most * (1 - 1e-9));
  const nearest = solveMix({ ...asked, amount }, yields, limits, 'strays');
  if (nearest === null) throw new FoundryInputError('stock', 'too little', 'no metal in stock');
  return {
    ok: false,
    short: Math.max(0, asked.amount - most),
    nearest,
    out: limits.flatMap((limit) => strayOf(limit, nearest)),
    help: helpFor(input, asked, yields, limits),
  };
}

function check({ stock, target, melt, charge, eachOther = defaultOther }: AlloyingInput): void {
  if (charge === undefined) checkPositive('melt', melt, 'g');
  else checkPositive('charge', charge, 'g');
  checkRange('eachOther', eachOther, 0, 100, '%');
  if (stock.length === 0)
    throw new FoundryInputError('stock', 'an empty list', 'give at least one metal to melt');
  for (const [element, { min = 0, max = 100 }] of Object.entries(target)) {
    checkRange(`${element} min`, min, 0, 100, '%');
    checkRange(`${element} max`, max, min, 100, '%');
  }
  for (const m of stock) {
    checkRange(`${m.name} price`, m.pricePerKg, 0, Number.POSITIVE_INFINITY, 'per kg');
    if (m.available !== undefined)
      checkRange(`${m.name} available`, m.available, 0, Number.POSITIVE_INFINITY, 'g');
    for (const [element, share] of Object.entries(m.composition))
      checkRange(`${m.name} ${element}`, share, 0, 100, '%');
    for (const [element, loss] of Object.entries(m.meltLoss ?? {}))
      checkRange(`${m.name} loss of ${element}`, loss, 0, 0.9);
    checkRange(`${m.name} composition, summed`, sum(Object.values(m.composition)), 0, 100 + 1e-6, '%');
  }
  if (stock.every((m) => m.available === 0))
    throw new FoundryInputError('stock', 'all used up', 'give at least one metal that is there');
}

/** What a melt comes to that is weighed out by hand, g of each stock metal in its order. */
export const mixOfGrams = (stock: readonly StockMetal[], grams: readonly number[]): AlloyingMix =>
  mixOf(
    stock.map((metal) => yieldOf(metal)),
    grams,
  );

/** Every limit that a mix misses. */
export const mixStrays = (input: AlloyingLimits, mix: AlloyingMix): readonly ElementOut[] =>
  limitsOf(input).flatMap((limit) => strayOf(limit, mix));

/** Pure metals of the target, as much as wanted, each gram counted against; the stock costs nothing. */
function helpFor(
  { target }: AlloyingLimits,
  asked: Asked,
  yields: readonly Yield[],
  limits: readonly Limit[],
): { readonly element: ElementSymbol; readonly mass: number }[] {
  const elements = Object.keys(target) as ElementSymbol[];
  const free = yields.map((y) => ({ ...y, metal: { ...y.metal, pricePerKg: 0 } }));
  const pure = elements.map((e) => yieldOf({ name: `pure ${e}`, composition: { [e]: 100 }, pricePerKg: 1 }));
  const found = solveMix(asked, [...free, ...pure], limits, 'cost');
  if (found === null) return [];
  return elements.flatMap((element) => {
    const mass = found.items.find((i) => i.name === `pure ${element}`)?.mass ?? 0;
    return mass > precision * asked.amount ? [{ element, mass }] : [];
  });
}
