import { describe, expect, it } from 'vitest';
import { loadKernel } from '../../../core/solid/index.js';
import { measureDensity } from '../../helpers/plate-density.js';
import { plateJobs } from '../../helpers/plate-jobs.js';

/** The five jobs in full: `test/bench/nesting.bench.ts`. */
describe('plates by true shapes', () => {
  it.each(['cleats and pulls', 'gears of three sizes'] as const)(
    '%s: a quarter fewer bed-nights than rectangles take, at least',
    async (name) => {
      const { patterns, rectangles, plates, least, filled } = measureDensity(
        plateJobs[name],
        await loadKernel(),
      );
      expect(patterns).toBe(name === 'cleats and pulls' ? 36 : 66);
      expect(plates).toBeLessThanOrEqual(0.75 * rectangles);
      expect(plates).toBeGreaterThanOrEqual(least);
      expect(filled).toHaveLength(plates);
    },
    120_000,
  );
});
