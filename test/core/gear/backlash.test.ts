import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { castingTolerance } from '../../../core/foundry/iso-8062.js';
import {
  backlashSizes,
  circumferentialFrom,
  thinningFor,
  tightCentreDistance,
  withThinning,
} from '../../../core/gear/backlash.js';
import { castBacklash, leastNormalBacklash } from '../../../core/gear/cast-backlash.js';
import { baseHalfAngle } from '../../../core/gear/gear-geometry.js';
import { backlash, centreDistance } from '../../../core/gear/pair.js';
import { deg, gear } from './gear-cases.js';

const real = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const anyPair = fc
  .record({
    m: real(1, 8),
    z1: fc.integer({ min: 12, max: 40 }),
    z2: fc.integer({ min: 20, max: 90 }),
    x1: real(0, 0.5),
    x2: real(-0.2, 0.4),
    beta: real(0, 35),
    out: real(-0.05, 0.3),
    j: real(0.01, 0.15),
  })
  .map(({ m, z1, z2, x1, x2, beta, out, j }) => {
    const [a, b] = [gear(m, z1, x1, beta), gear(m, z2, x2, beta)];
    return { a, b, distance: centreDistance(a, b) + out * m, j: j * m };
  });

describe('backlash conversions, seed 20772', () => {
  it('thinning for a backlash gives that backlash, at any centre distance and split', () => {
    fc.assert(
      fc.property(anyPair, fc.constantFrom('equal', 'wheel' as const), ({ a, b, distance, j }, split) => {
        const [g, w] = withThinning(a, b, thinningFor(j, a, b, distance), split as 'equal' | 'wheel');
        expect(backlash(g, w, distance).circumferential).toBeCloseTo(j, 9);
        expect(backlash(w, g, distance).circumferential).toBeCloseTo(j, 9);
      }),
      { seed: 20_772, numRuns: 300 },
    );
  });
  it('each way of asking for the same play comes to the same', () => {
    fc.assert(
      fc.property(anyPair, ({ a, b, distance, j }) => {
        const [g, w] = withThinning(a, b, thinningFor(j, a, b, distance));
        const sizes = backlashSizes(g, w, distance);
        fc.pre(Number.isFinite(sizes.centreDistance));
        expect(circumferentialFrom('normal', sizes.normal, g, w, distance)).toBeCloseTo(j, 9);
        expect(circumferentialFrom('centre-distance', sizes.centreDistance, g, w, distance)).toBeCloseTo(
          j,
          8,
        );
        // At the tight distance there is no play left.
        expect(backlash(g, w, tightCentreDistance(g, w)).circumferential).toBeCloseTo(0, 8);
        expect(sizes.gearAngle * g.teeth).toBeCloseTo(sizes.mateAngle * w.teeth, 9);
      }),
      { seed: 20_772, numRuns: 300 },
    );
  });
  it('the small-change rule of the handbooks, j = 2 Δa tan α, holds for small changes', () => {
    const [a, b] = [gear(3, 20), gear(3, 40)];
    expect(circumferentialFrom('centre-distance', 0.01, a, b)).toBeCloseTo(0.02 * Math.tan(20 * deg), 5);
  });
  it('teeth too thin ever to bind say so', () => {
    const [a, b] = [gear(2, 20, 0, 0, { thinning: 2 }), gear(2, 20, 0, 0, { thinning: 2 })];
    expect(a.teeth * baseHalfAngle(a) + b.teeth * baseHalfAngle(b)).toBeLessThan(Math.PI);
    expect(tightCentreDistance(a, b)).toBe(0);
    expect(backlashSizes(a, b).centreDistance).toBe(Infinity);
  });
  it('all of the wheel’s: the pinion keeps its tooth', () => {
    const [w, p] = withThinning(gear(2, 40), gear(2, 12), 0.3, 'wheel');
    expect([w.thinning, p.thinning]).toEqual([0.3, 0]);
  });
});

describe('backlash of teeth as cast', () => {
  const [a, b] = [gear(3, 20), gear(3, 40)];
  it('covers the tolerances: with every size at its binding end the least backlash is left', () => {
    const plan = castBacklash(a, b, { toothGrade: 5, centreGrade: 6, runout: 0.1 });
    const drawn = plan.thinning / 2;
    // Thickness 4.71 mm: DCTG 5 is 0.36 mm wide; centre distance 90 mm: DCTG 6 is 0.78 mm wide.
    expect(castingTolerance(4.71, 5)).toBe(0.36);
    expect(castingTolerance(90, 6)).toBe(0.78);
    const thick = (spec: typeof a) => ({ ...spec, thinning: drawn - 0.18 });
    const left = backlash(thick(a), thick(b), 90 - 0.39 - 2 * 0.05).normal;
    expect(left).toBeCloseTo(leastNormalBacklash(90, 3), 1);
    // 2 Δa tan α_wt is reckoned at the drawn distance; the true loss differs in the second order only.
    expect(Math.abs(left - leastNormalBacklash(90, 3))).toBeLessThan(0.03);
    expect(plan.shares.gearTeeth).toBeCloseTo(0.18, 9);
    expect(plan.shares.centreDistance).toBeCloseTo(0.78 * Math.tan(20 * deg), 9);
    expect(plan.likely).toBeLessThan(plan.recommended);
    expect(plan.likely).toBeGreaterThan(plan.shares.least);
    expect(plan.range[0]).toBeCloseTo(plan.shares.least, 12);
    expect(plan.range[1] - plan.recommended).toBeCloseTo(plan.recommended - plan.range[0], 12);
  });
  it('finer grades ask for less, and coarse ones are warned of', () => {
    const recommended = (grade: number) => castBacklash(a, b, { toothGrade: grade, centreGrade: grade });
    for (let grade = 2; grade <= 9; grade++)
      expect(recommended(grade).recommended).toBeGreaterThan(recommended(grade - 1).recommended);
    expect(recommended(4).findings).toEqual([]);
    expect(recommended(9).findings.map((f) => f.code)).toEqual(['backlash-thins-teeth']);
    expect(() => recommended(13)).toThrow(/grade is 13/);
  });
  it('beyond the table’s sizes it says so', () => {
    const plan = castBacklash(gear(10, 40), gear(10, 60), { toothGrade: 5, centreGrade: 6 });
    expect(plan.findings.map((f) => f.code)).toEqual(['centre-distance-beyond-table']);
  });
});
