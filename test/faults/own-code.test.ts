/** Part files of somebody's own that do what no part should, in a batch: it costs the part, and is told with its file. */
import { existsSync, mkdirSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, describe, expect, test } from 'vitest';
import { ensureBuilt } from '../cli/helpers/built.js';
import { temporaryFolder } from '../cli/helpers/folders.js';
import { partSource, writeFiles } from '../cli/helpers/part-files.js';
import { type Ended, expectClear, type RunOptions, runProgram } from './helpers/program.js';

beforeAll(ensureBuilt);

const root = temporaryFolder();
const patience = 300_000;

/** A job with a sound part before and after, and one of a sound file at the end. */
const jobWith = (files: readonly string[]): string =>
  [
    'job: a',
    'tolerance: 0.2',
    'freeze: off',
    'parts:',
    '  - {name: first, part: hatch-pull, parameters: {size: 20}}',
    ...files.map((file) => `  - {name: of-${file}, part: ./${file}.mjs}`),
    '  - {name: last, part: rack, parameters: {teeth: 5}}',
    '  - {name: sound, part: ./sound.mjs}',
    '',
  ].join('\n');

interface Batch {
  readonly cwd: string;
  readonly temporary: string;
  run(argv?: readonly string[], options?: Partial<RunOptions>): Promise<Ended>;
}

/** What each file does amid its build, or `before` its definition. */
function batchOf(name: string, steps: Readonly<Record<string, string>>, before = ''): Batch {
  const cwd = join(root, name);
  const temporary = join(cwd, 'tmp');
  mkdirSync(temporary, { recursive: true });
  const sources = Object.entries(steps).map(([file, code]) => [
    `${file}.mjs`,
    partSource({ steps: code, before }),
  ]);
  writeFiles(cwd, {
    ...(Object.fromEntries(sources) as Record<string, string>),
    'sound.mjs': partSource(),
    'job.yaml': jobWith(Object.keys(steps)),
  });
  return {
    cwd,
    temporary,
    run: (argv = [], options = {}) =>
      runProgram(['plate', 'job.yaml', '--out', 'out', '--quiet', '--threads', '2', ...argv], {
        cwd,
        env: { TMPDIR: temporary },
        ...options,
      }),
  };
}

const madeIn = ({ cwd }: Batch): readonly string[] =>
  readdirSync(join(cwd, 'out'), { withFileTypes: true })
    .filter((entry) => entry.isDirectory() && entry.name !== 'plates')
    .map((entry) => entry.name)
    .sort();

const steps = {
  exits: 'process.exit(0);',
  throws: "throw new Error('made up');",
  'exits-late': 'setTimeout(() => process.exit(0), 0);',
  'throws-late': "setTimeout(() => { throw new Error('too late'); }, 0);",
  rejects: "Promise.reject(new Error('nobody waits'));",
};
const told: Readonly<Record<keyof typeof steps, RegExp>> = {
  exits: /^stop: of-exits: In \.\/exits\.mjs:\d+:\d+, build called process\.exit\./m,
  throws: /^stop: of-throws: In \.\/throws\.mjs:\d+:\d+, build failed: made up\./m,
  'exits-late':
    /^stop: of-exits-late: What build of \.\/exits-late\.mjs had begun .*process\.exit was called\./m,
  'throws-late': /^stop: of-throws-late: What build of \.\/throws-late\.mjs .*mjs:\d+:\d+: too late\./m,
  rejects: /^stop: of-rejects: What build of \.\/rejects\.mjs .*mjs:\d+:\d+: nobody waits\./m,
};

describe('ending, throwing, at once and later', () => {
  test(
    'costs each its own part; the others are made',
    async () => {
      const batch = batchOf('all', steps);
      const ended = await batch.run();
      expectClear(ended, 3, ...Object.values(told), /^Not made: 5 of 8 parts/m);
      expect(madeIn(batch)).toEqual(['first', 'last', 'sound']);
      expect(readdirSync(batch.temporary)).toEqual([]);
    },
    patience,
  );

  test(
    'all or nothing: each is told, nothing is written',
    async () => {
      const { throws, rejects } = steps;
      const batch = batchOf('none', { throws, rejects });
      const ended = await batch.run(['--no-keep-going']);
      expectClear(ended, 1, told.throws, told.rejects, /^Nothing was written\.$/m);
      expect(readdirSync(batch.cwd)).not.toContain('out');
      expect(readdirSync(batch.temporary)).toEqual([]);
    },
    patience,
  );
});

test(
  'filling memory costs its own part',
  async () => {
    const fill = 'const list = []; for (;;) list.push({ at: list.length, more: [1, 2, 3] });';
    const batch = batchOf('greedy', { greedy: fill });
    const ended = await batch.run([], { nodeArguments: ['--max-old-space-size=200'] });
    expectClear(ended, 3, /^stop: of-greedy: In \.\/greedy\.mjs, build takes more memory than there is\./m);
    expect(madeIn(batch)).toEqual(['first', 'last', 'sound']);
  },
  patience,
);

test.each(['SIGINT', 'SIGTERM'] as const)(
  'a loop without end: %s ends the run and tells which part it was at',
  async (signal) => {
    const loop = "writeFileSync('begun', ''); for (;;);";
    const batch = batchOf(signal, { endless: loop }, "import { writeFileSync } from 'node:fs';");
    const when = join(batch.cwd, 'begun');
    const ended = await batch.run([], { kill: { signal, when } });
    expect(ended.signal).toBe(signal);
    expect(ended.err).toMatch(
      /^Interrupted\.\nNothing was written\.\nIn work, the longest first: .*of-endless \(\.\/endless\.mjs\).*\.\n.*the same command/is,
    );
    expect(existsSync(join(batch.cwd, 'out'))).toBe(false);
    expect(readdirSync(batch.temporary)).toEqual([]);
  },
  patience,
);
