/** Every part of the library, poured and frozen as it comes: numbers that are numbers, and nothing left liquid. */
import { beforeAll, describe, expect, test } from 'vitest';
import { makeJob } from '../../core/job/make-job.js';
import { parseJob } from '../../core/job/read-job.js';
import { loadKernel } from '../../core/solid/index.js';
import type { Kernel } from '../../core/solid/types.js';
import { findPart, parts } from '../../generators/index.js';
import { jobContext } from '../../generators/job-context.js';

let kernel: Kernel;
beforeAll(async () => {
  kernel = await loadKernel();
});

/** Every number in plain data, with where it stands. */
function* numbersIn(value: unknown, at = ''): Generator<readonly [string, number]> {
  if (typeof value === 'number') yield [at, value];
  else if (typeof value === 'object' && value !== null)
    for (const [key, inner] of Object.entries(value)) yield* numbersIn(inner, `${at}.${key}`);
}

const alloys = ['tin-bronze', 'a356', 'yellow-brass'];

describe.each(parts.map((part, i) => [part.name, alloys[i % alloys.length]] as const))(
  '%s in %s',
  (name, alloy) => {
    test('fills, freezes, and is told in finite numbers', () => {
      const source = { job: name, alloy, parts: [{ name, part: name }] };
      const reading = parseJob(JSON.stringify(source), jobContext('options'));
      if (!reading.ok) throw new Error(reading.problems.map((p) => p.message).join('\n'));
      const result = makeJob(reading.job, { kernel, findPart });
      if ('refused' in result) throw new Error(JSON.stringify(result.refused));
      for (const part of result.summary.parts) {
        const { freeze } = part;
        if (!freeze) throw new Error(`${part.name} was not frozen`);
        expect([...numbersIn(freeze)].filter(([, value]) => !Number.isFinite(value))).toEqual([]);
        expect(freeze.imbalance).toBeLessThan(1e-3);
        // No more of the cavity stays empty than the cells' crumbs.
        expect(freeze.fill.unreached).toBeLessThan(0.005 * part.volume.gated);
        expect(freeze.fill.castings).toBeLessThan(1.5 * part.gating.fill.pourTime + 1);
        expect(freeze.solid.all).toBeGreaterThanOrEqual(freeze.solid.castings);
        expect(freeze.solid.castings).toBeGreaterThan(0);
        const voids = freeze.latePlaces.reduce((sum, place) => sum + place.void, 0);
        expect(voids).toBeLessThan(0.07 * part.volume.pattern * part.patternsPerTree);
        expect(freeze.facePeak.temperature).toBeLessThan(freeze.start.metal);
        expect(freeze.facePeak.temperature).toBeGreaterThan(freeze.start.mould);
      }
    });
  },
);
