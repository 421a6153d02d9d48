import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { requiredMachiningAllowance } from '../../../core/foundry/iso-8062.js';
import { checkStock, defaultMachiningGrade, planStock } from '../../../core/foundry/stock.js';
import { surfaceClasses } from '../../../core/part/stock.js';

const seed = 20260;
const size = fc.double({ min: 0.01, max: 1000, noNaN: true });

describe('planStock', () => {
  it('gives machined classes the ISO allowance, skin the layer lines, teeth a light dressing', () => {
    const plan = planStock({ largestDimension: 84, layerHeight: 0.2 });
    expect(plan.stock).toEqual({ flank: 0.1, tip: 0.1, face: 1, bore: 1, mating: 1, skin: 0.25 });
  });

  it(`grows with size; overrides touch one class (seed ${seed})`, () => {
    fc.assert(
      fc.property(
        size,
        size,
        fc.double({ min: 0.01, max: 1, noNaN: true }),
        fc.constantFrom(...surfaceClasses),
        fc.double({ min: 0, max: 15, noNaN: true }),
        (a, b, layerHeight, own, value) => {
          const small = planStock({ largestDimension: Math.min(a, b), layerHeight });
          const large = planStock({ largestDimension: Math.max(a, b), layerHeight });
          const set = planStock({ largestDimension: a, layerHeight, overrides: { [own]: value } });
          const free = planStock({ largestDimension: a, layerHeight });
          expect(small.stock.face).toBe(requiredMachiningAllowance(Math.min(a, b), defaultMachiningGrade));
          for (const c of surfaceClasses) {
            expect(small.stock[c]).toBeGreaterThan(0);
            expect(large.stock[c]).toBeGreaterThanOrEqual(small.stock[c]);
            expect(set.stock[c]).toBe(c === own ? value : free.stock[c]);
            expect(set.basis[c].source === 'set in the job').toBe(c === own);
          }
          expect(free.stock.skin).toBeGreaterThan(layerHeight);
          expect(checkStock(free.stock, layerHeight)).toEqual([]);
        },
      ),
      { seed, numRuns: 300 },
    );
  });

  it('follows the grade and the dressing set', () => {
    const plan = planStock({ largestDimension: 84, layerHeight: 0.2, grade: 'H', dressing: 0.3 });
    expect(plan.stock).toEqual({ flank: 0.3, tip: 0.3, face: 2, bore: 2, mating: 2, skin: 0.25 });
  });

  it('warns of a skin thinner than the layer lines', () => {
    const { stock } = planStock({ largestDimension: 50, layerHeight: 0.3, overrides: { skin: 0.1 } });
    expect(checkStock(stock, 0.3).map((f) => f.code)).toEqual(['skin-below-layer-lines']);
  });

  it('refuses sizes that cannot be', () => {
    const good = { largestDimension: 50, layerHeight: 0.2 };
    expect(() => planStock({ ...good, largestDimension: 0 })).toThrow(/largestDimension is 0/);
    expect(() => planStock({ ...good, largestDimension: 1001 })).toThrow(/to 1000 mm/);
    expect(() => planStock({ ...good, layerHeight: -0.2 })).toThrow(/layerHeight/);
    expect(() => planStock({ ...good, overrides: { flank: -0.1 } })).toThrow(/stock.flank is -0.1/);
    expect(() => planStock({ ...good, overrides: { bore: 25.4 } })).toThrow(/stock.bore/);
    expect(() => planStock({ ...good, grade: 'Z' as never })).toThrow(/grade is Z/);
  });
});
