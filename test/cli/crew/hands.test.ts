import fc from 'fast-check';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { makeJobWith } from '../../../cli/crew/crew-job.js';
import { type Hands, WorkerLost } from '../../../cli/crew/hands.js';
import { poolOfHands } from '../../../cli/crew/pool.js';
import type { Task } from '../../../cli/crew/tasks.js';
import { doAll, inOrder } from '../../../cli/crew/together.js';
import { openWorkshop } from '../../../cli/crew/workshop.js';
import type { Job, JobPart } from '../../../core/job/job.js';
import { findPart } from '../../../generators/index.js';
import { jobOf } from '../../helpers/mesh-jobs.js';

const later = (ms: number): Promise<void> => new Promise((resolve) => setTimeout(resolve, ms));

describe('work done together', () => {
  const durations = fc.array(fc.integer({ min: 0, max: 3 }), { maxLength: 12 });

  test('comes in the order it was given, no more than so much at a time', () =>
    fc.assert(
      fc.asyncProperty(durations, fc.integer({ min: 1, max: 4 }), async (times, most) => {
        let atWork = 0;
        let seen = 0;
        const each = async (ms: number): Promise<number> => {
          seen = Math.max(seen, ++atWork);
          await later(ms);
          atWork--;
          return ms;
        };
        expect(await doAll(times, most, each)).toEqual(times);
        const taken: number[] = [];
        for await (const ms of inOrder(times, most, each)) taken.push(ms);
        expect(taken).toEqual(times);
        expect(seen).toBeLessThanOrEqual(most);
      }),
      { numRuns: 40 },
    ));

  test('begins nothing more once one of it has failed', async () => {
    const begun: number[] = [];
    const each = async (i: number): Promise<void> => {
      begun.push(i);
      await later(1);
      if (i === 2) throw new Error('two');
    };
    await expect(doAll([0, 1, 2, 3, 4, 5, 6, 7], 2, each)).rejects.toThrow('two');
    await later(20);
    expect(begun.length).toBeLessThan(6);
  });
});

describe('threads', () => {
  const notes: string[] = [];
  let pool: Hands;
  beforeAll(() => {
    pool = poolOfHands({
      threads: 2,
      workerFile: new URL('./helpers/frail-worker.js', import.meta.url),
      terms: { job: { parts: [] } as unknown as Job, learnt: new Map() },
      places: { scratch: '/nonexistent' },
      note: (text) => notes.push(text),
    });
  });
  afterAll(() => pool.close());
  const ask = (name: string) => pool.do({ kind: 'make', key: '', request: { name } as JobPart });

  test('one that ends costs what it worked at, and the others go on', async () => {
    const names = ['a', 'ends', 'b', 'c', 'ends', 'd', 'e'];
    const outcomes = await Promise.all(
      names.map((name) =>
        ask(name).then(
          () => name,
          (e: unknown) => e,
        ),
      ),
    );
    expect(outcomes.filter((o) => o instanceof WorkerLost)).toHaveLength(2);
    expect(outcomes.filter((o) => typeof o === 'string')).toEqual(['a', 'b', 'c', 'd', 'e']);
  });

  test('faults come back as what they were', async () => {
    await expect(ask('faults')).rejects.toMatchObject({ name: 'Error', message: 'a fault' });
    await expect(ask('full')).rejects.toMatchObject({ name: 'FolderError', code: 'disk-full' });
    await expect(ask('noted')).resolves.toEqual({ ok: false, findings: [] });
    expect(notes).toEqual(['a note']);
  });
});

describe('a part whose thread ends', () => {
  const job = jobOf({
    job: 'frail',
    tolerance: '0.2mm',
    freeze: 'off',
    parts: [16, 18, 20].map((size) => ({ name: `knob-${size}`, part: 'knob', parameters: { size } })),
  });

  async function made(keepGoing: boolean, outOfMemory: boolean) {
    const workshop = await openWorkshop(job, { learntGrowth: undefined, findPart, note: () => undefined });
    const frail = (task: Task): boolean => task.kind === 'make' && task.request.name === 'knob-18';
    const hands: Hands = {
      ...workshop.hands,
      do: (task, onShare) =>
        frail(task) ? Promise.reject(new WorkerLost(outOfMemory)) : workshop.hands.do(task, onShare),
    };
    const options = { ...workshop, hands, keepGoing, onProgress: () => undefined };
    try {
      return await makeJobWith(job, options);
    } finally {
      await workshop.close();
    }
  }

  test('is left out with the reason, and the rest is made', async () => {
    const result = await made(true, true);
    if ('refused' in result) throw new Error(JSON.stringify(result));
    expect([...result.parts.keys()]).toEqual(['knob-16', 'knob-20']);
    expect(result.notMade).toMatchObject([{ name: 'knob-18', findings: [{ code: 'out-of-memory' }] }]);
  });

  test('refuses a job that is to be made whole', async () => {
    expect(await made(false, false)).toMatchObject({
      refused: [{ name: 'knob-18', findings: [{ code: 'thread-ended' }] }],
    });
  });
});
