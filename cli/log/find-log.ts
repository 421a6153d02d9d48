import { join, relative } from 'node:path';
import type { LearntGrowth } from '../../core/job/logged-growth.js';
import { logFileName } from '../../core/log/file-name.js';
import { Failure } from '../failure.js';
import { isFile, upwards } from '../find-shop.js';
import type { Io } from '../io.js';

/**
 * What the log that holds for a job teaches; undefined where there is none. It is the nearest `pour-log.jsonl` upwards from its folder. What of it
 * cannot be read is told, and no reason to stop.
 */
export async function findLog(io: Io, folder: string): Promise<LearntGrowth | undefined> {
  for (const path of upwards(folder).map((f) => join(f, logFileName))) {
    if (!(await isFile(path))) continue;
    const shorter = relative(io.cwd, path);
    try {
      const { readLog } = await import('./read-log.js');
      const { growthFromLog } = await import('../../core/log/growth.js');
      const { records } = await readLog(io, shorter.length < path.length ? shorter : path);
      return (alloy, investment) => growthFromLog(records, alloy, investment);
    } catch (error) {
      if (!(error instanceof Failure)) throw error;
      io.err(`${error.message}\n`);
      return undefined;
    }
  }
  return undefined;
}
