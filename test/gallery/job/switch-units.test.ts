import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import type { Job } from '../../../core/job/job.js';
import { switchUnits } from '../../../gallery/page/job/switch-units.js';
import { readSources } from '../../../gallery/page/work/read-sources.js';
import { partNames } from '../../../generators/index.js';
import { newJob } from '../../helpers/new-job.js';

function read(text: string): Job {
  const reading = readSources({ job: text });
  if (!reading.ok) throw new Error(JSON.stringify(reading.problems));
  return reading.job;
}

const same = (text: string, from: 'mm' | 'in', to: 'mm' | 'in'): void => {
  const job = read(switchUnits(text, from, to));
  expect(job.units).toBe(to);
  expect({ ...job, units: from }).toEqual(read(text));
};

describe('the job in other units has the same sizes', () => {
  test.each(['job.yaml', 'shed.yaml'])('%s', (name) => {
    const text = readFileSync(new URL(`../../../gallery/ropewalk/${name}`, import.meta.url), 'utf8');
    same(text, 'mm', 'in');
  });

  test.each(partNames)('%s with its usual sizes', (part) => same(newJob(part), 'mm', 'in'));

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

  test('there and back is the same job', () => {
    const text = newJob('horn-cleat');
    expect(read(switchUnits(switchUnits(text, 'mm', 'in'), 'in', 'mm'))).toEqual(read(text));
  });
});
