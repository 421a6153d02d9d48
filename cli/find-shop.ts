import { stat } from 'node:fs/promises';
import { homedir } from 'node:os';
import { dirname, join, relative, resolve } from 'node:path';
import type { JobContext } from '../core/job/job-context.js';
import type { ShopKey } from '../core/job/open-source.js';
import { readSource } from './read-source.js';

/** Looked for in the folder of the job and above it. */
export const shopFileName = 'patternwright-shop.yaml';

/** Where the user's own settings lie (XDG Base Directory Specification). */
const userSettings = (env: NodeJS.ProcessEnv): string =>
  join(env.XDG_CONFIG_HOME || join(env.HOME || homedir(), '.config'), 'patternwright', 'shop.yaml');

export interface ShopSearch {
  readonly cwd: string;
  /** What the job says of its shop; left out where it cannot name one. */
  readonly job?: ShopKey;
  /** Where its relative paths start. */
  readonly folder: string;
  /** What `--shop` gives. */
  readonly option?: string | undefined;
  readonly env?: NodeJS.ProcessEnv;
}

/**
 * The shop profile that holds for a job: what `--shop` names, what the job names or brings itself, else the nearest
 * `patternwright-shop.yaml` upwards from the job's folder, else the user's own.
 * @throws Failure when a profile that is named cannot be read
 */
export async function findShop(search: ShopSearch): Promise<JobContext['shop']> {
  const { cwd, folder, option, env = process.env, job: key = null } = search;
  if (option === 'none' || key === 'own') return undefined;
  if (option !== undefined) return open(cwd, option);
  if (key !== null) return open(cwd, relative(cwd, resolve(folder, key.path)) || '.');
  for (const file of [...upwards(folder).map((f) => join(f, shopFileName)), userSettings(env)]) {
    if (await isFile(file)) return open(cwd, shownPath(cwd, file));
  }
  return undefined;
}

const open = async (cwd: string, file: string): Promise<NonNullable<JobContext['shop']>> => ({
  fileName: file,
  source: await readSource(cwd, file, 'shop profile'),
});

/** The folder and those above it, the nearest first. */
export function upwards(folder: string): readonly string[] {
  const above = dirname(folder);
  return above === folder ? [folder] : [folder, ...upwards(above)];
}

/** The path as messages name it: from the working folder where that is shorter. */
export function shownPath(cwd: string, path: string): string {
  const fromHere = relative(cwd, path);
  return fromHere.length < path.length ? fromHere : path;
}

export const isFile = (path: string): Promise<boolean> =>
  stat(path).then(
    (facts) => facts.isFile(),
    () => false,
  );
