/** Putting patterns on trees is work for hands, so that the program hears of interrupts meanwhile. */
import { expect, test } from 'vitest';
import { makeJobWith } from '../../cli/crew/crew-job.js';
import { type Hands, ownHands, Stopped } from '../../cli/crew/hands.js';
import { jobKeys } from '../../cli/crew/keys.js';
import { shelfInMemory } from '../../cli/crew/shelf.js';
import { termsOf } from '../../cli/crew/terms.js';
import type { ProgressEvent } from '../../cli/progress/index.js';
import type { Job } from '../../core/job/job.js';
import { makeJob } from '../../core/job/make-job.js';
import { parseJob } from '../../core/job/read-job.js';
import { loadKernel } from '../../core/solid/index.js';
import { findPart } from '../../generators/index.js';
import { jobContext } from '../../generators/job-context.js';

const text = `job: a
freeze: off
tolerance: 0.2
packFlasks: yes
parts: [{ name: knob, part: knob, quantity: 3, parameters: { size: 22 } }]`;

function jobOf(source: string): Job {
  const reading = parseJob(source, jobContext('job'));
  if (!reading.ok) throw new Error(JSON.stringify(reading.problems));
  return reading.job;
}

/** Whose tasks are copied as they are on the way to a thread. */
function workOn(job: Job, stopsAt?: string) {
  const terms = termsOf(job, undefined);
  const asked: string[] = [];
  const events: ProgressEvent[] = [];
  const own = ownHands({
    terms,
    shelf: shelfInMemory(),
    kernel: () => loadKernel(),
    findPart,
    callHands: () => undefined,
  });
  const hands: Hands = {
    ...own,
    do: async (task, onShare) => {
      asked.push(task.kind);
      if (task.kind === stopsAt) throw new Stopped();
      return own.do(structuredClone(task), onShare);
    },
  };
  const made = makeJobWith(job, {
    hands,
    threads: 1,
    keys: jobKeys(terms, '', 'here', findPart),
    onProgress: (event) => events.push(event),
  });
  return { made, asked, events };
}

test('trees are worked out by hands, as a stage of its own', async () => {
  const { made, asked, events } = workOn(jobOf(text));
  const result = await made;
  if ('refused' in result) throw new Error(JSON.stringify(result.refused));
  expect(asked).toEqual(['make', 'pack', 'make', 'settle', 'plan']);
  expect(result.summary.parts.map((p) => p.name)).toEqual(['tree-1']);
  expect(events.filter((e) => e.name === undefined).map((e) => e.stage)).toEqual([
    'parts',
    'trees',
    'parts',
    'plates',
  ]);
});

test('a run that is told to end there ends there', async () => {
  const { made, asked } = workOn(jobOf(text), 'pack');
  await expect(made).rejects.toBeInstanceOf(Stopped);
  expect(asked).toEqual(['make', 'pack']);
});

const cleats = 'name: cleat, part: horn-cleat, parameters: { line: 6 }';
test.each([
  [
    'a crucible that holds no tree',
    'packFlasks: yes\nshop: { crucibles: [{ name: thimble, volume: 25 }] }\nparts: [{ name: knob, part: knob, quantity: 6, parameters: { size: 20 } }]',
    'nothing-packed',
  ],
  [
    'trees beside a large part that sets the time in the kiln',
    'packFlasks: yes\nparts: [{ name: knob, part: knob, quantity: 6, parameters: { size: 22 } }, { name: wheel, part: spur-gear, parameters: { teeth: 40 } }]',
    'flasks-packed',
  ],
  [
    'copies on a tree that take more than by themselves',
    `parts: [{ ${cleats}, quantity: 4, patternsPerTree: 4 }]`,
    'tree-takes-more',
  ],
])('%s: hands tell what one thread tells', async (_, what, code) => {
  const job = jobOf(`job: a\nfreeze: off\ntolerance: 0.2\n${what}`);
  const [byHands, alone] = [await workOn(job).made, makeJob(job, { kernel: await loadKernel(), findPart })];
  if ('refused' in byHands || 'refused' in alone) throw new Error('refused');
  expect(alone.summary.findings.map((f) => f.code)).toContain(code);
  expect(byHands.summary).toEqual(alone.summary);
});
