import { homedir } from 'node:os';
import { isAbsolute, join, resolve } from 'node:path';

export interface CacheSearch {
  readonly cwd: string;
  /** What `--cache` gives. */
  readonly option?: string | undefined;
  readonly env?: NodeJS.ProcessEnv;
  readonly platform?: NodeJS.Platform;
  readonly home?: string;
}

/**
 * The folder that parts are kept in from run to run; undefined for none. What `--cache` names, else
 * `PATTERNWRIGHT_CACHE`, else the user's caches as the system has them. `none` means none in both.
 */
export function findCache(search: CacheSearch): string | undefined {
  const { cwd, option, env = process.env, platform = process.platform } = search;
  const named = option ?? env.PATTERNWRIGHT_CACHE;
  if (named === 'none') return undefined;
  if (named) return resolve(cwd, named);
  const home = search.home ?? ownHome();
  if (!isAbsolute(home)) return undefined;
  return join(...userCaches(env, platform, home));
}

function userCaches(
  env: NodeJS.ProcessEnv,
  platform: NodeJS.Platform,
  home: string,
): readonly [string, ...string[]] {
  if (platform === 'win32')
    return [env.LOCALAPPDATA || join(home, 'AppData', 'Local'), 'patternwright', 'cache'];
  if (platform === 'darwin') return [home, 'Library', 'Caches', 'patternwright'];
  // XDG Base Directory Specification: a path that is not absolute is to be ignored.
  const { XDG_CACHE_HOME: set = '' } = env;
  return [isAbsolute(set) ? set : join(home, '.cache'), 'patternwright'];
}

/** Empty for a user that the system knows no home of. */
function ownHome(): string {
  try {
    return homedir();
  } catch {
    return '';
  }
}
