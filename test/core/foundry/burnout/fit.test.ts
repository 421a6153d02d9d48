import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { crosses } from '../../../../core/foundry/burnout/limits.js';
import {
  type BurnoutFlask,
  burnoutClock,
  checkSharing,
  inversionRate,
  inversions,
  kilnLoads,
  kilnRateBetween,
  planBurnout,
  wallLoss,
} from '../../../../core/foundry/burnout.js';
import { findInvestment } from '../../../../core/foundry/investment.js';
import { findPlastic } from '../../../../core/foundry/material.js';

const gypsum = findInvestment('gypsum-bonded')!;
const good = {
  largestFlaskDiameter: 66,
  plastic: findPlastic('PLA')!,
  castingTemperature: 593,
  investment: gypsum,
};
const codes = (findings: readonly { code: string }[]) => findings.map((f) => f.code);

describe('A programme for the controller', () => {
  const seed = 777;
  it(`fits segments, rate and scale, and keeps every hold's core within 20 °C (seed ${seed})`, () => {
    const number = (min: number, max: number) => fc.double({ min, max, noNaN: true });
    fc.assert(
      fc.property(
        number(20, 300),
        number(20, 729),
        number(5, 1500),
        number(5, 1500),
        fc.integer({ min: 1, max: 12 }),
        fc.constantFrom('C' as const, 'F' as const),
        (largestFlaskDiameter, castingTemperature, cold, hot, segments, degrees) => {
          const plan = planBurnout({
            ...good,
            largestFlaskDiameter,
            castingTemperature: Math.max(20, castingTemperature),
            degrees,
            kiln: {
              segments,
              rate: [
                [20, cold],
                [730, hot],
              ],
            },
          });
          expect(plan.segments.length).toBeLessThanOrEqual(Math.max(4, segments));
          expect(codes(plan.findings).includes('controller-segments-few')).toBe(segments < 4);
          if (segments >= 8) expect(plan.segments).toHaveLength(8);
          expect(JSON.stringify(plan)).not.toMatch(/null/);
          const scale = (c: number) => (degrees === 'C' ? c : c * 1.8);
          const whole = (x: number) => expect(Math.abs(x - Math.round(x))).toBeLessThan(1e-6);
          for (const s of plan.segments) {
            whole(scale(s.to));
            whole(scale(s.rate));
            whole(s.soak / 60);
            if (s.soak > 0) expect(s.coreLag).toBeLessThan(20);
            expect(Math.abs(s.rate)).toBeLessThanOrEqual(Math.max(cold, hot) + 1e-9);
            for (const band of Object.values(inversions)) {
              // The band's own ends are whole degrees of either scale.
              if (crosses(s.from, s.to, band))
                expect(Math.abs(s.rate)).toBeLessThanOrEqual(
                  inversionRate(largestFlaskDiameter, gypsum) + 1e-9,
                );
            }
          }
        },
      ),
      { seed, numRuns: 60 },
    );
  });

  it('of 8, 6 and 4 segments keeps the same holds, nothing faster, and takes longer', () => {
    const of = (segments: number) => planBurnout({ ...good, kiln: { segments } });
    expect([8, 6, 4].map((n) => of(n).segments.length)).toEqual([8, 6, 4]);
    const holds = (n: number) => of(n).segments.flatMap((s) => (s.soak > 0 ? [[s.to, s.soak]] : []));
    expect(holds(6)).toEqual(holds(8));
    expect(holds(4)).toEqual(holds(8));
    expect(of(6).total).toBeGreaterThan(of(8).total);
    expect(of(4).total).toBeGreaterThan(of(6).total);
    expect(codes(of(3).findings)).toContain('controller-segments-few');
  });

  it('is set in whole degrees Fahrenheit: 300, 392, 518, 698, 1004, 1112, 1346 and the 1100 asked for', () => {
    const plan = planBurnout({ ...good, castingTemperature: ((1100 - 32) * 5) / 9, degrees: 'F' });
    expect(plan.segments.map((s) => Math.round((s.to * 1.8 + 32) * 1e6) / 1e6)).toEqual([
      300, 392, 518, 698, 1004, 1112, 1346, 1100,
    ]);
  });
});

describe('The kiln', () => {
  it('heats slower as it grows hotter: the slowest between two temperatures counts', () => {
    const rate = [
      [100, 300],
      [700, 60],
    ] as const;
    expect(kilnRateBetween(rate, 20, 100)).toBe(300);
    // Half way, half between.
    expect(kilnRateBetween(rate, 100, 400)).toBe(180);
    expect(kilnRateBetween(rate, 400, 900)).toBe(60);
    expect(kilnRateBetween(undefined, 20, 900)).toBe(Number.POSITIVE_INFINITY);
    expect(() => kilnRateBetween([[20, -1]], 20, 30)).toThrow(/kilnRate is -1/);
  });

  it('somewhat under the usual peak holds longer, far under it is refused', () => {
    const of = (topTemperature: number) => planBurnout({ ...good, kiln: { topTemperature } });
    const top = (t: number) => of(t).segments.find((s) => s.purpose === 'burn out the plastic')!;
    expect(top(1000)).toMatchObject({ to: 730, soak: 4 * 3600 });
    // Half as long again for 25 °C.
    expect(top(705)).toMatchObject({ to: 705, soak: 6 * 3600 });
    expect(codes(of(705).findings)).toContain('kiln-top-low');
    expect(of(600).findings.find((f) => f.code === 'kiln-too-cold')?.severity).toBe('stop');
  });

  const flask = (diameter: number, quantity = 1, height = 100): BurnoutFlask => ({
    name: 'can',
    diameter,
    height,
    quantity,
  });
  it('loads by rows, 25 mm apart: 300 × 300 mm takes four of 75 mm', () => {
    // 25 + 2 (75 + 25) = 225; a third would need 325.
    const kiln = { width: 300, depth: 300, height: 200 };
    for (const [n, loads] of [
      [1, 1],
      [4, 1],
      [5, 2],
      [12, 3],
    ] as const)
      expect(kilnLoads(kiln, [flask(75, n)]).loads).toBe(loads);
    expect(kilnLoads({}, [flask(75)])).toEqual({ loads: null, findings: [] });
    expect(codes(kilnLoads(kiln, [flask(75, 1, 190)]).findings)).toEqual(['flask-too-large-for-kiln']);
    expect(codes(kilnLoads(kiln, [flask(260)]).findings)).toEqual(['flask-too-large-for-kiln']);
  });

  it('flasks share a programme, or are told why not', () => {
    const mixed = [flask(50), { ...flask(127), castingTemperature: 300, investment: 'phosphate-bonded' }];
    expect(codes(checkSharing(mixed, gypsum, 593))).toEqual([
      'burnout-other-investment',
      'burnout-diameters-unlike',
      'burnout-casting-temperatures-far',
    ]);
    expect(checkSharing([flask(66), flask(76)], gypsum, 593)).toEqual([]);
  });

  it('energy: one can by hand, and a kiln too weak for its load is told of', () => {
    const of = (power: number, quantity: number) =>
      planBurnout({ ...good, kiln: { power, topTemperature: 1100 }, flasks: [flask(66, quantity)] });
    const { energy, segments } = of(3000, 1);
    // 342 cm³ at 1.1 g/cm³ and 0.84 J/(g·K) from 20 to 730 °C: 224 kJ.
    expect(energy!.moulds / 1e3).toBeCloseTo(224.5, 0);
    // 0.435 g/cm³ free at 2.592 kJ/g and 0.0869 bound at 3.07: 1.394 kJ/cm³.
    expect(energy!.water / 1e3).toBeCloseTo(342.1 * 1.394, 0);
    // At its top it takes half its power.
    expect(wallLoss({ topTemperature: 1100 }, 3000, 1100)).toBe(1500);
    const hours = segments.reduce((t, s) => t + s.ramp + s.soak, 0) / 3600;
    expect(energy!.walls / 3.6e6).toBeLessThan(1.5 * (710 / 1080) * hours);
    expect(energy!.total).toBeCloseTo(energy!.moulds + energy!.water + energy!.walls, 3);
    expect(codes(of(3000, 4).findings)).not.toContain('kiln-power-short');
    expect(codes(of(3000, 100).findings)).toContain('kiln-power-short');
    expect(planBurnout(good).energy ?? null).toBeNull();
  });
});

describe('Clock times', () => {
  const segments = [
    { ramp: 3600, soak: 3 * 3600 },
    { ramp: 90, soak: 20 * 3600 },
  ];
  it('forward from a start and backward from the pour, over midnight and month', () => {
    expect(burnoutClock(segments, { startAt: '2026-02-28T22:15' })).toEqual({
      start: '2026-02-28T22:15',
      // 1 min 30 s is rounded up.
      ends: ['2026-03-01T02:15', '2026-03-01T22:17'],
    });
    expect(burnoutClock(segments, { pourAt: '2026-03-01 22:17' })).toEqual({
      start: '2026-02-28T22:15',
      ends: ['2026-03-01T02:15', '2026-03-01T22:17'],
    });
  });

  it('days have 24 hours: nothing changes in the night the clocks go forward', () => {
    // 29 March 2026 in most of Europe.
    const { ends } = burnoutClock([{ ramp: 0, soak: 86_400 }], { startAt: '2026-03-28T18:00' });
    expect(ends).toEqual(['2026-03-29T18:00']);
    expect(burnoutClock([{ ramp: 0, soak: 60 }], { startAt: 0 })).toEqual({
      start: '1970-01-01T00:00',
      ends: ['1970-01-01T00:01'],
    });
  });

  it.each(['soon', '2026-02-30T10:00', '2026-05-09T24:00', '2026-05-09T18:30Z', '2026-05-09', Number.NaN])(
    'refuses %s',
    (pourAt) => expect(() => burnoutClock(segments, { pourAt })).toThrow(/pourAt is .*without a zone/),
  );
});
