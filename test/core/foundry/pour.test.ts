import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Alloy, alloys, findAlloy } from '../../../core/foundry/alloys/index.js';
import { findInvestment, type Investment, investments } from '../../../core/foundry/investment.js';
import { planPour } from '../../../core/foundry/pour.js';
import { hasStop } from '../../../core/part/finding.js';

const seed = 20260;
const bronze = findAlloy('tin-bronze')!;
const gypsum = findInvestment('gypsum-bonded')!;
const modulus = fc.double({ min: 0.01, max: 30, noNaN: true });
const at = (thinnestModulus: number, alloy: Alloy = bronze, investment: Investment = gypsum) =>
  planPour({ alloy, investment, parts: [{ name: 'part', thinnestModulus }] });

describe('planPour', () => {
  it(`the thinner the hotter, within the ranges (seed ${seed})`, () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...alloys),
        fc.constantFrom(...investments),
        modulus,
        modulus,
        (alloy, investment, m, n) => {
          const thin = at(Math.min(m, n), alloy, investment);
          const thick = at(Math.max(m, n), alloy, investment);
          expect(thin.metalTemperature).toBeGreaterThanOrEqual(thick.metalTemperature);
          expect(thin.flaskTemperature).toBeGreaterThanOrEqual(thick.flaskTemperature);
          for (const p of [thin, thick]) {
            expect(p.metalTemperature).toBeGreaterThanOrEqual(p.metalRange[0]);
            expect(p.metalTemperature).toBeLessThanOrEqual(p.metalRange[1]);
            expect(p.metalTemperature).toBeGreaterThan(alloy.liquidus);
            expect(p.flaskTemperature).toBeGreaterThanOrEqual(p.flaskRange[0]);
            expect(p.flaskTemperature).toBeLessThanOrEqual(p.flaskRange[1]);
            expect(p.flaskTemperature).toBeLessThan(alloy.solidus);
            if (!hasStop(p.findings)) expect(p.metalTemperature).toBeLessThanOrEqual(investment.maxMetal);
          }
        },
      ),
      { seed, numRuns: 300 },
    );
  });

  it('pours the thinnest first', () => {
    const parts = [
      { name: 'wheel', thinnestModulus: 3 },
      { name: 'pull', thinnestModulus: 1.2 },
      { name: 'pinion', thinnestModulus: 2 },
    ];
    expect(planPour({ alloy: bronze, investment: gypsum, parts }).order).toEqual(['pull', 'pinion', 'wheel']);
  });

  it('refuses iron in gypsum, and warns of a section too thin to fill', () => {
    expect(hasStop(at(3, findAlloy('grey-iron')!).findings)).toBe(true);
    expect(at(0.6).findings.map((f) => f.code)).toContain('section-thin');
    expect(at(1.5).findings).toEqual([]);
  });

  it('takes temperatures set in the job, with findings where they are wrong', () => {
    const set = (metalTemperature: number, flaskTemperature: number) =>
      planPour({
        alloy: bronze,
        investment: gypsum,
        parts: [{ name: 'part', thinnestModulus: 2 }],
        metalTemperature,
        flaskTemperature,
      });
    const codes = (metal: number, flask: number) => set(metal, flask).findings.map((f) => f.code);
    expect(set(1120, 593)).toMatchObject({ metalTemperature: 1120, flaskTemperature: 593, findings: [] });
    expect(codes(999, 593)).toEqual(['pour-below-liquidus']);
    expect(codes(1300, 700)).toEqual(['pour-outside-range', 'flask-outside-range']);
    expect(codes(1120, 860)).toEqual(['flask-above-solidus']);
  });

  it('refuses an empty pour and a modulus that cannot be', () => {
    expect(() => planPour({ alloy: bronze, investment: gypsum, parts: [] })).toThrow(/at least one part/);
    expect(() => at(0)).toThrow(/part thinnestModulus is 0/);
  });
});
