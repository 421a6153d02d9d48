import { spawnSync } from 'node:child_process';
import {
  chmodSync,
  cpSync,
  existsSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { temporaryFolder } from './folders.js';
import type { Ran } from './in-process.js';

export const projectFolder = resolve(import.meta.dirname, '../../..');
const dist = join(projectFolder, 'dist');

/** The test file's own copy of the built program: a build that somebody starts meanwhile does not disturb it. */
const copy = temporaryFolder();
export const builtMain = join(copy, 'dist/cli/main.js');

const newest = (...folders: readonly string[]): number =>
  folders
    .flatMap((folder) => readdirSync(folder, { recursive: true, withFileTypes: true }))
    .filter((entry) => entry.isFile())
    .reduce((time, entry) => Math.max(time, statSync(join(entry.parentPath, entry.name)).mtimeMs), 0);

const isFresh = (): boolean =>
  existsSync(join(dist, 'cli/main.js')) &&
  newest(...['core', 'generators', 'cli'].map((room) => join(projectFolder, room))) <= newest(dist);

const lock = join(tmpdir(), `patternwright-build-${Buffer.from(projectFolder).toString('hex').slice(-40)}`);

const pause = (milliseconds: number): void => {
  Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0, milliseconds);
};

/** Puts the built program at `builtMain`, built anew if a source is newer. Test files that run at once take turns. */
export function ensureBuilt(): void {
  for (let tries = 0; !tryLock(); tries++) {
    if (tries > 600) throw new Error(`no build in two minutes; is ${lock} left over?`);
    pause(200);
  }
  try {
    if (!isFresh()) build();
    copyDist();
  } finally {
    rmSync(lock, { force: true });
  }
}

function tryLock(): boolean {
  try {
    // Whole at once, with who holds it: another may look at any moment.
    writeFileSync(lock, String(process.pid), { flag: 'wx' });
    return true;
  } catch {
    // A test run that was killed leaves its lock.
    if (!isHeld()) rmSync(lock, { recursive: true, force: true });
    return false;
  }
}

function isHeld(): boolean {
  try {
    const holder = Number(readFileSync(lock, 'utf8'));
    // Not yet written.
    if (holder === 0) return true;
    process.kill(holder, 0);
    return true;
  } catch (error) {
    return (error as NodeJS.ErrnoException).code === 'EPERM';
  }
}

function build(): void {
  const built = spawnSync('npm', ['run', '-s', 'build'], { cwd: projectFolder, encoding: 'utf8' });
  if (built.status !== 0) throw new Error(`the build failed:\n${built.stdout}${built.stderr}`);
}

function copyDist(): void {
  let before: number;
  // A build started by hand writes while this copies; then the copy is taken again.
  do {
    pause(100);
    before = newest(dist);
    cpSync(dist, join(copy, 'dist'), { recursive: true, force: true });
  } while (newest(dist) !== before);
  cpSync(join(projectFolder, 'package.json'), join(copy, 'package.json'));
  if (!existsSync(join(copy, 'node_modules')))
    symlinkSync(join(projectFolder, 'node_modules'), join(copy, 'node_modules'), 'junction');
  // Some tests run the program as another user.
  chmodSync(copy, 0o755);
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
  const { nodeArguments = [], env = {}, timeout = 300_000, cwd, uid } = options;
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
