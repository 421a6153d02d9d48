/** Readers that go away, disks that are full where output is sent, terminals. */
import { spawn } from 'node:child_process';
import { closeSync, existsSync, openSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, describe, expect, test } from 'vitest';
import { builtMain, ensureBuilt } from './helpers/built.js';
import { temporaryFolder } from './helpers/folders.js';

beforeAll(ensureBuilt);

const cwd = temporaryFolder();
const gear = ['make', 'spur-gear', '--teeth', '17', '--tolerance', '0.2'];

interface Ended {
  readonly code: number | null;
  readonly out: string;
  readonly err: string;
}

/** Runs the built program; `leave` closes the reading end of its output before it starts to write. */
function runPiped(
  argv: readonly string[],
  { leave = false, out = 'pipe' as 'pipe' | number, err = 'pipe' as 'pipe' | number } = {},
): Promise<Ended> {
  const child = spawn(process.execPath, [builtMain, ...argv], { cwd, stdio: ['ignore', out, err] });
  const said = { out: '', err: '' };
  child.stdout?.setEncoding('utf8').on('data', (text: string) => {
    said.out += text;
  });
  child.stderr?.setEncoding('utf8').on('data', (text: string) => {
    said.err += text;
  });
  if (leave) child.stdout?.destroy();
  return new Promise((resolve, reject) => {
    child.on('error', reject);
    child.on('close', (code) => resolve({ code, ...said }));
  });
}

test.each([[['make', 'hatch-pull', '--help']], [['list', 'alloys', '--json']], [['--help']]])(
  '%j, whose reader goes away: no error, no message',
  async (argv) => {
    expect(await runPiped(argv, { leave: true })).toEqual({ code: 0, out: '', err: '' });
  },
);

test('a job whose reader goes away is written all the same', async () => {
  const ran = await runPiped([...gear, '--out', 'left', '--json'], { leave: true });
  expect(ran).toEqual({ code: 0, out: '', err: '' });
  expect(existsSync(join(cwd, 'left/summary.json'))).toBe(true);
});

/** The device on which every write fails as on a full disk. */
const full = '/dev/full';

describe.skipIf(!existsSync(full))('output to a full disk', () => {
  const withFull = async (run: (file: number) => Promise<Ended>): Promise<Ended> => {
    const file = openSync(full, 'w');
    try {
      return await run(file);
    } finally {
      closeSync(file);
    }
  };

  test.each([[['list', 'alloys', '--json']], [['make', 'rack', '--help']], [[...gear, '--out', 'told']]])(
    '%j: one message, exit 1',
    async (argv) => {
      const ran = await withFull((out) => runPiped(argv, { out }));
      expect(ran).toEqual({ code: 1, out: '', err: 'Standard output cannot be written (ENOSPC).\n' });
    },
  );

  test('messages that cannot be told leave the exit code', async () => {
    const ran = await withFull((err) => runPiped(['list', 'aloys', '--json'], { err }));
    expect(ran).toMatchObject({ code: 2, err: '' });
    expect(JSON.parse(ran.out)).toMatchObject({ problems: [{ code: 'unknown-list' }] });
  });
});

test('no progress and no control characters in a pipe', async () => {
  const ran = await runPiped([...gear, '--out', 'piped']);
  expect(ran).toMatchObject({ code: 0, err: '' });
  expect(ran.out.replaceAll('\n', '')).not.toMatch(/\p{Cc}/u);
});
