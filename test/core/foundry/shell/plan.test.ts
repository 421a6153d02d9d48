import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { alloys, findAlloy } from '../../../../core/foundry/alloys/index.js';
import { oneHanderMass } from '../../../../core/foundry/flask-loads.js';
import { findInvestment } from '../../../../core/foundry/investment.js';
import {
  coatClock,
  fullGap,
  planCoating,
  planShell,
  type ShellInput,
  shellThickness,
  slurrySolids,
} from '../../../../core/foundry/shell/index.js';

const seed = 5099;
const investment = findInvestment('ceramic-shell');
const { coats, mould } = investment;

/** A plate x × y × z standing on its edge, as a gated pattern. */
const plate = ([x, y, z]: readonly [number, number, number], more: Partial<ShellInput> = {}): ShellInput => ({
  investment,
  alloy: findAlloy('tin-bronze')!,
  gatedSize: [x, y, z],
  gatedVolume: x * y * z,
  gatedRadius: Math.hypot(x, y) / 2,
  surface: {
    area: 2 * (x * y + y * z + z * x),
    bend: Math.PI * (x + y + z),
    euler: 2,
    top: z,
    bottom: 0,
    flats: [{ width: Math.min(x, z), length: Math.max(x, z), bottom: 0 }],
  },
  vents: 2,
  plasticDensity: 1.24e-3,
  ...more,
});
const codes = (input: ShellInput): readonly string[] => planShell(input).findings.map((f) => f.code);
const size = fc.double({ min: 3, max: 400, noNaN: true });
const sizes = fc.tuple(size, size, size);

describe('planShell', () => {
  it(`fewest coats that bear it, mass in balance, the tank covers it (seed ${seed})`, () => {
    fc.assert(
      fc.property(
        sizes,
        fc.constantFrom(...alloys),
        fc.double({ min: 0, max: 1, noNaN: true }),
        (xyz, alloy, waste) => {
          const input = plate(xyz, { alloy, wasteFraction: waste });
          const plan = planShell(input);
          const { family } = alloy;
          const least =
            coats.least[
              family === 'iron' ? 'iron' : family === 'copper' || family === 'silver' ? 'copper' : 'light'
            ];
          expect(plan.coats).toBeGreaterThanOrEqual(least);
          expect(plan.coats).toBeLessThanOrEqual(coats.most);
          expect(plan.thickness).toBe(shellThickness(coats, plan.coats));
          const weak = plan.findings.some((f) => f.code === 'shell-weak');
          expect(weak).toBe(plan.stress.greatest > plan.stress.allowed);
          if (weak) expect(plan.coats).toBe(coats.most);
          // One coat fewer would not do, where there are more than the least; bending goes by 1/t², hoop by 1/t.
          if (plan.coats > least) {
            const ratio = plan.thickness / shellThickness(coats, plan.coats - 1);
            expect(plan.stress.greatest * ratio ** 2).toBeGreaterThan(plan.stress.allowed * (1 - 1e-9));
          }
          expect(plan.stands === 'bare').toBe(plan.stress.greatest <= plan.stress.allowed / 2);
          // What went on, dry, is what the shell weighs.
          const dry = (plan.slurry * slurrySolids(coats) + plan.stucco) / (1 + waste);
          expect(dry / plan.mass.fired).toBeCloseTo(1, 9);
          expect(plan.mass.fired / (plan.volume * mould.density)).toBeCloseTo(1, 9);
          // Steiner for a box: the shell's volume is between surface × thickness and that of its bounding box.
          const [x, y, z] = xyz;
          const grown = plan.size[0] * plan.size[1] * plan.size[2] - x * y * z;
          expect(plan.volume).toBeGreaterThan(plan.area * plan.thickness);
          expect(plan.volume).toBeLessThan(grown);
          expect(plan.mass.poured - plan.mass.fired).toBeCloseTo(x * y * z * alloy.density, 6);
          expect(plan.mass.dried).toBeGreaterThan(plan.mass.fired);
          expect(plan.tank.slurry).toBeGreaterThan(0);
          expect(plan.tank.depth).toBeGreaterThanOrEqual(Math.min(...plan.size));
          expect(plan.lift.hollow).toBeGreaterThan(plan.lift.solid);
        },
      ),
      { seed, numRuns: 500 },
    );
  });

  it(`a higher sprue never takes fewer coats or bears more (seed ${seed + 1})`, () => {
    fc.assert(
      fc.property(sizes, fc.double({ min: 1, max: 600, noNaN: true }), (xyz, more) => {
        const low = plate(xyz);
        const high = { ...low, surface: { ...low.surface, top: low.surface.top + more } };
        expect(planShell(high).coats).toBeGreaterThanOrEqual(planShell(low).coats);
        expect(planShell(high).stress.pressure).toBeGreaterThan(planShell(low).stress.pressure);
      }),
      { seed: seed + 1 },
    );
  });

  it('by hand: bronze plate 120 × 12 × 100 mm', () => {
    const { liquidDensity } = findAlloy('tin-bronze')!;
    const plan = planShell(plate([120, 12, 100]));
    const pressure = 100 * liquidDensity * 9.80665e-3;
    expect(plan.stress.pressure).toBeCloseTo(pressure, 9);
    expect(plan.coats).toBe(6);
    // β = 0.3834 at 1.2; 6.6 mm.
    expect(plan.stress.greatest).toBeCloseTo((0.3834 * pressure * 100 ** 2) / 6.6 ** 2, 6);
    expect(plan.stress.flat).toBe(100);
  });

  it('says what is wrong', () => {
    expect(codes(plate([60, 12, 60]))).toEqual([]);
    expect(codes(plate([380, 12, 380]))).toContain('shell-weak');
    expect(codes(plate([60, 12, 60], { vents: 0 }))).toEqual(['shell-one-opening']);
    expect(codes(plate([60, 12, 60], { narrowestGap: 1.2 }))).toEqual(['shell-gap-bridged']);
    expect(codes(plate([60, 12, 60], { narrowestGap: 3 }))).toEqual(['shell-gap-narrow']);
    expect(codes(plate([60, 12, 60], { narrowestGap: fullGap(coats) }))).toEqual([]);
    const heavy = plate([150, 60, 150]);
    expect(planShell(heavy).mass.poured).toBeGreaterThan(oneHanderMass);
    expect(codes(heavy)).toContain('shell-heavy');
  });

  it('refuses sizes that are none', () => {
    expect(() => planShell(plate([60, 0, 60]))).toThrow(/gatedSize/);
    expect(() => planShell(plate([60, 12, 60], { wasteFraction: 2 }))).toThrow(/wasteFraction/);
  });
});

describe('planCoating', () => {
  it(`dips by day, each coat dry before the next (seed ${seed + 2})`, () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: coats.most }), (count) => {
        const clock = coatClock(coats, count);
        expect(clock.map((c) => c.name)).toEqual(['prime', ...Array(count - 1).fill('backup'), 'seal']);
        clock.forEach((c, i) => {
          expect(c.at % 86_400).toBeLessThanOrEqual(8 * 3600);
          const before = clock[i - 1];
          if (before) expect(c.at).toBeGreaterThanOrEqual(before.at + before.dry);
        });
        expect(clock.reduce((sum, c) => sum + c.thickness, 0)).toBeCloseTo(shellThickness(coats, count), 9);
      }),
      { seed: seed + 2 },
    );
  });

  it('adds up over the patterns; the largest sets the tank, the thickest the clock', () => {
    const [small, large] = [planShell(plate([30, 8, 30])), planShell(plate([300, 12, 200]))];
    const plan = planCoating({
      investment,
      shells: [
        { ...small, quantity: 3 },
        { ...large, quantity: 1 },
      ],
    });
    expect(plan.slurry).toBeCloseTo(3 * small.slurry + large.slurry, 6);
    expect(plan.stucco).toBeCloseTo(3 * small.stucco + large.stucco, 6);
    expect(plan.tank).toEqual(large.tank);
    expect(plan.coats).toHaveLength(large.coats + 1);
    expect(plan.recipe.flour + plan.recipe.sol).toBeCloseTo(1000, 9);
  });
});
