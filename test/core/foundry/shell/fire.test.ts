import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { alloys, findAlloy } from '../../../../core/foundry/alloys/index.js';
import { findInvestment } from '../../../../core/foundry/investment.js';
import { findPlastic, plastics } from '../../../../core/foundry/material.js';
import { planPour } from '../../../../core/foundry/pour.js';
import {
  carryShell,
  coolShell,
  leavesKilnAt,
  planShellBurnout,
  type ShellBurnoutInput,
} from '../../../../core/foundry/shell/index.js';

const seed = 8708;
const investment = findInvestment('ceramic-shell');
const shell = { name: 'cleat', diameter: 120, height: 100, mouldVolume: 2e5 };
const usual: ShellBurnoutInput = {
  investment,
  plastic: findPlastic('PLA')!,
  thickness: 7,
  castingTemperature: 600,
  shells: [shell],
};
const codes = (input: ShellBurnoutInput): readonly string[] =>
  planShellBurnout(input).findings.map((f) => f.code);

describe('planShellBurnout', () => {
  it(`runs on without a jump, fires at 850 °C or more, ends at the casting temperature (seed ${seed})`, () => {
    fc.assert(
      fc.property(
        fc.record({
          firing: fc.constantFrom('flash' as const, 'ramp' as const),
          plastic: fc.constantFrom(...plastics),
          thickness: fc.double({ min: 4, max: 15, noNaN: true }),
          castingTemperature: fc.double({ min: 20, max: 1100, noNaN: true }),
          rate: fc.double({ min: 20, max: 2000, noNaN: true }),
          topTemperature: fc.double({ min: 850, max: 1300, noNaN: true }),
          segments: fc.integer({ min: 1, max: 12 }),
          degrees: fc.constantFrom('C' as const, 'F' as const),
        }),
        ({ rate, topTemperature, segments, ...rest }) => {
          const castingTemperature = Math.min(rest.castingTemperature, topTemperature - 1);
          const plan = planShellBurnout({
            ...usual,
            ...rest,
            castingTemperature,
            kiln: { rate, topTemperature, segments },
          });
          let at = 20;
          for (const s of plan.segments) {
            expect(s.from).toBe(at);
            at = s.to;
            expect(Math.abs(s.rate)).toBeLessThanOrEqual(Math.max(rate, 1));
            expect(s.soak).toBeGreaterThan(0);
            expect(s.soak % 900).toBe(0);
          }
          expect(Math.abs(at - castingTemperature)).toBeLessThanOrEqual(1);
          expect(plan.peak).toBeGreaterThanOrEqual(849);
          expect(plan.peak).toBeLessThanOrEqual(Math.max(topTemperature, 900) + 1);
          expect(plan.findings.some((f) => f.severity === 'stop')).toBe(false);
          expect(plan.findings.some((f) => f.code === 'controller-segments-few')).toBe(
            plan.segments.length > segments,
          );
        },
      ),
      { seed, numRuns: 300 },
    );
  });

  it('puts the shells into a hot kiln, at 870 °C, or heats them from cold', () => {
    const flash = planShellBurnout(usual);
    expect(flash.segments.map((s) => Math.round(s.to))).toEqual([870, 870, 900, 600]);
    expect(flash.segments[0]?.purpose).toContain('empty');
    const ramp = planShellBurnout({ ...usual, firing: 'ramp' });
    expect(ramp.segments.map((s) => s.to)).toEqual([900, 600]);
    expect(ramp.findings.map((f) => f.code)).toContain('shell-from-cold');
    expect(codes({ ...usual, firing: 'ramp', kiln: { rate: 150 } })).toContain('shell-heated-slowly');
  });

  it('refuses a kiln that does not fire it, a shell it has no room for, and cristobalite', () => {
    expect(codes({ ...usual, kiln: { topTemperature: 840 } })).toContain('kiln-too-cold');
    expect(codes({ ...usual, kiln: { topTemperature: 860 } })).toContain('kiln-top-low');
    expect(codes({ ...usual, kiln: { width: 150, depth: 400, height: 400 } })).toContain(
      'flask-too-large-for-kiln',
    );
    expect(codes({ ...usual, castingTemperature: 1150 })).toContain('burnout-too-hot');
  });

  it('heats the shells’ own mass, not a flask full: m c ΔT and their last water', () => {
    const plan = planShellBurnout({ ...usual, kiln: { power: 5000 }, shells: [{ ...shell, quantity: 3 }] });
    const mass = 3 * 2e5 * 1.6e-3;
    expect(plan.energy?.moulds).toBeCloseTo(mass * 1.05 * 880, 3);
    // 1 %: 4.19 J/(g·K) from 20 to 100 °C and 2257 J/g (steam tables).
    expect(plan.energy?.water).toBeCloseTo(mass * 0.01 * (4.19 * 80 + 2257), 3);
  });

  it('a clock back from the pour', () => {
    const plan = planShellBurnout({ ...usual, time: { pourAt: '2026-05-09T18:00' } });
    expect(plan.clock?.ends.at(-1)).toBe('2026-05-09T18:00');
  });
});

describe('the way to the metal', () => {
  it(`leaves the kiln hotter than it is poured, and arrives as wanted where it may (seed ${seed + 1})`, () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...alloys),
        fc.double({ min: 0.5, max: 10, noNaN: true }),
        fc.double({ min: 5, max: 13, noNaN: true }),
        fc.double({ min: 850, max: 1300, noNaN: true }),
        (alloy, thinnestModulus, thickness, kilnTop) => {
          const plan = planPour({ alloy, investment, parts: [{ name: 'a', thinnestModulus }] });
          const carried = carryShell(plan, investment, thickness, kilnTop);
          const { leaves, seconds } = carried.carry!;
          expect(leaves).toBeGreaterThanOrEqual(carried.flaskTemperature);
          expect(leaves).toBeLessThanOrEqual(Math.max(investment.maxBurnout, plan.flaskTemperature) + 1);
          expect(carried.flaskTemperature).toBeLessThanOrEqual(plan.flaskTemperature);
          const arrives = coolShell({ mould: investment.mould, thickness }, leaves, seconds);
          if (leaves < Math.min(investment.maxBurnout, kilnTop))
            expect(Math.abs(arrives - plan.flaskTemperature)).toBeLessThan(2);
          expect(carried.findings.some((f) => f.code === 'shell-cools-fast')).toBe(
            carried.flaskTemperature < plan.flaskRange[0],
          );
        },
      ),
      { seed: seed + 1, numRuns: 60 },
    );
  });

  it('a thin shell cools faster than a thick one, and neither in no time', () => {
    const at = (thickness: number, seconds: number): number =>
      coolShell({ mould: investment.mould, thickness }, 900, seconds);
    expect(at(7, 0)).toBe(900);
    expect(at(5, 30)).toBeLessThan(at(10, 30));
    expect(at(5, 3600)).toBeGreaterThan(20);
    expect(leavesKilnAt({ mould: investment.mould, thickness: 5 }, 800, 900, 120)).toBe(900);
  });

  it('says so where the shell has cooled too far', () => {
    const iron = findAlloy('grey-iron')!;
    const plan = planPour({ alloy: iron, investment, parts: [{ name: 'a', thinnestModulus: 20 }] });
    const cold = { ...plan, flaskTemperature: 1095, flaskRange: [1090, 1100] as const };
    expect(carryShell(cold, investment, 5).findings.map((f) => f.code)).toContain('shell-cools-fast');
  });
});
