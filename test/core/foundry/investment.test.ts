import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { alloys, findAlloy } from '../../../core/foundry/alloys/index.js';
import { blockInvestments } from '../../../core/foundry/block-investments.js';
import {
  checkInvestment,
  findInvestment,
  mixFor,
  planInvestment,
  weighSlurry,
} from '../../../core/foundry/investment.js';

const seed = 20260;
const gypsum = findInvestment('gypsum-bonded')!;
const volume = fc.double({ min: 0.01, max: 1e7, noNaN: true });

describe('checkInvestment', () => {
  it('refuses gypsum for iron, warns for aluminium bronze and copper, suits the rest', () => {
    const verdict = (name: string) => checkInvestment(gypsum, findAlloy(name)!).map((f) => f.severity);
    expect(verdict('grey-iron')).toEqual(['stop']);
    expect(verdict('aluminium-bronze')).toEqual(['warn']);
    expect(verdict('copper')).toEqual(['warn']);
    const rest = alloys.filter((a) => !['grey-iron', 'aluminium-bronze', 'copper'].includes(a.name));
    for (const a of rest) expect(verdict(a.name), a.name).toEqual([]);
  });

  it('suits phosphate for all of them', () => {
    const phosphate = findInvestment('phosphate-bonded')!;
    for (const a of alloys) expect(checkInvestment(phosphate, a), a.name).toEqual([]);
  });
});

describe('mixFor', () => {
  it(`fills the volume with its waste; more volume, more powder (seed ${seed})`, () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...blockInvestments),
        volume,
        volume,
        fc.double({ min: 0, max: 1, noNaN: true }),
        (i, a, b, waste) => {
          const small = mixFor(Math.min(a, b), i, i.waterRatio, waste);
          const large = mixFor(Math.max(a, b), i, i.waterRatio, waste);
          expect(large.powder).toBeGreaterThanOrEqual(small.powder);
          expect(small.water / small.powder).toBeCloseTo(i.waterRatio, 9);
          // The volumes of powder and water add up to the slurry's.
          const filled = small.powder / i.powderDensity + small.water / 1e-3;
          expect(filled / (Math.min(a, b) * (1 + waste))).toBeCloseTo(1, 9);
        },
      ),
      { seed, numRuns: 300 },
    );
  });

  it('refuses what cannot be mixed', () => {
    expect(() => mixFor(-1, gypsum)).toThrow(/volume is -1/);
    expect(() => mixFor(1, gypsum, 0.9)).toThrow(/waterRatio is 0.9; it must be a number from 0.34 to 0.55/);
    expect(() => mixFor(1, gypsum, 0.4, -0.1)).toThrow(/wasteFraction/);
  });
});

describe('planInvestment', () => {
  it('sums its flasks', () => {
    const plan = planInvestment({
      investment: gypsum,
      flasks: [
        { powder: 400, water: 160 },
        { powder: 1000, water: 400, quantity: 3 },
      ],
    });
    expect(plan).toMatchObject({ powder: 3400, water: 1360, waterRatio: 0.4 });
    expect(plan.slurryDensity).toBeCloseTo(1.75e-3, 12);
  });

  it('weighs out in whole steps: powder up, water by the ratio of it', () => {
    // 400.2 g at 5 g a step is 405 g; 0.4 of that is 162 g, nearest 160; three of 1000 g need no rounding.
    const plan = planInvestment({
      investment: gypsum,
      scaleStep: 5,
      flasks: [
        { powder: 400.2, water: 160.08 },
        { powder: 1000, water: 400, quantity: 3 },
      ],
    });
    expect(plan.weigh).toEqual({ step: 5, powder: 3405, water: 1360 });
    expect(plan.powder).toBeCloseTo(3400.2, 9);
    expect(weighSlurry(400.2, 0.4, 0.1)).toEqual({ step: 0.1, powder: 400.2, water: 160.1 });
  });

  it(`holds the ratio within half a step of water and never mixes less (seed ${seed})`, () =>
    fc.assert(
      fc.property(
        fc.double({ min: 1, max: 20_000, noNaN: true }),
        fc.double({ min: 0.34, max: 0.55, noNaN: true }),
        fc.constantFrom(0.01, 0.1, 0.5, 1, 2, 5, 28.349523),
        (powder, ratio, step) => {
          const w = weighSlurry(powder, ratio, step);
          expect(Math.abs(w.water - ratio * w.powder)).toBeLessThanOrEqual(step / 2 + 1e-6);
          expect(w.powder).toBeGreaterThanOrEqual(powder - 1e-6);
          expect(w.powder).toBeLessThan(powder + step);
          for (const g of [w.powder, w.water])
            expect(Math.abs(g / step - Math.round(g / step))).toBeLessThan(1e-6);
        },
      ),
      { seed, numRuns: 300 },
    ));

  it('refuses negative masses', () =>
    expect(() => planInvestment({ investment: gypsum, flasks: [{ powder: -1, water: 0 }] })).toThrow(
      /powder is -1/,
    ));
});
