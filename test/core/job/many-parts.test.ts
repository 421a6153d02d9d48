import { describe, expect, test } from 'vitest';
import { mostParts } from '../../../core/job/job-schema.js';
import { parseJob } from '../../../core/job/read-job.js';
import { testBracket, testOptions } from './test-part.js';

/** A job file of many parts, one a line. */
const jobOf = (count: number, part: (i: number) => string): string =>
  `job: many\nparts:\n${Array.from({ length: count }, (_, i) => `  - ${part(i)}\n`).join('')}`;
const good = (i: number): string => `{ name: part-${i}, part: ${testBracket.name} }`;

describe('a job file of ten thousand parts', () => {
  test('is read whole', () => {
    const reading = parseJob(jobOf(mostParts, good), testOptions);
    expect(reading.ok && reading.job.parts.length).toBe(10_000);
  });

  test('and one more is one clear error', () => {
    const reading = parseJob(jobOf(mostParts + 1, good), testOptions);
    if (reading.ok) throw new Error('read');
    expect(reading.problems.map((p) => [p.code, p.path, p.message])).toEqual([
      [expect.any(String), ['parts'], expect.stringContaining('10001')],
    ]);
    expect(reading.problems[0]?.remedy).toContain('10000');
  });

  test.each([
    ['one name for all', () => `{ name: same, part: ${testBracket.name} }`, 'duplicate-name'],
    [
      'a misspelt key in each',
      (i: number) => `{ name: p-${i}, part: ${testBracket.name}, quanity: 2 }`,
      'unknown-key',
    ],
    ['an unknown part in each', (i: number) => `{ name: p-${i}, part: test-braket }`, 'unknown-part'],
  ])('%s: the first twenty are told, the rest counted', (_, part, code) => {
    const reading = parseJob(jobOf(mostParts, part), testOptions);
    if (reading.ok) throw new Error('read');
    expect(reading.problems).toHaveLength(21);
    expect(new Set(reading.problems.slice(0, 20).map((p) => p.code))).toEqual(new Set([code]));
    expect(reading.problems.at(-1)).toMatchObject({
      code: 'more-problems',
      message: expect.stringMatching(/^and 99\d\d more problems from here on$/),
    });
  });
});
