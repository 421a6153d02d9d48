import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { alloys, findAlloy } from '../../../../core/foundry/alloys/index.js';
import { heatToMelt, planCharge } from '../../../../core/foundry/charge/charge.js';

const seed = 20260;
const fraction = fc.double({ min: 0, max: 0.5, noNaN: true });

describe('planCharge', () => {
  it(`balances: what does not burn off fills moulds and reserve (seed ${seed})`, () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...alloys),
        fc.double({ min: 0.01, max: 1e5, noNaN: true }),
        fraction,
        fraction,
        fc.double({ min: 0, max: 300, noNaN: true }),
        (alloy, inMoulds, meltLoss, reserveFraction, superheat) => {
          const pourTemperature = alloy.liquidus + superheat;
          const plan = planCharge({ alloy, inMoulds, meltLoss, reserveFraction, pourTemperature });
          expect(plan.charge * (1 - meltLoss)).toBeCloseTo(plan.inMoulds + plan.reserve, 6);
          expect(plan.reserve).toBeCloseTo(inMoulds * reserveFraction, 9);
          expect(plan.charge).toBeGreaterThanOrEqual(inMoulds);
          expect(plan.energy / plan.charge).toBeCloseTo(heatToMelt(alloy, pourTemperature), 6);
          expect(plan.energy / plan.charge).toBeGreaterThan(alloy.latentHeat);
        },
      ),
      { seed, numRuns: 300 },
    );
  });

  it('refuses what cannot be melted', () => {
    const good = { alloy: findAlloy('tin-bronze')!, inMoulds: 100, pourTemperature: 1150 };
    expect(() => planCharge({ ...good, inMoulds: -1 })).toThrow(/inMoulds is -1/);
    expect(() => planCharge({ ...good, meltLoss: 1 })).toThrow(/meltLoss is 1/);
    expect(() => planCharge({ ...good, pourTemperature: 990 })).toThrow(/pourTemperature is 990.*from 999/);
  });
});
