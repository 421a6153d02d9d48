/**
 * The folders that stand beside an output folder while it is written, and what becomes of those a dead run left.
 *
 * - `.name.partial-…` is being written: never whole.
 * - `.name.aside-…` is the old folder, whole, between the two renames of an exchange.
 * - `.name.trash-…` is an old folder being deleted: no longer whole.
 */
import { createHash, randomBytes } from 'node:crypto';
import { readlinkSync } from 'node:fs';
import { hostname } from 'node:os';
import { basename, dirname, join } from 'node:path';
import { systemCode } from './folder-error.js';
import type { FolderSystem } from './folder-system.js';
import { holdsOutput, isReplaceable } from './replaceable-folder.js';

export type SiblingKind = 'partial' | 'aside' | 'trash';

const sumOf = (text: string): string => createHash('sha256').update(text).digest('hex');

/** Where a process has its number from: containers of one host count for themselves. */
export const thisHost = sumOf(`${hostname()} ${processNumbers()}`).slice(0, 8);

function processNumbers(): string {
  try {
    return readlinkSync('/proc/self/ns/pid');
  } catch {
    return '';
  }
}

/** A folder of another host is stale after a week: no run takes that long, and clocks are set by a day or two at most. */
const staleAfter = 7 * 24 * 3600 * 1000;

/** A new name beside `finalPath`; it carries who made it. */
export const siblingPath = (finalPath: string, kind: SiblingKind): string =>
  join(
    dirname(finalPath),
    `${siblingPrefix(finalPath)}${kind}-${thisHost}-${process.pid}-${randomBytes(4).toString('hex')}`,
  );

/** What siblings add must not make a name too long that is not: most disks take 255 bytes. */
const longestPrefix = 180;

function siblingPrefix(finalPath: string): string {
  const name = basename(finalPath);
  if (Buffer.byteLength(name) <= longestPrefix) return `.${name}.`;
  // No letter is cut in two; each has four bytes at most.
  return `.${[...name].slice(0, longestPrefix / 6).join('')}~${sumOf(name).slice(0, 16)}.`;
}

export interface Sibling {
  readonly path: string;
  readonly kind: SiblingKind;
  readonly host: string;
  readonly pid: number;
}

export async function listSiblings(system: FolderSystem, finalPath: string): Promise<readonly Sibling[]> {
  const parent = dirname(finalPath);
  const prefix = siblingPrefix(finalPath);
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
 * Ends what a killed run left undone: puts the old folder back where the final one is missing or empty, then deletes
 * the leftovers of runs that are no more. Returns whether a folder was put back.
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
    if (!(await isFolder(system, aside.path))) continue;
    if (!(await isFree(system, finalPath))) break;
    // An aside is whole by construction: it is renamed to trash before its first file is deleted.
    putBack = (await renamed(system, aside.path, finalPath)) || putBack;
  }
  const isReplaced = await holdsOutput(system, finalPath);
  for (const sibling of siblings) {
    if (!isStale(sibling, await timeOf(system, sibling.path))) continue;
    // It is out of date only where another output stands in its place.
    if (sibling.kind === 'aside' && !(isReplaced && (await isReplaceable(system, sibling.path)))) continue;
    await discardSibling(system, sibling, finalPath);
  }
  return putBack;
}

const isFolder = (system: FolderSystem, path: string): Promise<boolean> =>
  system.lstat(path).then(
    (facts) => facts.isDirectory(),
    () => false,
  );

/** Whether nothing stands there, which an empty folder is made to be. */
async function isFree(system: FolderSystem, path: string): Promise<boolean> {
  if (!(await exists(system, path))) return true;
  return system.rmdir(path).then(
    () => true,
    () => false,
  );
}

/** Should its maker be at work after all, it finds the folder gone, and not a part of what is in it. */
async function discardSibling(
  system: FolderSystem,
  { kind, path }: Sibling,
  finalPath: string,
): Promise<void> {
  if (kind === 'trash') return discard(system, path);
  const trash = siblingPath(finalPath, 'trash');
  if (await renamed(system, path, trash)) await discard(system, trash);
}

async function newestFirst(system: FolderSystem, siblings: readonly Sibling[]): Promise<readonly Sibling[]> {
  const timed = await Promise.all(
    siblings.map(async (sibling) => ({ sibling, time: await timeOf(system, sibling.path) })),
  );
  return timed.sort((a, b) => b.time - a.time).map((t) => t.sibling);
}

/** On this host a folder lives as long as the process it is of, whatever the clock says. */
export const isStale = ({ host, pid }: Pick<Sibling, 'host' | 'pid'>, time: number): boolean =>
  host === thisHost ? !isAlive(pid) : Date.now() - time > staleAfter;

/** Renaming a folder changes its status time, so ctime is when it was last touched as a whole; infinite where it is gone. */
const timeOf = (system: FolderSystem, path: string): Promise<number> =>
  system.lstat(path).then(
    (s) => Math.max(s.mtimeMs, s.ctimeMs),
    () => Number.POSITIVE_INFINITY,
  );

function isAlive(pid: number): boolean {
  try {
    process.kill(pid, 0);
    return true;
  } catch (error) {
    return systemCode(error) === 'EPERM';
  }
}

export const exists = (system: Pick<FolderSystem, 'lstat'>, path: string): Promise<boolean> =>
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
