import { existsSync, mkdtempSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { plate } from '../../cli/api.js';
import { type Problem, problemLines, problemOfFinding } from '../../cli/failure.js';
import { interrupted } from '../../cli/tell-job.js';
import type { Summary } from '../../core/job/summary.js';
import { stop, warn } from '../../core/part/finding.js';
import { temporaryFolder } from './helpers/folders.js';
import { accidents, runHere } from './helpers/in-process.js';

const top = temporaryFolder();

const job = (more = ''): string => `job: small
title: A small job
tolerance: 0.1
freeze: off
parts:
  - { name: one, part: knob, quantity: 2, parameters: { size: 24 } }
  - { name: through, part: spur-gear, quantity: 3, parameters: { teeth: 17, faceWidth: 8, bore: 80 } }
  - { name: two, part: knob, parameters: { size: 30 } }
${more}`;

async function run(text: string, ...options: string[]) {
  const cwd = mkdtempSync(join(top, 'job-'));
  writeFileSync(join(cwd, 'small.yaml'), text);
  const ran = await runHere(['plate', 'small.yaml', '--cache', 'none', ...options], { cwd });
  expect(ran.err).not.toMatch(accidents);
  return { ...ran, cwd, folder: join(cwd, 'out/small') };
}
const summaryOf = (folder: string): Summary =>
  JSON.parse(readFileSync(join(folder, 'summary.json'), 'utf8')) as Summary;

describe('plate with a part that cannot be made', () => {
  test('makes the rest, and says so first, last and in its exit code', async () => {
    const { code, out, err, folder } = await run(job());
    expect(code).toBe(3);
    expect(err).toBe('');
    expect(out).toContain('NOT MADE    1 of 3 parts; all else here is without them\n  stop  through: ');
    expect(out).toContain('[bore-through-root]');
    expect(out.trimEnd().split('\n').at(-1)).toBe(
      'Not made: 1 of 3 parts, through. Mend the job and run the same command again.',
    );
    for (const line of out.split('\n')) expect([...line].length).toBeLessThanOrEqual(80);
    const summary = summaryOf(folder);
    expect(summary.parts.map((p) => p.name)).toEqual(['one', 'two']);
    expect(summary.notMade).toMatchObject([{ name: 'through', part: 'spur-gear', quantity: 3 }]);
    expect(existsSync(join(folder, 'through'))).toBe(false);
    const traveller = readFileSync(join(folder, 'traveller.html'), 'utf8');
    const box = /<div class="findings not-made">[\s\S]*?<\/div>/.exec(traveller)?.[0] ?? '';
    expect(box.replace(/<[^>]*>/g, '')).toMatch(/NOT MADE: 1 of 3 parts, 3 castings/);
    expect(box).toContain('bore-through-root');
    // On the first page, before the numbers.
    expect(traveller.indexOf(box)).toBeLessThan(traveller.indexOf('<dl class="keys">'));
  });

  test('--quiet and --json say it where errors are', async () => {
    const quiet = await run(job(), '--quiet');
    expect(quiet).toMatchObject({ code: 3, out: '' });
    expect(quiet.err).toMatch(/^stop: through: .+ \[bore-through-root\]\nNot made: 1 of 3 parts, through\. /);
    const json = await run(job(), '--json');
    expect(json.code).toBe(3);
    expect(json.err).toBe(quiet.err);
    const printed = JSON.parse(json.out) as Summary;
    expect(printed.notMade?.[0]?.findings.map((f) => f.code)).toContain('bore-through-root');
    expect(printed).toEqual(summaryOf(json.folder));
  });

  test.each([
    ['--no-keep-going', /\nNothing was written\.\n$/],
    ['--strict', /\nNothing was written\. --strict refuses a job that is not made in full\.\n$/],
  ])('%s: all or nothing', async (option, closing) => {
    const { code, err, out, cwd } = await run(job(), option);
    expect([code, out]).toEqual([1, '']);
    expect(err).toMatch(/^stop: through: .+ \[bore-through-root\]$/m);
    expect(err).toMatch(closing);
    expect(readdirSync(cwd)).toEqual(['small.yaml']);
  });

  test('nothing left: exit 1, nothing written', async () => {
    const text = job().replace(/ {2}- \{ name: (one|two).*\n/g, '');
    const { code, err, cwd } = await run(text);
    expect(code).toBe(1);
    expect(err).toMatch(/\[bore-through-root\]\nNothing was written\.\n$/);
    expect(readdirSync(cwd)).toEqual(['small.yaml']);
  });

  test('a job with mistakes is made in no part: exit 2', async () => {
    const { code, cwd } = await run(job('  - { name: three, part: knob, parameters: { sise: 3 } }\n'));
    expect(code).toBe(2);
    expect(readdirSync(cwd)).toEqual(['small.yaml']);
  });

  test('programs get all or nothing, unless they ask for what can be made', async () => {
    const whole = await plate(job());
    expect('refused' in whole && whole.refused.map((r) => r.name)).toEqual(['through']);
    const rest = await plate(job(), { keepGoing: true });
    if ('refused' in rest) throw new Error('refused');
    expect(rest.notMade.map((r) => r.name)).toEqual(['through']);
    expect([...rest.parts.keys()]).toEqual(['one', 'two']);
  });
});

describe('messages of many parts', () => {
  const view = { lengthUnit: 'in', degrees: 'C' } as const;
  const problems = (count: number, message: (i: number) => string): readonly Problem[] =>
    Array.from({ length: count }, (_, i) =>
      problemOfFinding(stop('bore-through-root', message(i), 'Use at most 20 mm.'), `wheel-${i + 1}`, view),
    );

  test('the same said of 300 is one line', () => {
    expect(problemLines(problems(300, () => 'The bore of 80 mm cuts the root'))).toEqual([
      'stop: wheel-1, wheel-2, wheel-3 and 297 more: The bore of 80 mm (3.15 in) cuts the root. Use at most 20 mm (0.787 in). [bore-through-root]',
    ]);
  });

  test('the like said of 300 takes a few lines', () => {
    const lines = problemLines(problems(300, (i) => `The bore of ${i + 30} mm cuts the root`));
    expect(lines).toHaveLength(4);
    expect(lines[0]).toMatch(/^stop: wheel-1: The bore of 30 mm/);
    expect(lines[3]).toBe(
      'stop: wheel-4, wheel-5, wheel-6 and 294 more: of the same kind; --json tells each. [bore-through-root]',
    );
  });

  test('a few are told one by one, of several kinds in their order', () => {
    const few = [
      ...problems(4, (i) => `The bore of ${i} mm cuts the root`),
      problemOfFinding(warn('wall-thin', 'The wall is thin', 'Thicken it'), 'cup', view),
      problemOfFinding(stop('kiln-too-cold', 'The kiln is too cold', 'Fire it'), '', view),
    ];
    expect(problemLines(few)).toEqual(few.map((p) => p.text));
  });

  test('problems of files and options stay as they are', () => {
    const plain = ['b', 'a', 'b'].map((text) => ({ text, code: 'x', message: text, remedy: '' }));
    expect(problemLines(plain)).toEqual(['b', 'a', 'b']);
  });

  test('ten thousand of them are told at once', () => {
    expect(problemLines(problems(10_000, (i) => `The bore of ${i} mm cuts the root`))).toHaveLength(4);
  });
});

describe('an interrupted run says what is kept and how to go on', () => {
  const at = { out: 'out/small', hadFolder: true, parts: { done: 412, of: 1000 }, kept: 'all' as const };
  test.each([
    [
      at,
      'Nothing was written; out/small is as it was before.\nKept: 412 of 1000 parts made. The same command goes on from there.',
    ],
    [
      { ...at, hadFolder: false, kept: 'none' as const },
      'Nothing was written.\nWithout a cache nothing is kept (412 of 1000 parts made): the same command begins anew.',
    ],
    [
      { ...at, kept: 'some' as const },
      'Nothing was written; out/small is as it was before.\n412 of 1000 parts made, of which not all is kept: the same command makes the rest anew.',
    ],
    [
      { ...at, hadFolder: false, parts: { done: 0, of: 1 } },
      'Nothing was written.\nThe same command begins anew.',
    ],
    [
      { ...at, hadFolder: false, parts: { done: 2, of: 2 }, moulds: { done: 1, of: 2 } },
      'Nothing was written.\nKept: all 2 parts made and 1 of 2 moulds frozen. The same command goes on from there.',
    ],
  ])('%j', (where, words) => {
    const failure = interrupted(where);
    expect(failure.closing).toBe(words);
    expect(failure.problems.map((p) => [p.code, p.text])).toEqual([['interrupted', 'Interrupted.']]);
    expect(failure.exitCode).toBe(1);
  });
});
