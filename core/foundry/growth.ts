/** Growth: how much larger the pattern is than the rough casting at 20 °C. */
import type { Alloy, Spread } from './alloys/index.js';
import { composeGrowth } from './growth-causes.js';
import { checkRange, FoundryInputError } from './input.js';
import type { Investment } from './investment.js';
import type { Plastic } from './material.js';
import type { Basis, GrowthPlan, GrowthWay } from './plans.js';

/** More than any alloy asks for: catches `2.1` given where `1.021` was meant. */
const largestGrowth = 1.1;

/** How to come to the growth: a number set in the job, or a way. */
export type GrowthChoice = number | GrowthWay['way'];

export interface GrowthSettings {
  readonly investment: Investment;
  readonly plastic: Plastic;
  /** °C of the mould at the pour. */
  readonly flaskTemperature: number;
  readonly printShrinkage?: number;
  /** What the shop measured, where it did. */
  readonly logged?: LoggedGrowth;
}

/** A growth measured on castings of the alloy in the mould, with its confidence interval. */
export interface LoggedGrowth {
  readonly value: number;
  /** Null where one reading gives none. */
  readonly interval: { readonly low: number; readonly high: number } | null;
  readonly basis: Basis;
}

/**
 * The handbook's g = 1 + a, with the alloy's usual contraction allowance a (pattern = casting × (1 + a), the shrink
 * rule's own definition); or composed from its causes; or as the shop measured it; or the value set in the job.
 * Without a choice the handbook's: its allowance was found on castings, while the causes' spread is wide.
 * @param choice g from 1 to 1.1, or a way; `log` needs `settings.logged`
 * @throws FoundryInputError when a value is out of range.
 */
export function planGrowth(
  alloy: Alloy,
  settings: GrowthSettings,
  choice: GrowthChoice = 'handbook',
): GrowthPlan {
  const { low, high } = alloy.contraction;
  const { growth, causes } = composeGrowth({ alloy, ...settings });
  const ways: readonly GrowthWay[] = [
    { way: 'handbook', value: handbookGrowth(alloy), range: [1 + low, 1 + high] },
    { way: 'causes', value: growth.usual, range: [growth.low, growth.high] },
    ...(settings.logged ? [loggedWay(settings.logged)] : []),
  ];
  if (choice === 'log') {
    if (!settings.logged) throw new FoundryInputError('growth', 'log', 'the pour log has none');
    const { value, basis } = settings.logged;
    if (!(value >= 1 && value <= largestGrowth))
      throw new FoundryInputError(
        'growth by the pour log',
        value.toFixed(4),
        `look its readings over, or set a growth from 1 to ${largestGrowth}`,
      );
    return { value, basis, way: 'log', ways, causes };
  }
  if (typeof choice === 'number') {
    checkRange('growth', choice, 1, largestGrowth, '(pattern size / casting size; 1.021 for 2.1 %)');
    return {
      value: choice,
      basis: { rule: 'g = pattern size / casting size', source: 'set in the job' },
      way: 'set',
      ways,
      causes,
    };
  }
  return {
    value: choice === 'causes' ? growth.usual : handbookGrowth(alloy),
    basis: choice === 'causes' ? causesBasis(growth) : handbookBasis(alloy),
    way: choice,
    ways,
    causes,
  };
}

const loggedWay = ({ value, interval }: LoggedGrowth): GrowthWay => ({
  way: 'log',
  value,
  range: interval === null ? [value, value] : [interval.low, interval.high],
});

/** g = 1 + a by the alloy's usual allowance. */
export const handbookGrowth = (alloy: Alloy): number => 1 + alloy.contraction.usual;

const handbookBasis = ({ contraction: { low, usual, high }, sources }: Alloy): Basis => ({
  rule: `g = 1 + a, a = ${percent(usual)} (sources run from ${percent(low)} to ${percent(high)})`,
  source: sources.contraction,
});

const causesBasis = ({ low, high }: Spread): Basis => ({
  rule: `g = (1 + metal) / ((1 + setting) (1 + mould) (1 − print)); from ${low.toFixed(4)} to ${high.toFixed(4)} as the causes may combine`,
  source: 'Each cause has its own',
});

/** The growth that a measured pair teaches: pattern size / rough casting size, same unit, both > 0. */
export function measureGrowth(patternSize: number, castingSize: number): number {
  checkRange('patternSize', patternSize, Number.MIN_VALUE, Number.POSITIVE_INFINITY);
  checkRange('castingSize', castingSize, Number.MIN_VALUE, Number.POSITIVE_INFINITY);
  return patternSize / castingSize;
}

const percent = (x: number): string => `${(100 * x).toFixed(2)} %`;
