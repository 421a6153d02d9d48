/** What the job costs, from the prices it gives. */
import { checkRange } from './input.js';
import type { CostLine, CostPlan } from './plans.js';

export interface Prices {
  /** The word printed after amounts. */
  readonly currency: string;
  /** Per kg. */
  readonly plastic?: number;
  readonly investment?: number;
  /** Per kg, by alloy name. */
  readonly alloys?: Readonly<Record<string, number>>;
  /** Per kWh. */
  readonly energy?: number;
}

export interface CostInput {
  /** Null or absent: no cost is worked out. */
  readonly prices?: Prices | null;
  /** g */
  readonly plastic: number;
  /** g */
  readonly powder: number;
  readonly charges: readonly {
    readonly alloy: string;
    readonly title: string;
    readonly charge: number;
    readonly energy: number;
  }[];
  /** Share of the furnace's energy that reaches the metal, 0.01 to 1. Default 0.5: electric resistance, 40–60 %
   * (from memory); small gas furnaces 0.05–0.15. */
  readonly furnaceEfficiency?: number;
}

/**
 * A line for each thing that has a price; `null` when the job gives none. Metal is counted by the whole charge,
 * though sprues and reserve come back to the next melt. Kiln energy is not counted.
 * @throws FoundryInputError for a negative price or quantity.
 */
export function planCost(input: CostInput): CostPlan | null {
  const { prices } = input;
  if (prices === undefined || prices === null) return null;
  const efficiency = checkRange('furnaceEfficiency', input.furnaceEfficiency ?? 0.5, 0.01, 1);
  const melting = input.charges.reduce((sum, c) => sum + c.energy, 0) / efficiency / joulesPerKwh;
  const lines = [
    line('plastic', input.plastic / 1000, 'kg', prices.plastic),
    line('investment', input.powder / 1000, 'kg', prices.investment),
    ...input.charges.map((c) => line(c.title, c.charge / 1000, 'kg', prices.alloys?.[c.alloy])),
    line('melting energy', melting, 'kWh', prices.energy),
  ].filter((l) => l !== null);
  return { currency: prices.currency, lines, total: lines.reduce((sum, l) => sum + l.amount, 0) };
}

const joulesPerKwh = 3.6e6;

function line(item: string, quantity: number, unit: string, price: number | undefined): CostLine | null {
  checkRange(`${item} quantity`, quantity, 0, Number.POSITIVE_INFINITY, unit);
  if (price === undefined) return null;
  checkRange(`${item} price`, price, 0, Number.POSITIVE_INFINITY, `per ${unit}`);
  return { item, quantity, unit, price, amount: quantity * price };
}
