import { lstat, readdir, rm, utimes } from 'node:fs/promises';
import { join } from 'node:path';

/** What kept parts may take between runs, bytes. */
export const usualLimit = 2e9;

const day = 24 * 3600 * 1000;

/**
 * Deletes the parts used longest ago until the others take no more than `limit` bytes, and what killed runs left half
 * written. Another run may be at work: what it misses it makes anew. What cannot be deleted stays.
 * @param now milliseconds, for tests
 */
export async function pruneFolder(folder: string, limit = usualLimit, now = Date.now()): Promise<void> {
  const kept: { readonly path: string; readonly size: number; readonly used: number }[] = [];
  for (const name of await readdir(folder).catch(() => [])) {
    const isEntry = entryName.test(name);
    if (!isEntry && !halfName.test(name)) continue;
    const path = join(folder, name);
    const facts = await lstat(path).catch(() => undefined);
    if (facts === undefined) continue;
    const { size, mtimeMs } = facts;
    if (!facts.isFile() || (isEntry && size > limit)) await drop(path);
    // No run takes a day to write a part, whichever way the clock has been set since.
    else if (!isEntry) await (Math.abs(now - mtimeMs) > day ? drop(path) : undefined);
    else {
      kept.push({ path, size, used: mtimeMs });
      // Used by a clock that was ahead: from now on it ages like the others.
      if (mtimeMs > now + day) await utimes(path, now / 1000, now / 1000).catch(() => undefined);
    }
  }
  kept.sort((a, b) => a.used - b.used || (a.path < b.path ? -1 : 1));
  let total = kept.reduce((sum, { size }) => sum + size, 0);
  for (const { path, size } of kept) {
    if (total <= limit) return;
    await drop(path);
    total -= size;
  }
}

export const entryFile = (key: string): string => `${key}.part`;
/** While it is written. */
export const halfFile = (key: string, number: string): string => `${key}.${number}.half`;

const entryName = /^[0-9a-f]{64}\.part$/;
const halfName = /^[0-9a-f]{64}\.[0-9a-f]+\.half$/;

/** Deletes what stands there, whatever it is; a link, not what it leads to. */
export const drop = (path: string): Promise<void> =>
  rm(path, { recursive: true, force: true }).catch(() => undefined);
