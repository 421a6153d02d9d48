import { join, relative } from 'node:path';
import { logFileName } from '../../core/log/line.js';
import type { PourRecord } from '../../core/log/record.js';
import { Failure } from '../failure.js';
import { isFile, upwards } from '../find-shop.js';
import type { Io } from '../io.js';
import { readLog } from './read-log.js';

/**
 * The records of the log that holds for a job: the nearest `pour-log.jsonl` upwards from its folder. What of it
 * cannot be read is told, and no reason to stop.
 */
export async function findLog(io: Io, folder: string): Promise<readonly PourRecord[]> {
  for (const path of upwards(folder).map((f) => join(f, logFileName))) {
    if (!(await isFile(path))) continue;
    const shorter = relative(io.cwd, path);
    try {
      return (await readLog(io, shorter.length < path.length ? shorter : path)).records;
    } catch (error) {
      if (!(error instanceof Failure)) throw error;
      io.err(`${error.message}\n`);
      return [];
    }
  }
  return [];
}
