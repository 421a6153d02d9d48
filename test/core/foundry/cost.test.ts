import { describe, expect, it } from 'vitest';
import { planCost } from '../../../core/foundry/cost.js';

const input = {
  plastic: 200,
  powder: 5000,
  charges: [{ alloy: 'tin-bronze', title: 'Tin bronze', charge: 1500, energy: 1.8e6 }],
};

describe('planCost', () => {
  it('is null without prices', () => {
    expect(planCost(input)).toBeNull();
    expect(planCost({ ...input, prices: null })).toBeNull();
  });

  it('adds the priced lines: 0.2 kg × 20 + 5 kg × 3 + 1.5 kg × 16 + 1 kWh × 0.3', () => {
    const prices = {
      currency: 'EUR',
      plastic: 20,
      investment: 3,
      alloys: { 'tin-bronze': 16 },
      energy: 0.3,
    };
    const plan = planCost({ ...input, prices })!;
    expect(plan.lines.map((l) => l.amount)).toEqual([4, 15, 24, 0.3]);
    expect(plan.total).toBeCloseTo(43.3, 9);
  });

  it('leaves out what has no price and refuses a negative one', () => {
    expect(planCost({ ...input, prices: { currency: 'EUR', plastic: 20 } })!.lines).toHaveLength(1);
    expect(() => planCost({ ...input, prices: { currency: 'EUR', plastic: -1 } })).toThrow(
      /plastic price is -1/,
    );
  });
});
