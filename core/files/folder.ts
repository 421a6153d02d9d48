import { dirname, isAbsolute, join, relative, resolve, sep } from 'node:path';
import { describeFailure, FolderError, systemCode } from './folder-error.js';
import { discard, recoverWith, siblingPath } from './folder-siblings.js';
import { type FolderSystem, nodeFolderSystem, syncFolder } from './folder-system.js';
import { checkOutputPath, PathSet } from './output-path.js';

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

/** The file that marks a folder as written by this program. */
export const markerFile = 'summary.json';

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
      firstMade = await system.mkdir(parent, { recursive: true });
      await system.mkdir(partial);
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

async function writeAll(
  system: FolderSystem,
  partial: string,
  target: string,
  files: Iterable<OutputFile> | AsyncIterable<OutputFile>,
): Promise<void> {
  const paths = new PathSet();
  const folders = new Set<string>();
  for await (const { path, bytes } of files) {
    const parts = checkOutputPath(path);
    paths.add(parts);
    await inWords(join(target, ...parts), async () => {
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
    });
  }
  await inWords(target, async () => {
    for (const folder of [...folders, partial]) await syncFolder(system, folder);
  });
}

/** Another run may exchange the same folder at the same time; each try starts from what is there then. */
const tries = 5;

async function moveIntoPlace(system: FolderSystem, partial: string, target: string): Promise<void> {
  for (let i = 0; i < tries; i++) {
    const aside = await moveAside(system, target);
    try {
      await system.rename(partial, target);
    } catch (error) {
      if (aside !== null) await putBack(system, aside, target);
      if (!['ENOTEMPTY', 'EEXIST', 'EPERM'].includes(systemCode(error)) || i === tries - 1) throw error;
      continue;
    }
    await syncFolder(system, dirname(target));
    if (aside !== null) await discardAside(system, aside, target);
    return;
  }
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

async function checkReplaceable(system: FolderSystem, target: string): Promise<void> {
  const found = await system.lstat(target).catch((error: unknown) => {
    if (systemCode(error) === 'ENOENT') return null;
    throw error;
  });
  if (found === null) return;
  if (found.isSymbolicLink()) {
    throw new FolderError('symlink', `${target} is a symbolic link.`, 'Name the folder that it leads to.');
  }
  if (!found.isDirectory()) {
    throw new FolderError('not-a-folder', `${target} is a file.`, 'Choose a folder name that is free.');
  }
  const names = await system.readdir(target);
  if (names.length === 0 || (await isOurs(system, target))) return;
  throw new FolderError(
    'foreign-folder',
    `${target} is not empty and was not written by this program (it has no ${markerFile} with a schemaVersion).`,
    'Choose an empty or new folder, or empty this one yourself.',
  );
}

async function isOurs(system: FolderSystem, target: string): Promise<boolean> {
  const marker = join(target, markerFile);
  try {
    if (!(await system.lstat(marker)).isFile()) return false;
    const summary: unknown = JSON.parse(String(await system.readFile(marker)));
    return (
      typeof summary === 'object' &&
      summary !== null &&
      'schemaVersion' in summary &&
      typeof summary.schemaVersion === 'number'
    );
  } catch (error) {
    if (error instanceof SyntaxError || systemCode(error) === 'ENOENT') return false;
    throw error;
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
