/** Growth: how much larger the pattern is than the rough casting at 20 °C. */
import type { Alloy } from './alloys/index.js';
import { checkRange } from './input.js';
import type { GrowthPlan } from './plans.js';

/** More than any alloy asks for: catches `2.1` given where `1.021` was meant. */
const largestGrowth = 1.1;

/**
 * g = 1 + a, with the alloy's usual contraction allowance a (pattern = casting × (1 + a), the shrink rule's own
 * definition), or the value set in the job.
 * @param override g from 1 to 1.1
 * @throws FoundryInputError when `override` is out of range.
 */
export function planGrowth(alloy: Alloy, override?: number): GrowthPlan {
  if (override !== undefined) {
    checkRange('growth', override, 1, largestGrowth, '(pattern size / casting size; 1.021 for 2.1 %)');
    return {
      value: override,
      basis: { rule: 'g = pattern size / casting size', source: 'set in the job' },
    };
  }
  const a = alloy.contraction.usual;
  return {
    value: 1 + a,
    basis: {
      rule: `g = 1 + a, a = ${percent(a)} (sources run from ${percent(alloy.contraction.low)} to ${percent(alloy.contraction.high)})`,
      source: alloy.sources.contraction,
    },
  };
}

/** The growth that a measured pair teaches: pattern size / rough casting size, same unit, both > 0. */
export function measureGrowth(patternSize: number, castingSize: number): number {
  checkRange('patternSize', patternSize, Number.MIN_VALUE, Number.POSITIVE_INFINITY);
  checkRange('castingSize', castingSize, Number.MIN_VALUE, Number.POSITIVE_INFINITY);
  return patternSize / castingSize;
}

const percent = (x: number): string => `${(100 * x).toFixed(2)} %`;
