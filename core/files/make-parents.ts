import { dirname, sep } from 'node:path';
import { deadLink, systemCode } from './folder-error.js';
import { exists } from './folder-siblings.js';
import type { FolderSystem } from './folder-system.js';

type Maker = Pick<FolderSystem, 'lstat' | 'mkdir' | 'rmdir'>;

/**
 * Makes a folder and those above it that are missing; returns the first made. One after the other: told to make them all,
 * Node never ends where a system takes no folders at all (/proc), and of a read-only disk it says that something is not
 * there. Those made before one fails are taken away again.
 * @param mode of the folders made
 */
export async function makeParents(system: Maker, path: string, mode = 0o777): Promise<string | undefined> {
  const missing: string[] = [];
  for (let at = path; !(await isThere(system, at)); at = dirname(at)) {
    missing.unshift(at);
    if (dirname(at) === at) break;
  }
  const made: string[] = [];
  for (const place of missing) {
    try {
      await system.mkdir(place, { mode });
      made.push(place);
    } catch (error) {
      // Another run was first.
      if (systemCode(error) === 'EEXIST' && (await isThere(system, place))) continue;
      for (const folder of made.reverse()) await system.rmdir(folder).catch(() => undefined);
      throw (await leadsNowhere(system, place)) ? deadLink(place) : error;
    }
  }
  return made[0];
}

/** As a folder, or a link to one. */
const isThere = (system: Maker, path: string): Promise<boolean> => exists(system, `${path}${sep}.`);

const leadsNowhere = async (system: Maker, path: string): Promise<boolean> => {
  const facts = await system.lstat(path).catch(() => undefined);
  return facts?.isSymbolicLink() === true && !(await isThere(system, path));
};
