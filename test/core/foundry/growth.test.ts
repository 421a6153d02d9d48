import { describe, expect, it } from 'vitest';
import { findAlloy } from '../../../core/foundry/alloys/index.js';
import { measureGrowth, planGrowth } from '../../../core/foundry/growth.js';

const bronze = findAlloy('tin-bronze')!;

describe('planGrowth', () => {
  it('is 1 + the usual allowance, with its source; an override stands as set', () => {
    expect(planGrowth(bronze)).toMatchObject({
      value: 1.015625,
      basis: { source: bronze.sources.contraction },
    });
    expect(planGrowth(bronze, 1)).toMatchObject({ value: 1, basis: { source: 'set in the job' } });
  });

  it.each([0.999, -1, 0, 2.1, 1.11, Number.NaN, Number.POSITIVE_INFINITY])('refuses %f', (g) =>
    expect(() => planGrowth(bronze, g)).toThrow(/growth is .*it must be a number from 1 to 1.1/),
  );

  it('refuses to learn from sizes that are none', () => {
    expect(() => measureGrowth(0, 10)).toThrow(/patternSize is 0/);
    expect(() => measureGrowth(10, -1)).toThrow(/castingSize is -1/);
  });
});
