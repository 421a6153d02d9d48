import { spawn, spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';

export interface Measured {
  /** Seconds by the clock. */
  readonly wall: number;
  /** Seconds of processor, of all threads. */
  readonly processor: number;
  /** Most memory held at any time, MiB. */
  readonly memory: number;
  readonly out: string;
}

const meter = pathToFileURL(join(import.meta.dirname, 'meter.mjs')).href;

/** Whether a process can be kept to one core here, as util-linux does it. */
export const canKeepToOneCore = spawnSync('taskset', ['-c', '0', 'true']).status === 0;

/**
 * One run of a Node program as a process of its own, measured from within as it ends; its folder, unless given, goes
 * with it. `onOneCore` keeps all its threads to one core, where `canKeepToOneCore`.
 * @throws Error where it ends with another code than 0: nothing that failed is measured
 */
export async function measureChild(
  script: string,
  args: readonly string[],
  options: { readonly cwd?: string; readonly onOneCore?: boolean } = {},
): Promise<Measured> {
  const folder = mkdtempSync(join(tmpdir(), 'patternwright-meter-'));
  const told = join(folder, 'usage.json');
  try {
    const begun = performance.now();
    const { code, out, err } = await run(
      ['--import', meter, script, ...args],
      options.cwd ?? folder,
      { BENCH_METER: told },
      options.onOneCore ? ['taskset', '-c', '0'] : [],
    );
    const wall = (performance.now() - begun) / 1e3;
    if (code !== 0) throw new Error(`${script} ${args.join(' ')} ended with ${code}:\n${out}\n${err}`);
    const usage = JSON.parse(readFileSync(told, 'utf8')) as NodeJS.ResourceUsage;
    return {
      wall,
      processor: (usage.userCPUTime + usage.systemCPUTime) / 1e6,
      memory: usage.maxRSS / 1024,
      out,
    };
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

/** Milliseconds that one bare run of Node takes, nothing hooked into it. */
export async function timeNode(args: readonly string[], cwd: string): Promise<number> {
  const begun = performance.now();
  const { code, out, err } = await run(args, cwd, {});
  const time = performance.now() - begun;
  if (code !== 0) throw new Error(`node ${args.join(' ')} ended with ${code}:\n${out}\n${err}`);
  return time;
}

function run(
  args: readonly string[],
  cwd: string,
  env: Readonly<Record<string, string>>,
  before: readonly string[] = [],
): Promise<{ code: number | null; out: string; err: string }> {
  return new Promise((resolve, reject) => {
    const [command, ...rest] = [...before, process.execPath, ...args] as [string, ...string[]];
    const child = spawn(command, rest, {
      cwd,
      env: {
        ...process.env,
        XDG_CONFIG_HOME: '/nonexistent',
        PATTERNWRIGHT_CACHE: 'none',
        NODE_OPTIONS: '',
        ...env,
      },
      stdio: ['ignore', 'pipe', 'pipe'],
    });
    let [out, err] = ['', ''];
    child.stdout.setEncoding('utf8').on('data', (text: string) => {
      out += text;
    });
    child.stderr.setEncoding('utf8').on('data', (text: string) => {
      err += text;
    });
    child.on('error', reject);
    child.on('close', (code) => resolve({ code, out, err }));
  });
}
