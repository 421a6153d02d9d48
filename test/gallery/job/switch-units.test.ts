import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import type { Job } from '../../../core/job/job.js';
import { switchUnits, textsWithBareNumbers } from '../../../gallery/page/job/switch-units.js';
import { readSources } from '../../../gallery/page/work/read-sources.js';
import { parts } from '../../../generators/index.js';
import { newJob } from '../../helpers/new-job.js';

function read(text: string): Job {
  const reading = readSources({ job: text });
  if (!reading.ok) throw new Error(JSON.stringify(reading.problems));
  return reading.job;
}

const same = (text: string, from: 'mm' | 'in', to: 'mm' | 'in'): void => {
  const job = read(switchUnits(text, from, to));
  expect(job.units).toBe(to);
  // What texts are read by changes with the units: see below.
  const { textUnit: _, ...before } = read(text);
  const { textUnit: __, ...after } = job;
  expect({ ...after, units: from }).toEqual(before);
};

describe('the job in other units has the same sizes', () => {
  test.each(['job.yaml', 'shed.yaml'])('%s', (name) => {
    const text = readFileSync(new URL(`../../../gallery/ropewalk/${name}`, import.meta.url), 'utf8');
    same(text, 'mm', 'in');
  });

  test.each(parts.map(({ name }) => name))('%s with its usual sizes', (part) =>
    same(newJob(part), 'mm', 'in'),
  );

  test('bare inches, fractions and decimals, and groups of every kind', () => {
    same(
      `job: a
units: in
layerHeight: 0.006
bed: { width: 8, depth: 8.5, height: 9 7/8 }
stock: { skin: 1/64 }
gating: { leastHead: 1 1/2 }
flasks:
  - { name: tin, diameter: 4, height: 5 1/2, wall: 0.012 }
parts:
  - name: b
    part: spur-gear
    stock: { face: 0.04 }
    parameters: { diametral-pitch: 12, teeth: 24, face-width: 3/4, bore: 0.5in }
`,
      'in',
      'mm',
    );
  });

  test('of a mesh', () => {
    const text = 'job: a\nparts: [{ name: a, part: mesh, parameters: { file: a.stl, scaleTo: 80 } }]\n';
    const meshes = [{ name: 'a.stl', id: '1' }];
    const [before, after] = [text, switchUnits(text, 'mm', 'in')].map((job) => readSources({ job, meshes }));
    if (!before?.ok || !after?.ok) throw new Error('not read');
    expect(after.job.parts).toEqual(before.job.parts);
  });

  test('there and back is the same job', () => {
    const text = newJob('horn-cleat');
    expect(read(switchUnits(switchUnits(text, 'mm', 'in'), 'in', 'mm'))).toEqual(read(text));
  });
});

test('texts with numbers that have no unit are found', () => {
  const has = (marks: string): boolean =>
    textsWithBareNumbers({ parts: [{ part: 'mesh', parameters: { file: 'a 7.stl', marks } } as never] })
      .length > 0;
  expect(
    ['', 'top face = face', 'bore at 12mm, 30 mm = 0.8mm', 'top face = 1 1/2in', 'x = 3/8"'].map(has),
  ).toEqual(Array(5).fill(false));
  expect(['bore at 12, 30 = 0.8mm', 'bore 8 at 12mm, 30mm', 'top face = 1 1/2', '12'].map(has)).toEqual(
    Array(4).fill(true),
  );
});
