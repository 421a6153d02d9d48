import { beforeAll, describe, expect, test } from 'vitest';
import type { Job } from '../../../core/job/job.js';
import { jobFiles, planFiles } from '../../../core/job/job-files.js';
import { type JobResult, makeJob, makeJobInSteps, type Step } from '../../../core/job/make-job.js';
import { parseJob } from '../../../core/job/read-job.js';
import { forgetful, type Remember, rememberLast } from '../../../core/job/remember.js';
import { loadKernel } from '../../../core/solid/index.js';
import type { Kernel } from '../../../core/solid/types.js';
import { findPart } from '../../../generators/index.js';
import { jobContext } from '../../../generators/job-context.js';
import { loadMeshBuilding } from '../../../generators/mesh/load-building.js';

let kernel: Kernel;
beforeAll(async () => {
  kernel = await loadKernel();
});

function read(text: string): Job {
  const reading = parseJob(text, jobContext('job'));
  if (!reading.ok) throw new Error(JSON.stringify(reading.problems));
  return reading.job;
}

const two = (size = 30, freeze = 'coarse'): Job =>
  read(`job: a
tolerance: 0.1
freeze: ${freeze}
parts:
  - { name: one, part: knob, parameters: { size: ${size} } }
  - { name: two, part: spur-gear, parameters: { teeth: 12, faceWidth: 8, bore: 6 } }
`);

function run(job: Job, remember: Remember = forgetful): { steps: Step[]; result: JobResult } {
  const made = makeJobInSteps(job, { kernel, findPart, remember });
  const steps: Step[] = [];
  for (;;) {
    const step = made.next();
    if (!step.done) steps.push(step.value);
    else if ('refused' in step.value) throw new Error(JSON.stringify(step.value));
    else return { steps, result: step.value };
  }
}

describe('a job made in steps', () => {
  test('is the job made at once, and tells of each stage before it', () => {
    const { steps, result } = run(two());
    expect(steps.map((s) => s.stage)).toEqual([
      'one',
      'two',
      'plates and papers',
      'one: freezing',
      'two: freezing',
    ]);
    const atOnce = makeJob(two(), { kernel, findPart }) as JobResult;
    expect(result.summary).toEqual(atOnce.summary);
  });

  test('is had once as planned, all but its freezing', () => {
    const { steps, result } = run(two());
    const planned = steps.flatMap((s) => s.planned ?? []);
    expect(planned).toHaveLength(1);
    const off = makeJob(two(30, 'off'), { kernel, findPart }) as JobResult;
    expect(planned[0]?.summary).toEqual(off.summary);
    expect(result.summary.parts.every((p) => p.freeze !== undefined)).toBe(true);
    expect([...result.parts.values()]).toEqual([...(planned[0]?.parts.values() ?? [])]);
  });

  test('can be given up between steps, and another made', () => {
    const given = makeJobInSteps(two(), { kernel, findPart });
    given.next();
    given.next();
    expect(run(two(30, 'off')).result.summary.parts).toHaveLength(2);
  });
});

describe('what was made before', () => {
  test('is not made again, and gives the same job', () => {
    const remember = rememberLast(8);
    const first = run(two(), remember).result;
    const again = run(two(), remember).result;
    expect(again.parts.get('one')).toBe(first.parts.get('one'));
    expect(again.frozen.get('two')).toBe(first.frozen.get('two'));
    expect(again.summary).toEqual(first.summary);
  });

  test('with one size changed, the other part alone is the one made before', () => {
    const remember = rememberLast(8);
    const first = run(two(30, 'off'), remember).result;
    const changed = run(two(32, 'off'), remember).result;
    expect(changed.parts.get('one')).not.toBe(first.parts.get('one'));
    expect(changed.parts.get('two')).toBe(first.parts.get('two'));
    expect(changed.summary).toEqual(run(two(32, 'off')).result.summary);
  });

  test('words of the papers, units and prices leave the parts as they were made', () => {
    const remember = rememberLast(8);
    const off = two(30, 'off');
    const first = run(off, remember).result;
    const told: Job = { ...off, title: 'b', notes: ['c'], units: 'in', degrees: 'F' };
    const again = run(told, remember).result;
    expect(again.parts.get('one')).toBe(first.parts.get('one'));
    expect(again.summary).toEqual(run(told).result.summary);
  });

  test('a mesh opened anew under the same name is made and frozen anew, though nothing that is told differs', async () => {
    await loadMeshBuilding();
    const job = read(`job: a
tolerance: 0.1
parts: [{ name: one, part: mesh, parameters: { file: x, fileUnit: mm, up: as-drawn } }]
`);
    const mesh = kernel.scope(() => kernel.box([0, 0, 0], [16, 12, 8]).mesh());
    const opened = (): Job => {
      const exact = { ...mesh, positions: Float64Array.from(mesh.positions) };
      return { ...job, meshFiles: new Map([['x', { format: 'stl', unit: null, mesh: exact }]]) };
    };
    const remember = rememberLast(8);
    const [one, two] = [opened(), opened()];
    const first = run(one, remember).result;
    const second = run(two, remember).result;
    expect(second.parts.get('one')).not.toBe(first.parts.get('one'));
    expect(second.frozen.get('one')).not.toBe(first.frozen.get('one'));
    expect(second.summary).toEqual(first.summary);
    expect(run(two, remember).result.frozen.get('one')).toBe(second.frozen.get('one'));
  });

  test('only the last are kept, those asked for again among them', () => {
    const remember = rememberLast(2);
    const made: string[] = [];
    const ask = (key: string): string =>
      remember([key], () => {
        made.push(key);
        return key;
      });
    for (const key of ['a', 'b', 'a', 'c', 'a', 'b']) expect(ask(key)).toBe(key);
    expect(made).toEqual(['a', 'b', 'c', 'b']);
  });
});

test('a file asked for alone has the bytes it has among all', () => {
  const { result } = run(two(30, 'off'));
  const units = { lengthUnit: 'mm', degrees: 'C' } as const;
  const all = [...jobFiles(result, units)];
  const planned = planFiles(result, units);
  expect(planned.map((f) => f.path)).toEqual(all.map((f) => f.path));
  // The last first, so that none leans on one made before it.
  for (const { path, make } of [...planned].reverse())
    expect(Buffer.from(make()).equals(all.find((f) => f.path === path)?.bytes as Uint8Array), path).toBe(
      true,
    );
});
