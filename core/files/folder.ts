import { dirname, isAbsolute, join, relative, resolve, sep } from 'node:path';
import { busyFolder, describeFailure, FolderError, systemCode } from './folder-error.js';
import { discard, recoverWith, siblingPath } from './folder-siblings.js';
import { type FolderSystem, nodeFolderSystem, syncFolder } from './folder-system.js';
import { checkOutputPath, PathSet } from './output-path.js';
import { checkReplaceable } from './replaceable-folder.js';

export interface OutputFile {
  /** Relative to the folder, parts joined by `/`. */
  readonly path: string;
  /** Text is written as UTF-8. */
  readonly bytes: Uint8Array | string;
}

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
 * in such a folder goes. Errors thrown while `files` is iterated are passed on, with nothing left behind.
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
      checkPlace(target);
      await recoverWith(system, target);
      await checkReplaceable(system, target);
      firstMade = await makePartial(system, partial);
    });
    await writeAll(system, partial, target, files);
    await inWords(target, () => moveIntoPlace(system, partial, target));
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
 * Checks, before any long work, that `writeFolder` may replace what is at `finalPath` now.
 *
 * @throws FolderError `foreign-folder`, `not-a-folder`, `symlink` or `folder-in-use`.
 */
export const checkFolder = (finalPath: string, options: WriteFolderOptions = {}): Promise<void> => {
  const target = resolve(finalPath);
  return inWords(target, async () => {
    checkPlace(target);
    await checkReplaceable(options.system ?? nodeFolderSystem, target);
  });
};

/** Makes the folder and the parents it lacks; returns the first parent made. */
async function makePartial(system: FolderSystem, partial: string): Promise<string | undefined> {
  let firstMade: string | undefined;
  for (let i = 0; ; i++) {
    firstMade = (await system.mkdir(dirname(partial), { recursive: true })) ?? firstMade;
    try {
      await system.mkdir(partial);
      return firstMade;
    } catch (error) {
      // Another run that failed may have removed the empty parent it had made.
      if (systemCode(error) !== 'ENOENT' || i === tries) throw error;
    }
  }
}

async function writeAll(
  system: FolderSystem,
  partial: string,
  target: string,
  files: Iterable<OutputFile> | AsyncIterable<OutputFile>,
): Promise<void> {
  const paths = new PathSet();
  const folders = new Set<string>();
  const write = async (parts: readonly string[], bytes: OutputFile['bytes']): Promise<void> => {
    for (let i = 1; i < parts.length; i++) {
      const folder = join(partial, ...parts.slice(0, i));
      if (folders.has(folder)) continue;
      await system.mkdir(folder);
      folders.add(folder);
    }
    // wx: the file must be new, and a link in its place is not followed.
    const handle = await system.open(join(partial, ...parts), 'wx');
    try {
      await handle.writeFile(bytes);
      await handle.sync();
    } finally {
      await handle.close();
    }
  };
  // The disk works on one file while the next is made.
  let writing: Promise<void> = Promise.resolve();
  try {
    for await (const { path, bytes } of files) {
      const parts = checkOutputPath(path);
      paths.add(parts);
      await writing;
      writing = inWords(join(target, ...parts), () => write(parts, bytes));
      // Its failure is told at the next `await`; until then nobody waits for it.
      writing.catch(() => undefined);
    }
  } finally {
    // Told below; were another error on its way, it must only have ended.
    await writing.catch(() => undefined);
  }
  await writing;
  await inWords(target, async () => {
    for (const folder of [...folders, partial]) await syncFolder(system, folder);
  });
}

/** Another run may exchange the same folder at the same time; each try starts from what is there then. */
const tries = 20;

async function moveIntoPlace(system: FolderSystem, partial: string, target: string): Promise<void> {
  for (let i = 0; i < tries; i++) {
    const aside = await moveAside(system, target);
    try {
      await system.rename(partial, target);
    } catch (error) {
      if (aside !== null) await putBack(system, aside, target);
      // Taken: another run was first (Windows says EPERM, and says it of a missing permission too).
      const code = systemCode(error);
      if (!['ENOTEMPTY', 'EEXIST', 'EPERM'].includes(code)) throw error;
      if (code === 'EPERM' && i === tries - 1) throw error;
      continue;
    }
    await syncFolder(system, dirname(target));
    if (aside !== null) await discardAside(system, aside, target);
    return;
  }
  throw busyFolder(target);
}

async function moveAside(system: FolderSystem, target: string): Promise<string | null> {
  await checkReplaceable(system, target);
  const aside = siblingPath(target, 'aside');
  try {
    await system.rename(target, aside);
    return aside;
  } catch (error) {
    if (systemCode(error) === 'ENOENT') return null;
    throw error;
  }
}

/** Where another run has put its folder in place meanwhile, the one aside is out of date. */
const putBack = (system: FolderSystem, aside: string, target: string): Promise<void> =>
  system.rename(aside, target).catch(() => discardAside(system, aside, target));

/** The new folder is in place: what fails from here on is litter, cleared by the next run. */
async function discardAside(system: FolderSystem, aside: string, target: string): Promise<void> {
  const trash = siblingPath(target, 'trash');
  const moved = await system.rename(aside, trash).then(
    () => true,
    () => false,
  );
  if (moved) await discard(system, trash);
}

function checkPlace(target: string): void {
  if (dirname(target) === target) {
    throw new FolderError('folder-in-use', `${target} is the root of a disk.`, 'Name a folder inside it.');
  }
  const here = relative(target, process.cwd());
  if (here !== '..' && !here.startsWith(`..${sep}`) && !isAbsolute(here)) {
    throw new FolderError(
      'folder-in-use',
      `${target} is the folder this command runs in, or holds it.`,
      'Name a folder inside it, for example --out out.',
    );
  }
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
    throw describeFailure(error, where);
  }
}
