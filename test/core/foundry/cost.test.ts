import { describe, expect, it } from 'vitest';
import { planCost } from '../../../core/foundry/cost.js';

const input = {
  plastic: 200,
  powder: 5000,
  charges: [{ alloy: 'tin-bronze', title: 'Tin bronze', charge: 1500, energy: 1.8e6 }],
  parts: [
    { name: 'wheel', quantity: 1, alloy: 'tin-bronze', plastic: 120, powder: 3000, metal: 900 },
    { name: 'pinion', quantity: 2, alloy: 'tin-bronze', plastic: 40, powder: 1000, metal: 150 },
  ],
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

  it('shares it all among the parts: by mass, kiln and consumables by the mould', () => {
    const prices = {
      currency: 'EUR',
      plastic: 20,
      alloys: { 'tin-bronze': 16 },
      energy: 0.3,
      consumables: 2,
    };
    const plan = planCost({ ...input, prices, kilnEnergy: 36e6 })!;
    // Kiln 10 kWh × 0.3, three moulds × 2; wheel 120 of 200 g plastic and 900 of 1200 g metal.
    expect(plan.lines.map((l) => l.amount)).toEqual([4, 24, 0.3, 3, 6]);
    const [wheel, pinion] = plan.parts as [(typeof plan.parts)[number], (typeof plan.parts)[number]];
    expect(wheel.each).toBeCloseTo(4 * 0.6 + 24.3 * 0.75 + 3, 9);
    expect(pinion.each).toBeCloseTo(4 * 0.2 + 24.3 * 0.125 + 3, 9);
    expect(pinion.all).toBeCloseTo(2 * pinion.each, 12);
    expect(wheel.all + pinion.all).toBeCloseTo(plan.total, 9);
  });

  it('leaves out what has no price and refuses a negative one', () => {
    expect(planCost({ ...input, prices: { currency: 'EUR', plastic: 20 } })!.lines).toHaveLength(1);
    expect(() => planCost({ ...input, prices: { currency: 'EUR', plastic: -1 } })).toThrow(
      /plastic price is -1/,
    );
  });
});
