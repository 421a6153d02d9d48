import { dirname, isAbsolute, join, relative, resolve, sep } from 'node:path';
import { describeFailure, FolderError, systemCode, unconfirmed } from './folder-error.js';
import { moveIntoPlace, tries } from './folder-exchange.js';
import { discard, recoverWith, siblingPath } from './folder-siblings.js';
import { type FolderSystem, nodeFolderSystem, syncFolder } from './folder-system.js';
import { makeParents } from './make-parents.js';
import { MakersError, type OutputFile, putFile } from './output-file.js';
import { checkOutputPath, PathSet } from './output-path.js';
import { checkReplaceable } from './replaceable-folder.js';

export type { OutputFile } from './output-file.js';

export interface WriteFolderOptions {
  /** For tests: the file system to use. */
  readonly system?: FolderSystem;
}

/**
 * Writes an output folder as a whole: the files go to a new folder beside `finalPath`, each flushed to the disk,
 * and that folder is then renamed into place. Whatever happens before, `finalPath` is the old folder or the
 * new one, whole. Where an old one is replaced it is first renamed aside; a kill in the short time between
 * those two renames leaves `finalPath` missing and the old folder whole beside it, and the next `writeFolder` or
 * `recoverFolder` puts it back.
 *
 * Replaces only a missing or empty folder, or one with a `summary.json` that has a `schemaVersion`; all that is
 * in such a folder goes. Errors thrown while `files`, or the pieces of one, are made are passed on, with nothing left
 * behind.
 *
 * @throws FolderError for unsafe paths, a folder that is not this program's, a full or read-only disk.
 */
export async function writeFolder(
  finalPath: string,
  files: Iterable<OutputFile> | AsyncIterable<OutputFile>,
  options: WriteFolderOptions = {},
): Promise<void> {
  const system = options.system ?? nodeFolderSystem;
  const target = resolve(finalPath);
  const parent = dirname(target);
  const partial = siblingPath(target, 'partial');
  let firstMade: string | undefined;
  try {
    await inWords(target, async () => {
      await checkPlace(system, target);
      await recoverWith(system, target);
      await checkReplaceable(system, target);
      firstMade = await makePartial(system, partial);
    });
    await writeAll(system, partial, target, files);
    await inWords(target, async () => {
      if (firstMade !== undefined) await syncParents(system, parent, firstMade);
      await moveIntoPlace(system, partial, target);
    });
  } catch (error) {
    await discard(system, partial);
    if (firstMade !== undefined) await removeEmptyUp(system, parent, firstMade);
    throw error;
  }
}

/**
 * Puts an output folder back that a killed run left aside, and deletes what dead runs left beside it. Call it
 * before reading an output folder; `writeFolder` does so itself. Returns whether a folder was put back.
 */
export const recoverFolder = (finalPath: string, options: WriteFolderOptions = {}): Promise<boolean> => {
  const target = resolve(finalPath);
  return inWords(target, () => recoverWith(options.system ?? nodeFolderSystem, target));
};

/**
 * Checks, before any long work, that `writeFolder` may replace what is at `finalPath` now, and that its disk takes a
 * folder beside it: one is made there and taken away again.
 *
 * @throws FolderError `foreign-folder`, `not-a-folder`, `symlink` or `folder-in-use`, or as `writeFolder` does.
 */
export const checkFolder = (finalPath: string, options: WriteFolderOptions = {}): Promise<void> => {
  const target = resolve(finalPath);
  const system = options.system ?? nodeFolderSystem;
  return inWords(target, async () => {
    await checkPlace(system, target);
    await checkReplaceable(system, target);
    await tryPlace(system, target);
  });
};

/** Makes a folder beside the target, as writing does first, and takes away what it made. */
async function tryPlace(system: FolderSystem, target: string): Promise<void> {
  const partial = siblingPath(target, 'partial');
  const firstMade = await makePartial(system, partial);
  try {
    await system.rmdir(partial);
  } catch (error) {
    await discard(system, partial);
    throw error;
  } finally {
    if (firstMade !== undefined) await removeEmptyUp(system, dirname(target), firstMade);
  }
}

/** Makes the folder and the parents it lacks, all or none; returns the first parent made. */
async function makePartial(system: FolderSystem, partial: string): Promise<string | undefined> {
  let firstMade: string | undefined;
  for (let i = 0; ; i++) {
    firstMade ??= await makeParents(system, dirname(partial));
    try {
      await system.mkdir(partial);
      return firstMade;
    } catch (error) {
      // Another run that failed may have removed the empty parent it had made.
      if (systemCode(error) === 'ENOENT' && i < tries) continue;
      if (firstMade !== undefined) await removeEmptyUp(system, dirname(partial), firstMade);
      throw error;
    }
  }
}

/** Files on their way from the system's memory to the disk while others are written. */
const mostFlushed = 8;

async function writeAll(
  system: FolderSystem,
  partial: string,
  target: string,
  files: Iterable<OutputFile> | AsyncIterable<OutputFile>,
): Promise<void> {
  const paths = new PathSet();
  const folders = new Set<string>();
  const flushes = new Set<Promise<void>>();
  const write = async (parts: readonly string[], file: OutputFile): Promise<void> => {
    for (let i = 1; i < parts.length; i++) {
      const folder = join(partial, ...parts.slice(0, i));
      if (folders.has(folder)) continue;
      await system.mkdir(folder);
      folders.add(folder);
    }
    const shown = join(target, ...parts);
    const handle = await putFile(system, join(partial, ...parts), file, shown);
    const flush = inWords(shown, () => handle.sync().finally(() => handle.close())).then(
      () => void flushes.delete(flush),
    );
    // A failure stays among them, to be told.
    flush.catch(() => undefined);
    flushes.add(flush);
    if (flushes.size >= mostFlushed) await Promise.race(flushes);
  };
  // The disk works on one file while the next is made.
  let writing: Promise<void> = Promise.resolve();
  try {
    for await (const file of files) {
      const parts = checkOutputPath(file.path);
      paths.add(parts);
      await writing;
      writing = inWords(join(target, ...parts), () => write(parts, file));
      // Its failure is told at the next `await`; until then nobody waits for it.
      writing.catch(() => undefined);
    }
  } finally {
    // Told below; were another error on its way, they must only have ended.
    await writing.catch(() => undefined);
    await Promise.allSettled(flushes);
  }
  await writing;
  await Promise.all(flushes);
  await inWords(target, async () => {
    for (const folder of [...folders, partial]) await syncFolder(system, folder);
  });
}

/** So that the parents that were made outlast a power cut, as what is in them does. */
async function syncParents(system: FolderSystem, from: string, first: string): Promise<void> {
  for (let path = from; path.startsWith(first); path = dirname(path)) {
    await syncFolder(system, dirname(path)).catch((error: unknown) => {
      throw unconfirmed(from, error);
    });
  }
}

async function checkPlace(system: FolderSystem, target: string): Promise<void> {
  if (dirname(target) === target) {
    throw new FolderError('folder-in-use', `${target} is the root of a disk.`, 'Name a folder inside it.');
  }
  const here = process.cwd();
  const way = relative(target, here);
  const isAbove = way !== '..' && !way.startsWith(`..${sep}`) && !isAbsolute(way);
  if (isAbove || (await isSameAsOneOf(system, target, upwards(here)))) {
    throw new FolderError(
      'folder-in-use',
      `${target} is the folder this command runs in, or holds it.`,
      'Name a folder inside it, for example --out out.',
    );
  }
}

const upwards = (folder: string): readonly string[] =>
  dirname(folder) === folder ? [folder] : [folder, ...upwards(dirname(folder))];

/** Whether a folder is one of others, by whatever links it is named. */
async function isSameAsOneOf(
  system: FolderSystem,
  folder: string,
  others: readonly string[],
): Promise<boolean> {
  const factsOf = (path: string) => system.lstat(path, { bigint: true }).catch(() => undefined);
  const facts = await factsOf(folder);
  if (!facts?.isDirectory() || facts.ino === 0n) return false;
  for (const other of others) {
    const found = await factsOf(other);
    if (found?.ino === facts.ino && found.dev === facts.dev) return true;
  }
  return false;
}

/** Removes the parents that this run made, as far up as the first of them, while they are empty. */
async function removeEmptyUp(system: FolderSystem, from: string, first: string): Promise<void> {
  for (let path = from; path.startsWith(first); path = dirname(path)) {
    const removed = await system.rmdir(path).then(
      () => true,
      () => false,
    );
    if (!removed) return;
  }
}

async function inWords<T>(where: string, step: () => Promise<T>): Promise<T> {
  try {
    return await step();
  } catch (error) {
    if (error instanceof MakersError) throw error.cause;
    throw describeFailure(error, where);
  }
}
