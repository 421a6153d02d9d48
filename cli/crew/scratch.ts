/** A run's own folder for what is large, where the system has temporary files. A killed run leaves its behind. */
import { lstat, readdir, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { isStale, thisHost } from '../../core/files/folder-siblings.js';

/** @param id 16 hexadecimal digits that are this run's alone */
export const scratchFolder = (id: string): string =>
  join(tmpdir(), `patternwright-${thisHost}-${process.pid}-${id}`);

const name = /^patternwright-([0-9a-f]{8})-(\d+)-[0-9a-f]{16}$/;

/** Deletes what this user's runs that are no more have left; says nothing where it cannot. */
export async function clearScratch(): Promise<void> {
  const folder = tmpdir();
  for (const entry of await readdir(folder).catch(() => [])) {
    const match = name.exec(entry);
    if (match === null) continue;
    const path = join(folder, entry);
    const facts = await lstat(path).catch(() => undefined);
    if (!facts?.isDirectory() || facts.uid !== (process.getuid?.() ?? facts.uid)) continue;
    if (!isStale({ host: match[1] as string, pid: Number(match[2]) }, facts.mtimeMs)) continue;
    await rm(path, { recursive: true, force: true }).catch(() => undefined);
  }
}
