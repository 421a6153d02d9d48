import { beforeAll, expect, test } from 'vitest';
import type { Job } from '../../../core/job/job.js';
import { makeJobInSteps } from '../../../core/job/make-job.js';
import { rememberLast } from '../../../core/job/remember.js';
import { loadKernel } from '../../../core/solid/index.js';
import type { Kernel } from '../../../core/solid/types.js';
import type { LengthUnit } from '../../../core/units/index.js';
import { Stamps } from '../../../gallery/page/work/made-job.js';
import { readSources } from '../../../gallery/page/work/read-sources.js';
import { findPart } from '../../../generators/index.js';

let kernel: Kernel;
beforeAll(async () => {
  kernel = await loadKernel();
});

const remember = rememberLast(4);

function made(units: LengthUnit) {
  const text = `job: a\nunits: ${units}\nfreeze: off\nparts:\n  - name: b\n    part: knob\n`;
  const reading = readSources({ job: text });
  const steps = makeJobInSteps((reading as { job: Job }).job, { kernel, findPart, remember });
  let step = steps.next();
  while (!step.done) step = steps.next();
  if ('refused' in step.value) throw new Error('refused');
  return step.value;
}

test('a casting is sent once, and again where its sizes are told in other units', () => {
  const stamps = new Stamps();
  const [first] = stamps.send(made('mm'), 'mm');
  const [again] = stamps.send(made('mm'), 'mm');
  expect(first).toHaveProperty('meshes');
  expect(again).toEqual({ name: 'b', stamp: first?.stamp });
  const [inches] = stamps.send(made('in'), 'in');
  expect(inches).toHaveProperty('meshes');
  const texts = (sent: object | undefined) =>
    (sent as { dimensions: readonly { text: string }[] }).dimensions.map(({ text }) => text);
  expect(texts(first).length).toBeGreaterThan(0);
  expect(texts(inches)).not.toEqual(texts(first));
});
