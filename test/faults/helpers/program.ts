/** The built program, run from outside on a disk and by a clock that may fail it. */
import { spawn } from 'node:child_process';
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { expect } from 'vitest';
import { builtMain } from '../../cli/helpers/built.js';
import { accidents } from '../../cli/helpers/in-process.js';

/** What goes wrong while the program runs; `faulty-disk.js` does it. */
export interface Faults {
  readonly disk?: DiskFault;
  readonly clock?: {
    /** Milliseconds that the clock is ahead; less than 0 where it is behind. */
    readonly offset: number;
    /** Milliseconds after the start that it stays right. */
    readonly jumpAfter?: number;
  };
}

export interface DiskFault {
  /** Calls on paths that begin so are counted, from 1. */
  readonly watch: readonly string[];
  /** Which: all, those that change something on the disk, or those that open something. */
  readonly calls?: 'all' | 'writing' | 'opening';
  /** The call that is not made; none where it is left out. */
  readonly at?: number;
  /** All calls after it fail too. */
  readonly onwards?: boolean;
  /**
   * What happens instead: an error's code, a signal, a kill amid a write, another program that runs before it, or the end of
   * the thread that made the call, where that is not the program's first.
   */
  readonly fault?: ErrorCode | 'SIGKILL' | 'SIGTERM' | 'SIGINT' | 'torn' | 'meanwhile' | 'thread ends';
  readonly meanwhile?: readonly string[];
  /** A file that gets a line for every call. */
  readonly trace?: string;
}

export type ErrorCode = 'ENOSPC' | 'EDQUOT' | 'EIO' | 'EMFILE' | 'EROFS' | 'EACCES' | 'EPERM' | 'EBUSY';

export interface Ended {
  readonly code: number | null;
  readonly signal: NodeJS.Signals | null;
  readonly out: string;
  readonly err: string;
  readonly milliseconds: number;
}

export interface RunOptions {
  readonly cwd: string;
  readonly faults?: Faults;
  readonly env?: Readonly<Record<string, string>>;
  readonly nodeArguments?: readonly string[];
  /** Sent `after` ms from the start, or as soon as a file is there. */
  readonly kill?: { readonly signal: NodeJS.Signals } & (
    | { readonly after: number }
    | { readonly when: string }
  );
  readonly uid?: number;
}

const preload = join(import.meta.dirname, 'faulty-disk.js');

/** No run of these tests is this long: one that is hangs, ms. */
const hang = 300_000;

export function runProgram(argv: readonly string[], options: RunOptions): Promise<Ended> {
  const { cwd, faults, env = {}, nodeArguments = [], kill, uid } = options;
  const started = performance.now();
  const child = spawn(
    process.execPath,
    [...nodeArguments, ...(faults ? ['--import', preload] : []), builtMain, ...argv],
    {
      cwd,
      env: { ...process.env, ...env, ...(faults && { FAULTS: JSON.stringify(faults) }) },
      stdio: ['ignore', 'pipe', 'pipe'],
      ...(uid === undefined ? {} : { uid, gid: uid }),
    },
  );
  const said = { out: '', err: '' };
  child.stdout.setEncoding('utf8').on('data', (text: string) => {
    said.out += text;
  });
  child.stderr.setEncoding('utf8').on('data', (text: string) => {
    said.err += text;
  });
  const timers = [setTimeout(() => child.kill('SIGKILL'), hang)];
  if (kill && 'after' in kill) timers.push(setTimeout(() => child.kill(kill.signal), kill.after));
  if (kill && 'when' in kill) {
    const look = setInterval(() => {
      if (!existsSync(kill.when)) return;
      clearInterval(look);
      child.kill(kill.signal);
    }, 20);
    timers.push(look);
  }
  return new Promise((resolve, reject) => {
    child.on('error', reject);
    child.on('close', (code, signal) => {
      for (const timer of timers) clearTimeout(timer);
      resolve({ code, signal, ...said, milliseconds: performance.now() - started });
    });
  });
}

/** Works through items in so many lanes at once; each lane's number comes with the item. */
export async function inLanes<T>(
  lanes: number,
  items: readonly T[],
  work: (item: T, lane: number) => Promise<void>,
): Promise<void> {
  const left = [...items];
  let failed = false;
  const lane = async (_: unknown, number: number): Promise<void> => {
    for (let item = left.shift(); item !== undefined && !failed; item = left.shift()) {
      try {
        await work(item, number);
      } catch (error) {
        failed = true;
        throw error;
      }
    }
  };
  await Promise.all(Array.from({ length: lanes }, lane));
}

/** A run that failed said so: in whole sentences, with every one of `words`, and nothing on standard output. */
export function expectClear(ended: Ended, code: number, ...words: readonly (RegExp | string)[]): void {
  expect({ code: ended.code, out: ended.out, err: ended.err }).toMatchObject({ code, out: '' });
  expect(ended.err).not.toMatch(accidents);
  expect(ended.err).not.toMatch(/^ {4}at /m);
  // biome-ignore lint/suspicious/noControlCharactersInRegex: control characters are what is looked for
  expect(ended.err).not.toMatch(/[\x00-\x09\x0b-\x1f\x7f]/);
  for (const word of words) expect(ended.err).toMatch(word);
}
