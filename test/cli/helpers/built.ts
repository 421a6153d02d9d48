import { spawnSync } from 'node:child_process';
import { existsSync, mkdirSync, readdirSync, rmSync, statSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import type { Ran } from './in-process.js';

export const projectFolder = resolve(import.meta.dirname, '../../..');
export const builtMain = join(projectFolder, 'dist/cli/main.js');

const newest = (folder: string): number =>
  readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .reduce((time, entry) => Math.max(time, statSync(join(entry.parentPath, entry.name)).mtimeMs), 0);

const isFresh = (): boolean =>
  existsSync(builtMain) &&
  ['core', 'generators', 'cli'].every(
    (room) => newest(join(projectFolder, room)) <= statSync(builtMain).mtimeMs,
  );

const lock = join(tmpdir(), `patternwright-build-${Buffer.from(projectFolder).toString('hex').slice(-40)}`);

/** Builds `dist` unless it is newer than every source; test files that run at once take turns. */
export function ensureBuilt(): void {
  for (let waited = 0; !isFresh(); waited += 200) {
    try {
      mkdirSync(lock);
    } catch {
      // Another test file builds.
      if (waited > 120_000) throw new Error(`no build in two minutes; is ${lock} left over?`);
      Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0, 200);
      continue;
    }
    try {
      const built = spawnSync('npm', ['run', '-s', 'build'], { cwd: projectFolder, encoding: 'utf8' });
      if (built.status !== 0) throw new Error(`the build failed:\n${built.stdout}${built.stderr}`);
    } finally {
      rmSync(lock, { recursive: true });
    }
  }
}

export interface Spawned extends Ran {
  readonly signal: NodeJS.Signals | null;
}

/** One run of the built program, ended after `timeout` ms if it hangs. */
export function runBuilt(
  argv: readonly string[],
  options: {
    readonly cwd: string;
    readonly nodeArguments?: readonly string[];
    readonly env?: Readonly<Record<string, string>>;
    readonly timeout?: number;
    /** User to run as, where the tests are the super-user's. */
    readonly uid?: number;
  },
): Spawned {
  const { nodeArguments = [], env = {}, timeout = 60_000, cwd, uid } = options;
  const ran = spawnSync(process.execPath, [...nodeArguments, builtMain, ...argv], {
    cwd,
    env: { ...process.env, ...env },
    encoding: 'utf8',
    timeout,
    killSignal: 'SIGKILL',
    maxBuffer: 64 * 1024 * 1024,
    ...(uid === undefined ? {} : { uid, gid: uid }),
  });
  return { code: ran.status ?? -1, out: ran.stdout, err: ran.stderr, signal: ran.signal };
}
