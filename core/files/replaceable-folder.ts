import type { Stats } from 'node:fs';
import { join } from 'node:path';
import { busyFolder, FolderError, systemCode } from './folder-error.js';
import type { FolderSystem } from './folder-system.js';

/** The file that marks a folder as written by this program. */
export const markerFile = 'summary.json';

/** Looks at a folder that other runs keep exchanging, before giving up. */
const looks = 20;

/**
 * Passes where nothing stands at `target`, an empty folder, or one this program wrote. Another run may exchange
 * the folder between the calls this takes: a refusal holds only if the folder looked at is still the one there.
 *
 * @throws FolderError `foreign-folder`, `not-a-folder`, `symlink`, or `busy`.
 */
export async function checkReplaceable(system: FolderSystem, target: string): Promise<void> {
  for (let i = 0; i < looks; i++) {
    const found = await look(system, target);
    if (found === null) return;
    if (found.isSymbolicLink()) {
      throw new FolderError('symlink', `${target} is a symbolic link.`, 'Name the folder that it leads to.');
    }
    if (!found.isDirectory()) {
      throw new FolderError('not-a-folder', `${target} is a file.`, 'Choose a folder name that is free.');
    }
    if (await isEmptyOrOurs(system, target)) return;
    const now = await look(system, target);
    // Renaming a folder changes its ctime, so one moved away and back shows too.
    if (now === null || now.ino !== found.ino || now.ctimeMs !== found.ctimeMs) continue;
    throw foreignFolder(target);
  }
  throw busyFolder(target);
}

export const foreignFolder = (target: string): FolderError =>
  new FolderError(
    'foreign-folder',
    `${target} is not empty and was not written by this program (it has no ${markerFile} with a schemaVersion).`,
    'Choose an empty or new folder, or empty this one yourself.',
  );

/** Whether an empty folder or an output of this program stands there; false where nothing does. */
export const isReplaceable = async (system: FolderSystem, path: string): Promise<boolean> =>
  (await look(system, path))?.isDirectory() === true && (await isEmptyOrOurs(system, path));

/** Whether an output of this program stands there. */
export const holdsOutput = async (system: FolderSystem, path: string): Promise<boolean> =>
  (await look(system, path))?.isDirectory() === true && (await isOurs(system, path));

async function look(system: FolderSystem, target: string): Promise<Stats | null> {
  try {
    return await system.lstat(target);
  } catch (error) {
    if (systemCode(error) === 'ENOENT') return null;
    throw error;
  }
}

async function isEmptyOrOurs(system: FolderSystem, target: string): Promise<boolean> {
  try {
    if ((await system.readdir(target)).length === 0) return true;
  } catch (error) {
    if (systemCode(error) === 'ENOENT') return false;
    throw error;
  }
  return isOurs(system, target);
}

/** As this program writes it: the version comes first, however much follows. */
const beginning = /^\s*\{\s*"schemaVersion"\s*:\s*\d+\s*[,}]/;
/** A marker in another order is read as a whole, up to this size, bytes. */
const largestMarker = 2 ** 26;

async function isOurs(system: FolderSystem, target: string): Promise<boolean> {
  const marker = join(target, markerFile);
  try {
    const facts = await system.lstat(marker);
    if (!facts.isFile()) return false;
    if (beginning.test(await readBeginning(system, marker))) return true;
    if (facts.size > largestMarker) return false;
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

async function readBeginning(system: FolderSystem, path: string): Promise<string> {
  const handle = await system.open(path, 'r');
  try {
    const { buffer, bytesRead } = await handle.read(Buffer.alloc(256), 0, 256, 0);
    return buffer.toString('latin1', 0, bytesRead);
  } finally {
    await handle.close();
  }
}
