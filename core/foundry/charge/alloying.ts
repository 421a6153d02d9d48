/** Alloying from ingots, elements and known scrap at the least cost: a linear programme. Mass in g, shares in mass %. */
import { type Model, solve } from 'yalps';
import type { ElementShare, ElementSymbol } from '../alloys/index.js';
import { checkPositive, checkRange, FoundryInputError } from '../input.js';

/** Metal on the shelf whose composition is known. */
export interface StockMetal {
  readonly name: string;
  /** Mass %; what is missing to 100 counts as unknown metal. */
  readonly composition: Readonly<Partial<Record<ElementSymbol, number>>>;
  readonly pricePerKg: number;
  /** g; default: as much as is wanted. */
  readonly available?: number;
  /** Fraction of an element lost in the melt where it is not the usual. */
  readonly meltLoss?: Readonly<Partial<Record<ElementSymbol, number>>>;
}

export interface AlloyingInput {
  readonly stock: readonly StockMetal[];
  /** Limits in mass %; an element without any (a balance) is free, one not named at all is kept to `eachOther`. */
  readonly target: Readonly<Partial<Record<ElementSymbol, Pick<ElementShare, 'min' | 'max'>>>>;
  /** Molten metal wanted, g: what the moulds and the reserve take, after the losses. */
  readonly melt: number;
  /** Most of each element the target does not name, and of unknown metal, mass %. Default 0.3. */
  readonly eachOther?: number;
}

export interface AlloyingItem {
  readonly name: string;
  /** g to weigh out. */
  readonly mass: number;
  readonly cost: number;
}

export interface AlloyingMix {
  readonly items: readonly AlloyingItem[];
  /** g in all. */
  readonly charge: number;
  readonly cost: number;
  /** Of the melt, after the losses, mass %. */
  readonly composition: Readonly<Partial<Record<ElementSymbol, number>>>;
  /** Mass % of what the stock's compositions leave unsaid. */
  readonly unknown: number;
}

/** An element that the nearest mix has too much or too little of. */
export interface ElementOut {
  readonly element: ElementSymbol | 'unknown metal';
  readonly got: number;
  readonly limit: number;
  readonly side: 'over' | 'under';
  /** Points of mass %. */
  readonly by: number;
}

export type AlloyingPlan =
  | { readonly ok: true; readonly mix: AlloyingMix }
  | {
      readonly ok: false;
      /** g of melt that the stock is short of; 0 when it is the composition that fails. */
      readonly short: number;
      /** The mix that strays least, by the sum of points; for the melt that the stock allows. */
      readonly nearest: AlloyingMix;
      readonly out: readonly ElementOut[];
      /** Least pure metal to buy, g, with which the limits can be met; empty where none helps. */
      readonly help: readonly { readonly element: ElementSymbol; readonly mass: number }[];
    };

/** Fraction lost when an element is melted in the open under flux or charcoal (from memory; zinc and magnesium fume). */
export const usualElementLoss: Readonly<Record<ElementSymbol, number>> = {
  Ag: 0.005,
  Al: 0.02,
  C: 0.05,
  Cu: 0.01,
  Fe: 0.02,
  Mg: 0.1,
  Mn: 0.1,
  Ni: 0.005,
  P: 0.1,
  Pb: 0.02,
  S: 0.1,
  Sb: 0.03,
  Si: 0.03,
  Sn: 0.01,
  Zn: 0.05,
};

const unknown = 'unknown metal';
type Part = ElementSymbol | typeof unknown;

/** What a gram of stock leaves in the melt, g by part, all in all `total`. */
interface Yield {
  readonly metal: StockMetal;
  readonly parts: ReadonlyMap<Part, number>;
  readonly total: number;
}

interface Limit {
  readonly part: Part;
  readonly side: 'over' | 'under';
  /** Mass fraction. */
  readonly bound: number;
}

/**
 * Grams of each stock metal so that the melt weighs `melt` after the losses, every element lies within its limits,
 * and the cost is least. Where that cannot be, a second programme lets every limit give and finds the mix that
 * strays by the fewest points; a third finds the least pure metal that would put it right.
 * @throws FoundryInputError for an empty stock, a composition over 100 %, prices and losses out of range.
 */
export function planAlloying(input: AlloyingInput): AlloyingPlan {
  check(input);
  const yields = input.stock.map((metal) => yieldOf(metal));
  const limits = limitsOf(input);
  const exact = solveMix(input, yields, limits, 'cost');
  if (exact !== null) return { ok: true, mix: exact.mix };

  const most = yields.reduce((sum, y) => sum + y.total * (y.metal.available ?? Number.POSITIVE_INFINITY), 0);
  // A hair under all there is, lest rounding make the equality impossible.
  const melt = Math.min(input.melt, most * (1 - 1e-9));
  const nearest = solveMix({ ...input, melt }, yields, limits, 'strays');
  if (nearest === null) throw new FoundryInputError('melt', input.melt, 'no metal in stock');
  return {
    ok: false,
    short: Math.max(0, input.melt - most),
    nearest: nearest.mix,
    out: limits.flatMap((limit) => strayOf(limit, nearest.mix)),
    help: helpFor(input, yields, limits),
  };
}

function check({ stock, target, melt, eachOther = defaultOther }: AlloyingInput): void {
  checkPositive('melt', melt, 'g');
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

const defaultOther = 0.3;

function yieldOf(metal: StockMetal): Yield {
  const shares = Object.entries(metal.composition) as [ElementSymbol, number][];
  const parts = new Map<Part, number>(
    shares.map(([e, share]) => [e, (share / 100) * (1 - (metal.meltLoss?.[e] ?? usualElementLoss[e]))]),
  );
  const rest = Math.max(0, 1 - sum(shares.map(([, share]) => share)) / 100);
  if (rest > 1e-9) parts.set(unknown, rest);
  return { metal, parts, total: sum([...parts.values()]) };
}

function limitsOf({ stock, target, eachOther = defaultOther }: AlloyingInput): readonly Limit[] {
  const named = Object.entries(target) as [ElementSymbol, Pick<ElementShare, 'min' | 'max'>][];
  const others = new Set(stock.flatMap((m) => Object.keys(m.composition) as ElementSymbol[]));
  for (const [element] of named) others.delete(element);
  return [
    ...named.flatMap(([part, { min, max }]) => [
      ...(min === undefined || min === 0 ? [] : [{ part, side: 'under' as const, bound: min / 100 }]),
      ...(max === undefined || max === 100 ? [] : [{ part, side: 'over' as const, bound: max / 100 }]),
    ]),
    ...[...others, unknown as Part].map((part) => ({
      part,
      side: 'over' as const,
      bound: eachOther / 100,
    })),
  ];
}

/** Further from a limit than this, in mass fraction, is not rounding. */
const precision = 1e-7;

/**
 * One programme. Its variables are grams of stock over the melt's, so that all numbers are near one.
 * `strays`: each limit may be missed at a price of one a unit of mass fraction, and metal costs nothing.
 */
function solveMix(
  { melt }: Pick<AlloyingInput, 'melt'>,
  yields: readonly Yield[],
  limits: readonly Limit[],
  goal: 'cost' | 'strays',
): { readonly mix: AlloyingMix; readonly objective: number } | null {
  const name = (l: Limit): string => `${l.side} ${l.part}`;
  const stock = yields.map(({ metal, parts, total }, i) => [
    `stock ${i}`,
    {
      melt: total,
      objective: goal === 'cost' ? metal.pricePerKg : 0,
      [`available ${i}`]: 1,
      ...Object.fromEntries(limits.map((l) => [name(l), parts.get(l.part) ?? 0])),
    },
  ]);
  const strays =
    goal === 'cost'
      ? []
      : limits.map((l) => [`stray ${name(l)}`, { objective: 1, [name(l)]: l.side === 'over' ? -1 : 1 }]);
  const model: Model = {
    direction: 'minimize',
    objective: 'objective',
    constraints: {
      melt: { equal: 1 },
      ...Object.fromEntries(
        yields.flatMap(({ metal: { available } }, i) =>
          available === undefined ? [] : [[`available ${i}`, { max: available / melt }]],
        ),
      ),
      ...Object.fromEntries(
        limits.map((l) => [name(l), l.side === 'over' ? { max: l.bound } : { min: l.bound }]),
      ),
    },
    variables: Object.fromEntries([...stock, ...strays]),
  };
  const solution = solve(model, { checkCycles: true });
  if (solution.status !== 'optimal') return null;
  const found = new Map(solution.variables);
  // The solver rounds to 1e-8, which must not overdraw the shelf.
  const grams = yields.map(({ metal: { available = Number.POSITIVE_INFINITY } }, i) =>
    Math.min(available, (found.get(`stock ${i}`) ?? 0) * melt),
  );
  return { mix: mixOf(yields, grams), objective: solution.result };
}

function mixOf(yields: readonly Yield[], grams: readonly number[]): AlloyingMix {
  const parts = new Map<Part, number>();
  yields.forEach((y, i) => {
    for (const [part, share] of y.parts) parts.set(part, (parts.get(part) ?? 0) + share * grams[i]!);
  });
  const melt = sum([...parts.values()]);
  const percent = (g: number): number => (100 * g) / melt;
  const items = yields.flatMap(({ metal }, i) =>
    grams[i]! > 0 ? [{ name: metal.name, mass: grams[i]!, cost: (grams[i]! / 1000) * metal.pricePerKg }] : [],
  );
  return {
    items,
    charge: sum(items.map((i) => i.mass)),
    cost: sum(items.map((i) => i.cost)),
    composition: Object.fromEntries(
      [...parts].flatMap(([part, g]) => (part === unknown || g === 0 ? [] : [[part, percent(g)]])),
    ),
    unknown: percent(parts.get(unknown) ?? 0),
  };
}

function strayOf({ part, side, bound }: Limit, mix: AlloyingMix): readonly ElementOut[] {
  const got = part === unknown ? mix.unknown : (mix.composition[part] ?? 0);
  const by = side === 'over' ? got - 100 * bound : 100 * bound - got;
  return by > 100 * precision ? [{ element: part, got, limit: 100 * bound, side, by }] : [];
}

/** Pure metals of the target, as much as wanted, each gram counted against; the stock costs nothing. */
function helpFor(
  input: AlloyingInput,
  yields: readonly Yield[],
  limits: readonly Limit[],
): { readonly element: ElementSymbol; readonly mass: number }[] {
  const elements = Object.keys(input.target) as ElementSymbol[];
  const free = yields.map((y) => ({ ...y, metal: { ...y.metal, pricePerKg: 0 } }));
  const pure = elements.map((e) => yieldOf({ name: `pure ${e}`, composition: { [e]: 100 }, pricePerKg: 1 }));
  const found = solveMix(input, [...free, ...pure], limits, 'cost');
  if (found === null) return [];
  return elements.flatMap((element) => {
    const mass = found.mix.items.find((i) => i.name === `pure ${element}`)?.mass ?? 0;
    return mass > precision * input.melt ? [{ element, mass }] : [];
  });
}

const sum = (values: readonly number[]): number => values.reduce((a, b) => a + b, 0);
