/** What the job costs, from the prices it gives. */
import { checkRange } from './input.js';
import type { CostLine, CostPlan } from './plans.js';

export interface Prices {
  /** The word printed after amounts. */
  readonly currency: string;
  /** Per kg. */
  readonly plastic?: number;
  readonly investment?: number;
  /** Of ceramic shells. */
  readonly slurry?: number;
  readonly stucco?: number;
  /** Per kg, by alloy name. */
  readonly alloys?: Readonly<Record<string, number>>;
  /** Per kWh. */
  readonly energy?: number;
  /** What is used up at each mould beside these: wax, abrasive, gloves. */
  readonly consumables?: number;
}

/** g: powder of flasks, slurry and stucco of shells; left out where there is none. */
interface MouldMass {
  readonly powder?: number;
  readonly slurry?: number;
  readonly stucco?: number;
}

/** What one pattern of the job takes, for one piece. */
export interface CostShare extends MouldMass {
  readonly name: string;
  readonly quantity: number;
  /** How much of a mould one of them takes; all of it where left out. */
  readonly mouldShare?: number;
  readonly alloy: string;
  /** g */
  readonly plastic: number;
  readonly metal: number;
}

export interface CostInput extends MouldMass {
  /** Null or absent: no cost is worked out. */
  readonly prices?: Prices | null;
  /** g */
  readonly plastic: number;
  readonly charges: readonly {
    readonly alloy: string;
    readonly title: string;
    readonly charge: number;
    readonly energy: number;
    /** J that the furnace draws for its heats, where they are planned; else the energy over its efficiency. */
    readonly drawn?: number;
    /** The shop's metals it is mixed of, at their own prices; left out, the alloy has its price. */
    readonly metals?: readonly {
      readonly name: string;
      readonly mass: number;
      readonly pricePerKg: number;
    }[];
  }[];
  /** Share of the furnace's energy that reaches the metal, 0.01 to 1. Default 0.5: electric resistance, 40–60 %
   * (from memory); small gas furnaces 0.05–0.15. */
  readonly furnaceEfficiency?: number;
  /** J the kiln takes; left out where it is not known. */
  readonly kilnEnergy?: number;
  /** Every part, to share the cost among. */
  readonly parts: readonly CostShare[];
}

/**
 * A line for each thing that has a price, and what of it falls on each part; `null` when the job gives none. Metal is
 * counted by the whole charge, though sprues and reserve come back to the next melt. Plastic, powder and metal are
 * shared by mass, melting by the metal, kiln and consumables by the mould.
 * @throws FoundryInputError for a negative price or quantity.
 */
export function planCost(input: CostInput): CostPlan | null {
  const { prices, parts } = input;
  if (prices === undefined || prices === null) return null;
  const efficiency = checkRange('furnaceEfficiency', input.furnaceEfficiency ?? 0.5, 0.01, 1);
  const melting = ({ energy, drawn = energy / efficiency }: CostInput['charges'][number]): number =>
    drawn / joulesPerKwh;
  const over = (weight: (part: CostShare) => number): number =>
    parts.reduce((sum, p) => sum + weight(p) * p.quantity, 0);
  const perMould = ({ mouldShare = 1 }: CostShare): number => mouldShare;
  const share = (
    item: string,
    quantity: number,
    unit: string,
    price: number | undefined,
    weight: (part: CostShare) => number,
  ): readonly SharedLine[] => {
    const priced = line(item, quantity, unit, price);
    if (priced === null) return [];
    const whole = over(weight);
    return [{ line: priced, each: (p) => (whole > 0 ? (priced.amount * weight(p)) / whole : 0) }];
  };
  const shared = [
    ...share('plastic', input.plastic / 1000, 'kg', prices.plastic, (p) => p.plastic),
    ...(
      [
        ['investment', 'powder', prices.investment],
        ['slurry', 'slurry', prices.slurry],
        ['stucco', 'stucco', prices.stucco],
      ] as const
    ).flatMap(([item, mass, price]) => {
      const all = input[mass];
      return all === undefined ? [] : share(item, all / 1000, 'kg', price, (p) => p[mass] ?? 0);
    }),
    ...input.charges.flatMap((c) => {
      const metal = (p: CostShare): number => (p.alloy === c.alloy ? p.metal : 0);
      return [
        ...(c.metals === undefined
          ? share(c.title, c.charge / 1000, 'kg', prices.alloys?.[c.alloy], metal)
          : c.metals.flatMap((m) =>
              share(`${m.name} for ${c.title}`, m.mass / 1000, 'kg', m.pricePerKg, metal),
            )),
        ...share(`melting ${c.title}`, melting(c), 'kWh', prices.energy, metal),
      ];
    }),
    ...(input.kilnEnergy === undefined
      ? []
      : share('kiln', input.kilnEnergy / joulesPerKwh, 'kWh', prices.energy, perMould)),
    ...share('consumables', over(perMould), 'moulds', prices.consumables, perMould),
  ];
  return {
    currency: prices.currency,
    lines: shared.map((s) => s.line),
    total: shared.reduce((sum, s) => sum + s.line.amount, 0),
    parts: parts.map((p) => {
      const each = shared.reduce((sum, s) => sum + s.each(p), 0);
      return { name: p.name, each, all: each * p.quantity };
    }),
  };
}

interface SharedLine {
  readonly line: CostLine;
  /** Of the line's amount, what falls on one piece of a part. */
  readonly each: (part: CostShare) => number;
}

const joulesPerKwh = 3.6e6;

function line(item: string, quantity: number, unit: string, price: number | undefined): CostLine | null {
  checkRange(`${item} quantity`, quantity, 0, Number.POSITIVE_INFINITY, unit);
  if (price === undefined) return null;
  checkRange(`${item} price`, price, 0, Number.POSITIVE_INFINITY, `per ${unit}`);
  return { item, quantity, unit, price, amount: quantity * price };
}
