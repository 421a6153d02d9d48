import fc from 'fast-check';
import { beforeAll, expect, it } from 'vitest';
import { readMeshFile } from '../../core/files/mesh-read/index.js';
import { meshStates } from '../../core/job/make-part.js';
import { loadKernel } from '../../core/solid/index.js';
import type { Kernel } from '../../core/solid/types.js';
import { loadMeshBuilding } from '../../generators/mesh/load-building.js';
import { anyMeshPart, faultsOf, tryMeshPart } from '../helpers/any-mesh-part.js';
import { givenSeed } from '../helpers/given-seed.js';
import { propertyRuns } from '../helpers/legal-parameters.js';
import { makeMesh } from '../helpers/mesh-jobs.js';

let kernel: Kernel;
beforeAll(async () => {
  kernel = await loadKernel();
  await loadMeshBuilding();
});

const seed = givenSeed(20261126);
const runs = Math.ceil(propertyRuns / 10);

it(`random solids, written, read back, marked and stood at random: sound in every state or refused with a reason (${runs} sets, seed ${seed})`, {
  timeout: 3_000_000,
}, () => {
  let made = 0;
  let tries = 0;
  fc.assert(
    fc.property(anyMeshPart, (any) => {
      const tried = tryMeshPart(any, kernel);
      fc.pre(tried !== null);
      expect(faultsOf(tried, any)).toEqual([]);
      if (!tried.outcome.ok) return;
      made++;
      if (tries++ % 5 > 0) return;
      // Read anew, so that nothing is remembered: the same bytes.
      const file = readMeshFile(tried.bytes, tried.fileName);
      const again = makeMesh(file, kernel, tried.parameters, tried.job);
      if (!again.ok) throw new Error('refused the second time');
      for (const state of meshStates) {
        const [one, two] = [tried.outcome.made, again.made].map(({ meshes }) => meshes[state]);
        expect(two!.positions).toEqual(one!.positions);
        expect(two!.triangles).toEqual(one!.triangles);
      }
    }),
    { numRuns: runs, seed, endOnFailure: true },
  );
  // A space that is nearly always refused would prove nothing.
  expect(made).toBeGreaterThan(runs / 4);
});
