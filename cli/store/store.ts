import { randomBytes } from 'node:crypto';
import { type FileHandle, open, rename, statfs } from 'node:fs/promises';
import { join } from 'node:path';
import { FolderError } from '../../core/files/folder-error.js';
import { type Body, type Entry, entryPieces, type KeptFile } from './entry.js';
import { BrokenEntry, readBody, readEntry, readPieces, withEntryFile } from './entry-file.js';
import { drop, entryFile, halfFile, pruneFolder } from './prune.js';
import { makeStoreFolder, UnusableCache } from './store-folder.js';

/** A part that an earlier step or run kept. */
export interface StoredPart {
  /** Plain data, as JSON gives it back. */
  readonly record: unknown;
  /** @throws LostPart */
  read(name: string): Promise<Uint8Array>;
  /** Writes a file of its own at `path`, which must be free. @throws LostPart, or what the system says of `path` */
  copyTo(name: string, path: string): Promise<void>;
}

/**
 * What was made, by what it was made of. Several threads and processes may use one folder at a time. Nothing here
 * fails a job: what cannot be read is as if it were not there, what cannot be kept is not.
 */
export interface PartStore {
  find(key: string): Promise<StoredPart | undefined>;
  /** Gives the part as `find` would, or undefined where it could not be kept. */
  keep(key: string, record: unknown, files: readonly KeptFile[]): Promise<StoredPart | undefined>;
  /** Brings the folder down to its size; for the end of a run. */
  prune(limit?: number): Promise<void>;
}

/** A stored part whose file has gone, or turned out damaged, since it was found: it is to be made anew. */
export class LostPart extends Error {
  override readonly name = 'LostPart';
}

export interface StoreOptions {
  /** Told once, in a sentence, why parts are not kept. */
  readonly note?: (text: string) => void;
  /** Space that keeping leaves free on the disk, which is wanted for the job's own files, bytes. */
  readonly reserve?: number;
}

const usualReserve = 500e6;

/** Opens the store in a cache folder. One that cannot be used gives a store that holds nothing. */
export async function openStore(cacheFolder: string, options: StoreOptions = {}): Promise<PartStore> {
  const { note = () => undefined, reserve = usualReserve } = options;
  let writes = true;
  const giveUp = (error: unknown): undefined => {
    if (writes) note(`Parts are not kept for the next run: ${reasonOf(error, cacheFolder)}.`);
    writes = false;
  };
  const folder = await makeStoreFolder(cacheFolder).catch(giveUp);
  if (folder === undefined) {
    return { find: async () => undefined, keep: async () => undefined, prune: async () => undefined };
  }
  const pathOf = (key: string): string => {
    if (!/^[0-9a-f]{64}$/.test(key)) throw new TypeError(`${JSON.stringify(key)} is no key.`);
    return join(folder, entryFile(key));
  };
  const find = async (key: string): Promise<StoredPart | undefined> => {
    const path = pathOf(key);
    const entry = await readWhole(path, async (file) => {
      const read = await readEntry(file, key);
      const now = new Date();
      // The time of its last use, for pruning.
      await file.utimes(now, now).catch(() => undefined);
      return read;
    }).catch(() => undefined);
    return entry && storedPart(path, entry);
  };
  return {
    find,
    async keep(key, record, files) {
      const path = pathOf(key);
      if (!writes) return undefined;
      const pieces = entryPieces(key, record, files);
      if (pieces === undefined) return undefined;
      const write = async (): Promise<void> => {
        await makeRoom(folder, pieces, reserve);
        await writeEntry(path, join(folder, halfFile(key, randomBytes(8).toString('hex'))), pieces);
      };
      try {
        await write().catch(async (error: NodeJS.ErrnoException) => {
          if (error.code !== 'ENOENT') throw error;
          // Somebody has emptied the cache.
          await makeStoreFolder(cacheFolder);
          await write();
        });
      } catch (error) {
        // Another run may have kept it meanwhile.
        return (await find(key)) ?? giveUp(error);
      }
      return find(key);
    },
    prune: (limit) => pruneFolder(folder, limit),
  };
}

/** @throws UnusableCache where the disk has not much left */
async function makeRoom(folder: string, pieces: readonly Uint8Array[], reserve: number): Promise<void> {
  const { bavail, blocks, bsize } = await statfs(folder);
  const length = pieces.reduce((sum, piece) => sum + piece.length, 0);
  // Some network disks tell nothing.
  if (blocks > 0 && bavail * bsize < length + reserve)
    throw new UnusableCache(`the disk of ${folder} is nearly full`);
}

/** Whole or not at all. It need not outlast a power cut: what that tears has a wrong sum. */
async function writeEntry(path: string, half: string, pieces: readonly Uint8Array[]): Promise<void> {
  try {
    const file = await open(half, 'wx', 0o600);
    try {
      for (const piece of pieces) await file.writeFile(piece);
    } finally {
      await file.close();
    }
    await rename(half, path).catch(async () => {
      // A folder stands in its place, or Windows has the old file open.
      await drop(path);
      await rename(half, path);
    });
  } catch (error) {
    await drop(half);
    throw error;
  }
}

function storedPart(path: string, { record, bodies, length }: Entry): StoredPart {
  const use = <T>(name: string, take: (file: FileHandle, body: Body) => Promise<T>): Promise<T> => {
    const body = bodies.get(name);
    if (body === undefined) throw new TypeError(`The stored part has no file ${name}.`);
    return readWhole(path, async (file) => {
      if ((await file.stat()).size !== length) throw new BrokenEntry(path);
      return take(file, body);
    });
  };
  return {
    record,
    read: async (name) => use(name, readBody),
    copyTo: async (name, to) => use(name, (file, body) => copyBody(file, body, to)),
  };
}

async function copyBody(from: FileHandle, body: Body, to: string): Promise<void> {
  let failure: unknown;
  const target = await open(to, 'wx').catch((error: unknown) => {
    throw new WriteFailure(error);
  });
  try {
    for await (const piece of readPieces(from, body)) {
      await target.writeFile(piece).catch((error: unknown) => {
        throw new WriteFailure(error);
      });
    }
  } catch (error) {
    failure = error;
  }
  await target.close().catch((error: unknown) => {
    failure ??= new WriteFailure(error);
  });
  if (failure === undefined) return;
  await drop(to);
  throw failure;
}

/** Carries a failure that is not the store's out past what would take it for that. */
class WriteFailure extends Error {
  constructor(override readonly cause: unknown) {
    super();
  }
}

/** Reads from a kept part's file; one that is broken goes. @throws LostPart */
async function readWhole<T>(path: string, read: (file: FileHandle) => Promise<T>): Promise<T> {
  try {
    return await withEntryFile(path, read);
  } catch (error) {
    if (error instanceof WriteFailure) throw error.cause;
    if (error instanceof BrokenEntry) await drop(path);
    throw new LostPart(`${path} is gone or damaged.`, { cause: error });
  }
}

function reasonOf(error: unknown, folder: string): string {
  if (error instanceof UnusableCache) return error.message;
  if (error instanceof FolderError) return error.message.replace(/\.$/, '');
  const { code, message } = error as NodeJS.ErrnoException;
  switch (code) {
    case 'ENOSPC':
    case 'EDQUOT':
      return `the disk of ${folder} is full`;
    case 'EROFS':
    case 'EACCES':
    case 'EPERM':
      return `${folder} cannot be written`;
    case 'ENOTDIR':
    case 'EEXIST':
      return `${folder} is not a folder`;
    case 'ENOENT':
      return `there is no ${folder}, and it cannot be made`;
    case 'ELOOP':
      return `the links of ${folder} lead in a circle`;
    case 'ENAMETOOLONG':
      return `the name of ${folder} is too long`;
    default:
      return `${folder}: ${message}`;
  }
}
