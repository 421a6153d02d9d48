/**
 * The folders that stand beside an output folder while it is written, and what becomes of those a dead run left.
 *
 * - `.name.partial-…` is being written: never whole.
 * - `.name.aside-…` is the old folder, whole, between the two renames of an exchange.
 * - `.name.trash-…` is an old folder being deleted: no longer whole.
 */
import { createHash, randomBytes } from 'node:crypto';
import { hostname } from 'node:os';
import { basename, dirname, join } from 'node:path';
import { systemCode } from './folder-error.js';
import type { FolderSystem } from './folder-system.js';

export type SiblingKind = 'partial' | 'aside' | 'trash';

const thisHost = createHash('sha256').update(hostname()).digest('hex').slice(0, 8);
/** After this long a folder is stale whoever made it: no run takes a day. */
const staleAfter = 24 * 3600 * 1000;

/** A new name beside `finalPath`; it carries who made it. */
export const siblingPath = (finalPath: string, kind: SiblingKind): string =>
  join(
    dirname(finalPath),
    `.${basename(finalPath)}.${kind}-${thisHost}-${process.pid}-${randomBytes(4).toString('hex')}`,
  );

export interface Sibling {
  readonly path: string;
  readonly kind: SiblingKind;
  readonly host: string;
  readonly pid: number;
}

export async function listSiblings(system: FolderSystem, finalPath: string): Promise<readonly Sibling[]> {
  const parent = dirname(finalPath);
  const prefix = `.${basename(finalPath)}.`;
  const names = await system.readdir(parent).catch((error: unknown) => {
    if (systemCode(error) === 'ENOENT') return [];
    throw error;
  });
  return [...names].sort().flatMap((name) => {
    if (!name.startsWith(prefix)) return [];
    const match = /^(partial|aside|trash)-([0-9a-f]{8})-(\d+)-[0-9a-f]{8}$/.exec(name.slice(prefix.length));
    if (match === null) return [];
    const kind = match[1] as SiblingKind;
    return [{ path: join(parent, name), kind, host: match[2]!, pid: Number(match[3]) }];
  });
}

/** Deletes a folder and all in it; says nothing if that fails, since it is litter and not output. */
export async function discard(system: FolderSystem, path: string): Promise<void> {
  await system.rm(path, { recursive: true, force: true, maxRetries: 2 }).catch(() => undefined);
}

/**
 * Ends what a killed run left undone: puts the old folder back where the final one is missing, then deletes the
 * leftovers of runs that are no more. Returns whether a folder was put back.
 *
 * There is a short time, between the two renames of an exchange, when the old folder stands aside and the new
 * one is not yet in place; a kill there leaves `finalPath` missing until this is called. Node offers no
 * exchange of two folders in one step.
 */
export async function recoverWith(system: FolderSystem, finalPath: string): Promise<boolean> {
  const siblings = await listSiblings(system, finalPath);
  if (siblings.length === 0) return false;
  let putBack = false;
  const asides = await newestFirst(
    system,
    siblings.filter((s) => s.kind === 'aside'),
  );
  for (const aside of asides) {
    if (await exists(system, finalPath)) break;
    // An aside is whole by construction: it is renamed to trash before its first file is deleted.
    putBack = (await renamed(system, aside.path, finalPath)) || putBack;
  }
  for (const sibling of siblings) {
    if (!(await isStale(system, sibling))) continue;
    if (sibling.kind === 'aside') {
      const trash = siblingPath(finalPath, 'trash');
      if (await renamed(system, sibling.path, trash)) await discard(system, trash);
    } else {
      await discard(system, sibling.path);
    }
  }
  return putBack;
}

async function newestFirst(system: FolderSystem, siblings: readonly Sibling[]): Promise<readonly Sibling[]> {
  const timed = await Promise.all(
    siblings.map(async (sibling) => ({ sibling, time: (await timeOf(system, sibling.path)) ?? 0 })),
  );
  return timed.sort((a, b) => b.time - a.time).map((t) => t.sibling);
}

async function isStale(system: FolderSystem, sibling: Sibling): Promise<boolean> {
  if (sibling.host === thisHost && !isAlive(sibling.pid)) return true;
  const time = await timeOf(system, sibling.path);
  return time !== null && Date.now() - time > staleAfter;
}

/** Renaming a folder changes its status time, so ctime is when it was last touched as a whole. */
const timeOf = (system: FolderSystem, path: string): Promise<number | null> =>
  system.lstat(path).then(
    (s) => Math.max(s.mtimeMs, s.ctimeMs),
    () => null,
  );

function isAlive(pid: number): boolean {
  try {
    process.kill(pid, 0);
    return true;
  } catch (error) {
    return systemCode(error) === 'EPERM';
  }
}

export const exists = (system: FolderSystem, path: string): Promise<boolean> =>
  system.lstat(path).then(
    () => true,
    (error: unknown) => {
      if (systemCode(error) === 'ENOENT') return false;
      throw error;
    },
  );

/** Renames; false where another run was first: the source is gone or the destination is taken. */
const renamed = (system: FolderSystem, from: string, to: string): Promise<boolean> =>
  system.rename(from, to).then(
    () => true,
    (error: unknown) => {
      if (['ENOENT', 'ENOTEMPTY', 'EEXIST'].includes(systemCode(error))) return false;
      throw error;
    },
  );
