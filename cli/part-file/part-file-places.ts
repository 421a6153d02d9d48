/** The part files of a job, for a thread that runs them again. */
import { createHash } from 'node:crypto';
import { readFile } from 'node:fs/promises';
import { resolve } from 'node:path';

export interface PartFilePlaces {
  readonly folder: string;
  /** What each held as the job was read, by the path that the job gives; '' where it could not be read. */
  readonly sums: ReadonlyMap<string, string>;
}

export async function partFilePlaces(folder: string, paths: readonly string[]): Promise<PartFilePlaces> {
  const sums = new Map<string, string>();
  for (const path of paths) sums.set(path, await sumOf(folder, path));
  return { folder, sums };
}

/** Those that hold something else by now, or have gone. */
export async function changedPartFiles({ folder, sums }: PartFilePlaces): Promise<ReadonlySet<string>> {
  const changed = new Set<string>();
  for (const [path, sum] of sums) if ((await sumOf(folder, path)) !== sum) changed.add(path);
  return changed;
}

const sumOf = (folder: string, path: string): Promise<string> =>
  readFile(resolve(folder, path)).then(
    (bytes) => createHash('sha256').update(bytes).digest('hex'),
    () => '',
  );
