import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { alloys, findAlloy } from '../../../core/foundry/alloys/index.js';
import { planFlask } from '../../../core/foundry/flask.js';
import { flasks, flaskVolume } from '../../../core/foundry/flasks.js';
import { findInvestment } from '../../../core/foundry/investment.js';
import { hasStop } from '../../../core/part/finding.js';

const seed = 20260;
const run = { seed, numRuns: 300 };
const good = {
  gatedSize: [38, 38, 60],
  gatedVolume: 20e3,
  patternHeight: 30,
  alloy: findAlloy('tin-bronze')!,
  investment: findInvestment('gypsum-bonded')!,
} as const;
const own = (insideDiameter: number, insideHeight: number) =>
  ({ name: 'own', title: 'Own can', kind: 'can', insideDiameter, insideHeight, wall: 0.25 }) as const;

describe('planFlask', () => {
  it(`clears the pattern, or stops with the shortfall; no smaller flask would do (seed ${seed})`, () => {
    const size = fc.double({ min: 3, max: 260, noNaN: true });
    const fillShare = fc.double({ min: 0.05, max: 0.7, noNaN: true });
    fc.assert(
      fc.property(fc.constantFrom(...alloys), size, size, size, fillShare, (alloy, x, y, z, share) => {
        const gatedVolume = x * y * z * share;
        const plan = planFlask({
          ...good,
          alloy,
          gatedSize: [x, y, z],
          gatedVolume,
          patternHeight: z / 2,
        });
        const wall = alloy.density > 5e-3 && gatedVolume * alloy.density >= 500 ? 13 : 6.4;
        const fits = (f: { insideDiameter: number; insideHeight: number }) =>
          f.insideDiameter / 2 - Math.hypot(x, y) / 2 >= wall - 1e-9 && f.insideHeight - z >= 25 - 1e-9;
        expect(hasStop(plan.findings)).toBe(!fits(plan));
        expect(plan.powder).toBeGreaterThanOrEqual(0);
        if (hasStop(plan.findings)) {
          expect(flasks.some(fits)).toBe(false);
          expect(plan.findings[0]!.message).toMatch(/short by \d/);
        } else {
          const smaller = flasks.filter((f) => flaskVolume(f) < flaskVolume(plan) - 1e-6);
          expect(smaller.some(fits)).toBe(false);
          expect(plan.slurryVolume).toBeCloseTo(flaskVolume(plan) - gatedVolume, 3);
          expect(plan.slurryVolume).toBeGreaterThan(0);
        }
      }),
      run,
    );
  });

  it(`a larger flask takes more powder (seed ${seed})`, () => {
    const side = fc.double({ min: 90, max: 300, noNaN: true });
    const more = fc.double({ min: 0.01, max: 50, noNaN: true });
    const powder = (d: number, h: number) => planFlask({ ...good, flasks: [own(d, h)] }).powder;
    fc.assert(
      fc.property(side, side, more, (d, h, m) => {
        expect(powder(d + m, h)).toBeGreaterThan(powder(d, h));
        expect(powder(d, h + m)).toBeGreaterThan(powder(d, h));
      }),
      run,
    );
  });

  it('says by how much the largest is short', () => {
    const plan = planFlask({
      ...good,
      gatedSize: [80, 60, 100],
      patternHeight: 60,
      flasks: [own(100, 110)],
    });
    // Radius 50 + 6.4: ø112.8; height 100 + 25.
    expect(plan.findings[0]).toMatchObject({ severity: 'stop', code: 'flask-too-small' });
    expect(plan.findings[0]!.message).toContain('short by 12.8 mm in diameter and 15 mm in height');
    expect(plan.clearance.wall).toBeCloseTo(0, 9);
  });

  it('asks 13 mm round heavy bronze, 6.4 mm round the same volume of aluminium', () => {
    const heavy = { ...good, gatedVolume: 60e3, gatedRadius: 23, patternHeight: 40 };
    expect(planFlask(heavy).bases.wall!.rule).toContain('13 mm');
    expect(planFlask({ ...heavy, alloy: findAlloy('a356')! }).bases.wall!.rule).toContain('6.4 mm');
  });

  it('warns of a thin cover', () =>
    expect(planFlask({ ...good, patternHeight: 57 }).findings.map((f) => f.code)).toEqual(['cover-thin']));

  it('refuses sizes that cannot be', () => {
    expect(() => planFlask({ ...good, gatedVolume: -1 })).toThrow(/gatedVolume is -1/);
    expect(() => planFlask({ ...good, gatedSize: [10, Number.NaN, 10] })).toThrow(/gatedSize is NaN/);
    expect(() => planFlask({ ...good, patternHeight: 61 })).toThrow(/at most the gated height 60/);
    expect(() => planFlask({ ...good, flasks: [own(-1, 10)] })).toThrow(/own insideDiameter is -1/);
    expect(() => planFlask({ ...good, flasks: [] })).toThrow(/at least one flask/);
  });
});
