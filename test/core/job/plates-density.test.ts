import { describe, expect, it } from 'vitest';
import { loadKernel } from '../../../core/solid/index.js';
import { measureDensity } from '../../helpers/plate-density.js';
import { plateJobs } from '../../helpers/plate-jobs.js';

/** The five jobs in full: `test/bench/nesting.bench.ts`. */
describe('plates by true shapes', () => {
  it.each([
    ['cleats and pulls', 36, 5 / 9],
    ['gears of three sizes', 66, 4 / 6],
    ['rings and knobs', 80, 4 / 6],
  ] as const)(
    '%s: a quarter fewer bed-nights than rectangles take, at least',
    async (name, all, share) => {
      const { patterns, rectangles, plates, least, filled } = measureDensity(
        plateJobs[name],
        await loadKernel(),
      );
      expect(patterns).toBe(all);
      expect(plates / rectangles).toBeLessThanOrEqual(share + 1e-9);
      expect(plates).toBeGreaterThanOrEqual(least);
      expect(filled).toHaveLength(plates);
    },
    120_000,
  );
});
