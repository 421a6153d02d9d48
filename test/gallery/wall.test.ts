import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { parse } from 'yaml';
import { makeJob } from '../../core/job/make-job.js';
import { parseJob } from '../../core/job/read-job.js';
import { loadKernel } from '../../core/solid/index.js';
import { wall } from '../../gallery/ropewalk/wall.js';
import { findPart, parts } from '../../generators/index.js';
import { jobContext } from '../../generators/job-context.js';

const files = ['job.yaml', 'shed.yaml'] as const;
const textOf = (file: string): string => readFileSync(`gallery/ropewalk/${file}`, 'utf8');
const entriesOf = (file: string) =>
  (parse(textOf(file)) as { parts: readonly { name: string; part: string }[] }).parts.map((entry) => ({
    ...entry,
    job: file,
  }));

describe('the ropewalk’s jobs', () => {
  test.each(files)('%s can be read without a problem', (file) => {
    const reading = parseJob(textOf(file), jobContext(file));
    expect(reading.ok ? [] : reading.problems).toEqual([]);
  });

  test.each(files)('%s is made without a refusal, and with few warnings', async (file) => {
    const reading = parseJob(`${textOf(file)}\nfreeze: off\n`, jobContext(file));
    if (!reading.ok) throw new Error(JSON.stringify(reading.problems));
    const result = makeJob(reading.job, { kernel: await loadKernel(), findPart });
    if ('refused' in result) throw new Error(JSON.stringify(result.refused));
    const warnings = result.summary.parts.flatMap(({ name, findings }) =>
      findings.filter((f) => f.severity === 'warn').map((f) => `${name} ${f.code}`),
    );
    expect(warnings.length, warnings.join('\n')).toBeLessThan(reading.job.parts.length);
  });

  test('have every part that is drawn', () => {
    const made = new Set(files.flatMap(entriesOf).map(({ part }) => part));
    expect([...made].sort()).toEqual(parts.map(({ name }) => name).sort());
  });

  test('name every entry once between them, and say that all is invented', () => {
    const names = files.flatMap(entriesOf).map(({ name }) => name);
    expect(new Set(names).size).toBe(names.length);
    for (const file of files) expect(textOf(file)).toContain('invented');
  });
});

describe('the wall', () => {
  test('shows every entry of the jobs once', () => {
    const hung = wall.map(({ job, name }) => `${job} ${name}`);
    const entries = files.flatMap(entriesOf).map(({ job, name }) => `${job} ${name}`);
    expect([...hung].sort()).toEqual([...entries].sort());
  });

  test('says in one sentence what each is for', () => {
    for (const { caption, title } of wall) {
      expect(caption).toMatch(/^[A-Z][^.]+\.$/);
      expect(title.length).toBeLessThan(32);
    }
    expect(new Set(wall.map(({ title }) => title)).size).toBe(wall.length);
  });
});
