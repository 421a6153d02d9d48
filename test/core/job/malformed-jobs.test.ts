import { describe, expect, it } from 'vitest';
import { formatProblem } from '../../../core/job/job-problem.js';
import { parseJob } from '../../../core/job/read-job.js';
import { formatPath } from '../../../core/part/input-problem.js';
import { malformedJobs, testSample } from './malformed-jobs.js';
import { testOptions } from './test-part.js';

const table = malformedJobs(testSample);

describe('malformed jobs', () => {
  it('has at least fifty, each with a name of its own', () => {
    expect(table.length).toBeGreaterThanOrEqual(50);
    expect(new Set(table.map((row) => row.name)).size).toBe(table.length);
  });

  it.each(table.map((row) => [row.name, row] as const))('%s', (_, row) => {
    const reading = parseJob(row.source, testOptions);
    if (reading.ok) throw new Error('was read as a good job');
    const [problem] = reading.problems;
    const line = formatProblem(problem!);
    expect({ code: problem!.code, line: problem!.line, path: formatPath(problem!.path) }).toEqual({
      code: row.code,
      line: row.line,
      path: row.path,
    });
    if (row.column !== undefined) expect(problem!.column).toBe(row.column);
    for (const words of row.says) expect(line).toContain(words);
    expect(line.startsWith(`job.yaml:${row.line}:`)).toBe(true);
    expect(line.length).toBeLessThan(400);
    expect(line).not.toMatch(/\p{Cc}|undefined|\[object|NaN/u);
    expect(reading.problems.map(formatProblem)).toHaveLength(1);
  });
});
