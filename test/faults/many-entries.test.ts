/** Jobs of ten thousand parts: read within bounds, told where they are wrong. */
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, describe, expect, test } from 'vitest';
import { ensureBuilt } from '../cli/helpers/built.js';
import { listing, temporaryFolder } from '../cli/helpers/folders.js';
import { expectClear, runProgram } from './helpers/program.js';

beforeAll(ensureBuilt);

const cwd = temporaryFolder();
const patience = 600_000;
const most = 10_000;

const kinds = [
  'hatch-pull, parameters: {size: 20}',
  'rack, parameters: {teeth: 5}',
  'hatch-pull, parameters: {size: 22}',
];
const entry = (i: number, what = kinds[i % kinds.length]!): string => `  - {name: p${i}, part: ${what}}`;
const head = ['job: big', 'tolerance: 0.2', 'freeze: off', 'parts:'];
const entries = (count: number): readonly string[] => Array.from({ length: count }, (_, i) => entry(i));

/** Runs with 400 MB for objects, a fraction of what a machine has. */
const run = async (lines: readonly string[], ...more: readonly string[]) => {
  writeFileSync(join(cwd, 'job.yaml'), `${[...head, ...lines].join('\n')}\n`);
  return runProgram(['plate', 'job.yaml', '--out', 'out', '--quiet', ...more], {
    cwd,
    nodeArguments: ['--max-old-space-size=400'],
  });
};

describe(`a job of ${most} parts`, () => {
  test(
    'with a mistake in its last line is told where',
    async () => {
      const ended = await run([...entries(most - 1), entry(most, 'hatch-pul')]);
      expectClear(
        ended,
        2,
        /^job\.yaml:10004:\d+ parts\[9999\]\.part is hatch-pul; did you mean hatch-pull\?\n$/,
      );
    },
    patience,
  );

  test(
    'and one more is refused in words',
    async () => {
      expectClear(await run(entries(most + 1)), 2, /^job\.yaml:5:3 parts has 10001 parts; at most 10000\n$/);
    },
    patience,
  );

  test(
    'with a name twice, first and last, is told by the last',
    async () => {
      const ended = await run([...entries(most - 1), entry(0)]);
      expectClear(ended, 2, /^job\.yaml:10004:\d+ parts\[9999\]\.name.*p0/);
    },
    patience,
  );

  test(
    'all of them wrong: told in a few lines, not in ten thousand',
    async () => {
      const ended = await run(Array.from({ length: most }, (_, i) => entry(i, 'hatch-pul')));
      expectClear(ended, 2, /^job\.yaml:5:\d+ parts\[0\]\.part/);
      expect(ended.err.split('\n').length).toBeLessThan(200);
    },
    patience,
  );
});

test(
  'hundreds of copies of a few kinds are made, and are the same in any number of threads',
  async () => {
    expect(await run(entries(120), '--threads', '2')).toMatchObject({ code: 0, out: '', err: '' });
    const two = listing(join(cwd, 'out'));
    expect(two.length).toBeGreaterThan(120 * 7);
    expect(await run(entries(120), '--threads', '1')).toMatchObject({ code: 0, out: '', err: '' });
    expect(listing(join(cwd, 'out'))).toEqual(two);
  },
  patience,
);
