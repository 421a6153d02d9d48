import { join } from 'node:path';
import type { LearntGrowth } from '../../core/job/logged-growth.js';
import { logFileName } from '../../core/log/file-name.js';
import { Failure } from '../failure.js';
import { isFile, shownPath, upwards } from '../find-shop.js';
import type { Io } from '../io.js';

/**
 * What the log that holds for a job teaches; undefined where there is none. It is the nearest `pour-log.jsonl` upwards
 * from its folder. What of it cannot be read is told, and no reason to stop.
 */
export async function findLog(io: Io, folder: string): Promise<LearntGrowth | undefined> {
  for (const path of upwards(folder).map((f) => join(f, logFileName))) {
    if (!(await isFile(path))) continue;
    try {
      const { readLog } = await import('./read-log.js');
      const { growthFromLog } = await import('../../core/log/growth.js');
      const { records } = await readLog(io, shownPath(io.cwd, path));
      return (alloy, investment) => growthFromLog(records, alloy, investment);
    } catch (error) {
      if (!(error instanceof Failure)) throw error;
      io.err(`${error.message}\n`);
      return undefined;
    }
  }
  return undefined;
}
