import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { blockInvestments } from '../../../core/foundry/block-investments.js';
import {
  checkBurnout,
  coreLag,
  crosses,
  inversionRate,
  inversions,
  planBurnout,
} from '../../../core/foundry/burnout.js';
import { findInvestment } from '../../../core/foundry/investment.js';
import { findPlastic, plastics } from '../../../core/foundry/material.js';
import { hasStop } from '../../../core/part/finding.js';

const seed = 20260;
const run = { seed, numRuns: 300 };
const gypsum = findInvestment('gypsum-bonded')!;
const good = {
  largestFlaskDiameter: 66,
  plastic: findPlastic('PLA')!,
  castingTemperature: 593,
  investment: gypsum,
};
const diameter = fc.double({ min: 20, max: 300, noNaN: true });
const input = fc.record({
  largestFlaskDiameter: diameter,
  plastic: fc.constantFrom(...plastics),
  castingTemperature: fc.double({ min: 20, max: 1100, noNaN: true }),
  investment: fc.constantFrom(...blockInvestments),
  kiln: fc.record({ rate: fc.double({ min: 5, max: 2000, noNaN: true }) }),
});

describe('planBurnout', () => {
  it(`runs on without a jump, slow through the inversions, within kiln and ceiling (seed ${seed})`, () => {
    fc.assert(
      fc.property(input, (i) => {
        const plan = planBurnout(i);
        expect(plan.segments.length).toBeLessThanOrEqual(8);
        let at = 20;
        for (const s of plan.segments) {
          expect(s.from).toBe(at);
          at = s.to;
          expect(s.ramp).toBeGreaterThanOrEqual(0);
          expect(s.soak).toBeGreaterThanOrEqual(0);
          // Whole quarter hours.
          expect(s.soak % 900).toBe(0);
          expect((s.rate * s.ramp) / 3600).toBeCloseTo(s.to - s.from, 6);
          expect(Math.abs(s.rate)).toBeLessThanOrEqual(i.kiln.rate);
          for (const band of Object.values(inversions)) {
            if (crosses(s.from, s.to, band))
              expect(Math.abs(s.rate)).toBeLessThanOrEqual(
                inversionRate(i.largestFlaskDiameter, i.investment),
              );
          }
        }
        expect(at).toBe(i.castingTemperature);
        const parts = plan.segments.map((s) => s.ramp + s.soak);
        expect(plan.total).toBeCloseTo(
          parts.reduce((t, p) => t + p, 0),
          6,
        );
        expect(plan.peak).toBe(Math.max(...plan.segments.map((s) => s.to)));
        expect(hasStop(plan.findings)).toBe(plan.peak > i.investment.maxBurnout);
      }),
      run,
    );
  });

  it(`a larger flask never takes less time (seed ${seed})`, () => {
    fc.assert(
      fc.property(input, diameter, (i, other) => {
        const total = (d: number) => planBurnout({ ...i, largestFlaskDiameter: d }).total;
        const own = i.largestFlaskDiameter;
        expect(total(Math.max(own, other))).toBeGreaterThanOrEqual(total(Math.min(own, other)) - 1e-6);
      }),
      run,
    );
  });

  it('keeps the core within 40 °C of the skin through the inversions', () => {
    for (const d of [50, 75, 100, 150, 200, 300])
      expect(coreLag(inversionRate(d, gypsum), d, gypsum)).toBeLessThanOrEqual(40);
  });

  it('stops over the ceiling, warns of a mould gone cold, and is otherwise content', () => {
    const plan = (castingTemperature: number) => planBurnout({ ...good, castingTemperature });
    expect(plan(800).findings[0]).toMatchObject({ severity: 'stop', code: 'burnout-too-hot' });
    expect(plan(120).findings.map((f) => f.code)).toContain('mould-cooled-through-cristobalite');
    expect(plan(593).findings.every((f) => f.severity === 'note')).toBe(true);
  });

  it('refuses sizes that cannot be', () => {
    expect(() => planBurnout({ ...good, largestFlaskDiameter: -66 })).toThrow(/largestFlaskDiameter is -66/);
    expect(() => planBurnout({ ...good, castingTemperature: 2000 })).toThrow(/castingTemperature is 2000/);
    expect(() => planBurnout({ ...good, kiln: { rate: 0 } })).toThrow(/kilnRate is 0/);
    expect(() => planBurnout({ ...good, startTemperature: 200 })).toThrow(/startTemperature is 200/);
  });
});

describe('checkBurnout', () => {
  it('warns of a mould never dried', () =>
    expect(
      checkBurnout([{ from: 20, to: 700, rate: 100, soak: 14400 }], 66, gypsum).map((f) => f.code),
    ).toEqual(['burnout-not-dried']));

  it('knows which ramps pass a change', () => {
    expect(crosses(149, 200, inversions.cristobalite)).toBe(false);
    expect(crosses(149, 201, inversions.cristobalite)).toBe(true);
    expect(crosses(730, 593, inversions.quartz)).toBe(true);
    expect(crosses(730, 600, inversions.quartz)).toBe(false);
  });
});
