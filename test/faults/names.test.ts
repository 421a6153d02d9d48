/** Names that some disk, system or terminal would stumble over: one clear message each, before anything is made. */
import { existsSync, readdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, describe, expect, test } from 'vitest';
import { ensureBuilt } from '../cli/helpers/built.js';
import { listing, temporaryFolder } from '../cli/helpers/folders.js';
import { runHere } from '../cli/helpers/in-process.js';
import { expectClear, runProgram } from './helpers/program.js';
import { smallJob } from './helpers/shelf.js';

beforeAll(ensureBuilt);

const cwd = temporaryFolder();
const patience = 300_000;

const job = (name: string, first: string, second = 'two'): string =>
  [
    `job: ${name}`,
    'tolerance: 0.2',
    'freeze: off',
    'parts:',
    `  - {name: ${first}, part: hatch-pull, parameters: {size: 20}}`,
    `  - {name: ${second}, part: hatch-pull, parameters: {size: 22}}`,
    '',
  ].join('\n');

/** In this process: the same code, and a hundred starts of the program less. */
const refused = async (text: string, ...words: readonly RegExp[]): Promise<void> => {
  writeFileSync(join(cwd, 'job.yaml'), text);
  const before = readdirSync(cwd);
  const ran = await runHere(['plate', 'job.yaml', '--out', 'out', '--quiet'], { cwd });
  expectClear({ ...ran, signal: null, milliseconds: 0 }, 2, ...words);
  expect(readdirSync(cwd)).toEqual(before);
};

const remedy =
  /use 1 to 64 lower-case letters, digits and inner hyphens, like crank-wheel|is a name that Windows keeps for itself; choose another name/;

describe('names of jobs and parts', () => {
  test.each([
    'CON',
    'aux.stl',
    'nul',
    'com1',
    'LPT9.txt',
    'dot.',
    '".hidden"',
    '"-"',
    'a-',
    'One',
    '"~"',
    '"*"',
    '"a:b"',
    '"\\u00e9"',
    '"e\\u0301"',
    '"\\u202egnp"',
    '"\\U0001F600"',
    '"a\\u200bb"',
  ])('%s', async (name) => {
    await refused(job('a', name), /^job\.yaml:5:12 parts\[0\]\.name\b/, remedy);
    await refused(job(name, 'one'), /^job\.yaml:1:6 job\b/, remedy);
  });

  test.each(['".."', '"."', '"a/b"', '"../../etc/passwd"', '"/etc"', '"a\\\\b"', '"C:\\\\x"'])(
    '%s is a path',
    async (name) => {
      await refused(
        job('a', name),
        /^job\.yaml:5:12 parts\[0\]\.name: "[^"\n]*" is (a path|not a safe)/,
        remedy,
      );
      await refused(job(name, 'one'), /^job\.yaml:1:6 job: "[^"\n]*" is (a path|not a safe)/, remedy);
    },
  );

  test.each(['"a\\nb"', '"\\e[31m"', '"\\0"', '"\\x07"', '"\\u0085"', '"\\u2028"'])(
    '%s has what a terminal acts on, and is not printed',
    async (name) => {
      await refused(job('a', name), /^job\.yaml:5:12 parts\[0\]\.name/);
      await refused(job(name, 'one'), /^job\.yaml:1:6 job/);
    },
  );

  test('65, 300 and 9,000 characters', async () => {
    for (const length of [65, 300, 9000]) {
      const name = 'y'.repeat(length);
      await refused(job('a', name), new RegExp(`"y{20,60}…?" is ${length} characters long`), remedy);
      await refused(job(name, 'one'), new RegExp(`is ${length} characters long`), remedy);
    }
  });

  test('alike, alike but for capitals, and those of our own files', async () => {
    await refused(job('a', 'one', 'one'), /^job\.yaml:6:12 parts\[1\]\.name/, /one/);
    await refused(job('a', 'plates'), /is the folder of the print plates; choose another name/);
    await refused(job('a', 'summary.json'), remedy);
  });
});

describe('names of folders', () => {
  const to = (out: string) => runProgram(['plate', 'job.yaml', '--out', out, '--quiet'], { cwd });

  test(
    'that a disk does not take: said before anything is made',
    async () => {
      writeFileSync(join(cwd, 'job.yaml'), smallJob(20));
      const before = readdirSync(cwd);
      for (const out of ['x'.repeat(256), `a/${'x'.repeat(256)}/b`, `${'d/'.repeat(2100)}x`, 'ü'.repeat(128)])
        expectClear(await to(out), 1, /The name of \S* is too long for this disk\. Choose a shorter name\./);
      expectClear(
        await to('a\nb'),
        2,
        /^--out has a line break or control character; write one line of text\n$/,
      );
      expectClear(await to('\u001b[31m'), 2, /^--out has a line break or control character/);
      expectClear(await to(' '), 2, /^--out is empty; give a folder\n$/);
      expectClear(
        await to('.'),
        1,
        /is the folder this command runs in, or holds it\. Name a folder inside it/,
      );
      expectClear(await to('..'), 1, /is the folder this command runs in, or holds it/);
      expectClear(await to('/'), 1, /is the root of a disk|holds it/);
      expect(readdirSync(cwd)).toEqual(before);
    },
    patience,
  );

  test(
    'as long as a disk takes, and of two Unicode forms, which are two names',
    async () => {
      writeFileSync(join(cwd, 'job.yaml'), smallJob(20));
      const names = ['x'.repeat(255), '\u00e9', 'e\u0301'];
      const made: (readonly string[])[] = [];
      for (const out of names) {
        expect(await to(out)).toMatchObject({ code: 0, err: '' });
        expect(await to(out)).toMatchObject({ code: 0, err: '' });
        made.push(listing(join(cwd, out)));
      }
      expect(new Set(made.map((files) => JSON.stringify(files))).size).toBe(1);
      expect(readdirSync(cwd).filter((name) => name.startsWith('.'))).toEqual([]);
      expect(existsSync(join(cwd, 'x'.repeat(255), 'summary.json'))).toBe(true);
    },
    patience,
  );
});
