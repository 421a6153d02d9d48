import { dirname } from 'node:path';
import { busyFolder, systemCode, unconfirmed } from './folder-error.js';
import { discard, exists, siblingPath } from './folder-siblings.js';
import { type FolderSystem, syncFolder } from './folder-system.js';
import { checkReplaceable, foreignFolder, holdsOutput, isReplaceable } from './replaceable-folder.js';

/** Another run may exchange the same folder at the same time; each try starts from what is there then. */
export const tries = 20;

/** Puts a whole new folder in the place of the old one, which goes. @throws FolderError, or what the system says */
export async function moveIntoPlace(system: FolderSystem, partial: string, target: string): Promise<void> {
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
    // The old folder stays aside then, for a disk that comes up again without the new one.
    await syncFolder(system, dirname(target)).catch((error: unknown) => {
      throw unconfirmed(target, error);
    });
    if (aside !== null) await settle(system, aside, partial, target);
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

/** Deletes what was moved aside, unless it came there after it was looked at and is not ours to delete. */
async function settle(system: FolderSystem, aside: string, partial: string, target: string): Promise<void> {
  const mayGo = await isReplaceable(system, aside).catch(() => undefined);
  if (mayGo === true) await discardAside(system, aside, target);
  // Where the disk does not tell, the next run asks again.
  if (mayGo !== false) return;
  // Another run has put it back.
  if (!(await exists(system, aside).catch(() => false))) return;
  await system.rename(target, partial);
  await system.rename(aside, target);
  throw foreignFolder(target);
}

/** Where another run has put its folder in place meanwhile, the one aside is out of date. */
const putBack = (system: FolderSystem, aside: string, target: string): Promise<void> =>
  system.rename(aside, target).catch(async () => {
    const mayGo = (await holdsOutput(system, target)) && (await isReplaceable(system, aside));
    if (mayGo) await discardAside(system, aside, target);
  });

/** The new folder is in place: what fails from here on is litter, cleared by the next run. */
async function discardAside(system: FolderSystem, aside: string, target: string): Promise<void> {
  const trash = siblingPath(target, 'trash');
  const moved = await system.rename(aside, trash).then(
    () => true,
    () => false,
  );
  if (moved) await discard(system, trash);
}
