import { describe, expect, it } from 'vitest';
import { stringify } from 'yaml';
import { parseJob } from '../../../core/job/read-job.js';
import { readEntry } from '../../../gallery/page/pair/read-entry.js';
import { jobContext } from '../../../generators/job-context.js';

const read = (job: object) => {
  const reading = parseJob(stringify(job, { aliasDuplicateObjects: false }), jobContext('job.yaml'));
  if (!reading.ok) throw new Error(JSON.stringify(reading.problems));
  return reading.job.parts[0]!;
};

describe('a part that was read is written so that a job in either unit reads the same', () => {
  it.each([
    [
      'spur-gear',
      { module: '2.1mm', teeth: 23, pressureAngle: '22.5deg', bore: '3/8in', thinning: '0.03mm' },
    ],
    [
      'double-helical-gear',
      { diametralPitch: 12, teeth: 30, helixAngle: '25.125deg', lowerHand: 'right', faceWidth: '1-1/4in' },
    ],
    ['rack', { module: '3mm', teeth: 10, rackProfile: 'C' }],
  ])('%s', (part, parameters) => {
    const first = read({ job: 'first', parts: [{ name: 'own', part, parameters }] });
    const entry = readEntry({ name: 'own', part, parameters: first.parameters });
    for (const units of ['mm', 'in']) {
      const again = read({ job: 'again', units, parts: [entry] });
      for (const [key, value] of Object.entries(first.parameters)) {
        if (typeof value === 'number') expect(again.parameters[key], key).toBeCloseTo(value, 9);
        else expect(again.parameters[key], key).toBe(value);
      }
    }
  });
});
