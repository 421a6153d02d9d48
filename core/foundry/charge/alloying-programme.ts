/** The linear programme of alloying: what stock yields, what the limits ask, and the mix that is best by one measure. */
import { type Model, solve } from 'yalps';
import type { ElementShare, ElementSymbol } from '../alloys/index.js';

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

export interface AlloyingLimits {
  readonly stock: readonly StockMetal[];
  /** Limits in mass %; an element without any (a balance) is free, one not named at all is kept to `eachOther`. */
  readonly target: Readonly<Partial<Record<ElementSymbol, Pick<ElementShare, 'min' | 'max'>>>>;
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
export interface Yield {
  readonly metal: StockMetal;
  readonly parts: ReadonlyMap<Part, number>;
  readonly total: number;
}

export interface Limit {
  readonly part: Part;
  readonly side: 'over' | 'under';
  /** Mass fraction. */
  readonly bound: number;
}

/** Melt and charge by a fixed amount are one programme, but for what a gram of stock counts. */
export interface Asked {
  readonly amount: number;
  readonly counts: (y: Yield) => number;
}

export const defaultOther = 0.3;

export function yieldOf(metal: StockMetal): Yield {
  const shares = Object.entries(metal.composition) as [ElementSymbol, number][];
  const parts = new Map<Part, number>(
    shares.map(([e, share]) => [e, (share / 100) * (1 - (metal.meltLoss?.[e] ?? usualElementLoss[e]))]),
  );
  const rest = Math.max(0, 1 - sum(shares.map(([, share]) => share)) / 100);
  if (rest > 1e-9) parts.set(unknown, rest);
  return { metal, parts, total: sum([...parts.values()]) };
}

export function limitsOf({ stock, target, eachOther = defaultOther }: AlloyingLimits): readonly Limit[] {
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
export const precision = 1e-7;

/**
 * One programme. Its variables are grams of stock over the grams asked, so that all numbers are near one; a limit is
 * counted as what the melt has of the element less what it may have.
 * `strays`: each limit may be missed at a price of one a unit of mass fraction, and metal costs nothing.
 */
export function solveMix(
  { amount, counts }: Asked,
  yields: readonly Yield[],
  limits: readonly Limit[],
  goal: 'cost' | 'strays',
): AlloyingMix | null {
  const name = (l: Limit): string => `${l.side} ${l.part}`;
  const stock = yields.map((y, i) => [
    `stock ${i}`,
    {
      amount: counts(y),
      objective: goal === 'cost' ? y.metal.pricePerKg : 0,
      [`available ${i}`]: 1,
      ...Object.fromEntries(limits.map((l) => [name(l), (y.parts.get(l.part) ?? 0) - l.bound * y.total])),
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
      amount: { equal: 1 },
      ...Object.fromEntries(
        yields.flatMap(({ metal: { available } }, i) =>
          available === undefined ? [] : [[`available ${i}`, { max: available / amount }]],
        ),
      ),
      ...Object.fromEntries(limits.map((l) => [name(l), l.side === 'over' ? { max: 0 } : { min: 0 }])),
    },
    variables: Object.fromEntries([...stock, ...strays]),
  };
  const solution = solve(model, { checkCycles: true });
  if (solution.status !== 'optimal') return null;
  const found = new Map(solution.variables);
  // The solver rounds to 1e-8, which must not overdraw the shelf.
  const grams = yields.map(({ metal: { available = Number.POSITIVE_INFINITY } }, i) =>
    Math.min(available, (found.get(`stock ${i}`) ?? 0) * amount),
  );
  return mixOf(yields, grams);
}

export function mixOf(yields: readonly Yield[], grams: readonly number[]): AlloyingMix {
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

export function strayOf({ part, side, bound }: Limit, mix: AlloyingMix): readonly ElementOut[] {
  const got = part === unknown ? mix.unknown : (mix.composition[part] ?? 0);
  const by = side === 'over' ? got - 100 * bound : 100 * bound - got;
  return by > 100 * precision ? [{ element: part, got, limit: 100 * bound, side, by }] : [];
}

export const sum = (values: readonly number[]): number => values.reduce((a, b) => a + b, 0);
