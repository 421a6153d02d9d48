/** Records are read from the shelf when a plan wants them. */
import { expect, test } from 'vitest';
import type { Bench } from '../../../cli/crew/bench.js';
import type { CrewPart } from '../../../cli/crew/freeze-task.js';
import { jobKeys } from '../../../cli/crew/keys.js';
import { make } from '../../../cli/crew/make-task.js';
import { recordsOf } from '../../../cli/crew/plan-task.js';
import { type Shelf, shelfInMemory } from '../../../cli/crew/shelf.js';
import { termsOf } from '../../../cli/crew/terms.js';
import { LostPart } from '../../../cli/store/store.js';
import { loadKernel } from '../../../core/solid/index.js';
import { findPart } from '../../../generators/index.js';
import { jobOf } from '../../helpers/mesh-jobs.js';

const job = jobOf({
  job: 'records',
  tolerance: '0.2mm',
  freeze: 'off',
  parts: [
    { name: 'one', part: 'knob', parameters: { size: 18 } },
    { name: 'same', part: 'knob', quantity: 2, parameters: { size: 18 } },
    { name: 'other', part: 'knob', parameters: { size: 20 } },
  ],
});
const terms = termsOf(job, undefined);
const keys = jobKeys(terms, '', 'here', findPart);
const benchWith = (shelf: Shelf): Bench => ({
  terms,
  shelf,
  kernel: () => loadKernel(),
  findPart,
  callHands: () => undefined,
});
const parts = new Map(
  job.parts.map((request): readonly [string, CrewPart] => [
    request.name,
    { request, source: { kind: 'make', key: keys.ofPart(request), request } },
  ]),
);

test('what has gone from the shelf or turns out damaged is made again; what is the same is read once', async () => {
  const shelf = shelfInMemory();
  const bench = benchWith(shelf);
  const [one, , other] = [...parts.values()].map((p) => p.source);
  for (const source of [one, other]) if (source?.kind === 'make') await make(source, bench);
  const whole = await recordsOf(parts, bench);
  expect([...whole.keys()]).toEqual(['one', 'same', 'other']);
  expect(whole.get('same')?.request.quantity).toBe(2);
  expect(whole.get('same')?.silhouette).toBe(whole.get('one')?.silhouette);
  expect(whole.get('other')?.silhouette).not.toEqual(whole.get('one')?.silhouette);

  // Of an empty shelf the first that is found is damaged.
  const fresh = shelfInMemory();
  let reads = 0;
  const frail: Shelf = {
    ...fresh,
    find: async (key) => {
      const found = await fresh.find(key);
      return (
        found && {
          ...found,
          read: async (name) => {
            if (reads++ === 0) throw new LostPart('damaged');
            return found.read(name);
          },
        }
      );
    },
  };
  expect(await recordsOf(parts, benchWith(frail))).toEqual(whole);
  // Two records, of which one was read twice.
  expect(reads).toBe(3);
});
