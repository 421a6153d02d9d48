import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { coreLimit } from '../../../core/foundry/holes.js';

const seed = 20260;
const diameter = fc.double({ min: 0.01, max: 60, noNaN: true });

describe('coreLimit', () => {
  it(`a wider hole may be deeper, a through one deeper than a blind one (seed ${seed})`, () => {
    fc.assert(
      fc.property(diameter, diameter, (a, b) => {
        for (const kind of ['through', 'blind'] as const) {
          const [thin, wide] = [coreLimit(Math.min(a, b), kind), coreLimit(Math.max(a, b), kind)];
          expect(wide.maxDepth).toBeGreaterThanOrEqual(thin.maxDepth);
          expect(thin.castable).toBe(thin.maxDepth > 0);
        }
        expect(coreLimit(a, 'through').maxDepth).toBeGreaterThanOrEqual(coreLimit(a, 'blind').maxDepth);
      }),
      { seed, numRuns: 300 },
    );
  });

  it('refuses a hole that is none', () => expect(() => coreLimit(0, 'blind')).toThrow(/diameter is 0/));
});
