import { chmod, lstat, mkdir, realpath, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { nodeFolderSystem } from '../../core/files/folder-system.js';
import { makeParents } from '../../core/files/make-parents.js';

/** In the cache folder; a new form of entries gets a new name. */
const folderName = 'parts-1';

/** Programs that make backups leave out a folder with this file (Cache Directory Tagging Specification). */
const cacheTag =
  'Signature: 8a477f597d28d172789f06886806bc55\n# Parts kept by Patternwright. All of it may be deleted.\n';

/** Why a cache folder is not used. */
export class UnusableCache extends Error {
  override readonly name = 'UnusableCache';
}

/**
 * The folder of kept parts inside a cache folder, made where it is missing: of this user alone, since it holds designs.
 * @throws UnusableCache, or what the system says
 */
export async function makeStoreFolder(cacheFolder: string): Promise<string> {
  const made = await makeParents(nodeFolderSystem, cacheFolder, 0o700);
  const folder = join(await realpath(cacheFolder), folderName);
  await mkdir(folder, { mode: 0o700 }).catch(toleratedIfThere(folder));
  const facts = await lstat(folder);
  if (!facts.isDirectory()) throw new UnusableCache(`${folder} is not a folder`);
  const me = process.getuid?.();
  if (me !== undefined) {
    if (facts.uid !== me) throw new UnusableCache(`${folder} belongs to another user`);
    if ((facts.mode & 0o077) !== 0) await chmod(folder, 0o700);
  }
  if (made !== undefined)
    await writeFile(join(cacheFolder, 'CACHEDIR.TAG'), cacheTag, { flag: 'wx' }).catch(() => undefined);
  return folder;
}

/** A folder on a read-only disk is still read from. */
const toleratedIfThere =
  (path: string) =>
  async (error: unknown): Promise<undefined> => {
    await lstat(path).catch(() => {
      throw error;
    });
  };
