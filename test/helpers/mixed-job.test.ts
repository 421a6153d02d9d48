import { expect, test } from 'vitest';
import { makeJob } from '../../core/job/make-job.js';
import { loadKernel } from '../../core/solid/kernel.js';
import { allParts, findPart } from '../../generators/index.js';
import { jobOf } from './mesh-jobs.js';
import { mixedJob, mixedKinds } from './mixed-job.js';

test('has every casting of every generator', () => {
  const castings = allParts
    .filter(({ name }) => name !== 'mesh')
    .flatMap(({ name, pieces }) => (pieces ?? [undefined]).map((piece) => `${name} ${piece?.name ?? ''}`));
  const { parts } = jobOf(mixedJob(mixedKinds));
  expect(parts.map(({ part, piece }) => `${part} ${piece ?? ''}`).sort()).toEqual(castings.sort());
});

test('is the same for a seed, and no two parts are alike', () => {
  expect(mixedJob(60, { seed: 7 })).toEqual(mixedJob(60, { seed: 7 }));
  expect(mixedJob(60, { seed: 7 })).not.toEqual(mixedJob(60, { seed: 8 }));
  const { parts } = jobOf(mixedJob(1000));
  const shapes = parts.map(({ part, piece, parameters }) => JSON.stringify([part, piece, parameters]));
  expect(new Set(shapes).size).toBe(1000);
});

test('has no part refused', async () => {
  const rounds = Number(process.env.PATTERNWRIGHT_MIXED_ROUNDS ?? 2);
  const made = makeJob(jobOf(mixedJob(rounds * mixedKinds, { seed: 3 })), {
    kernel: await loadKernel(),
    findPart,
  });
  expect('refused' in made ? made.refused : []).toEqual([]);
});
