/** Where what is made lies until it is written, and for the next run: never all of it in memory. */
import { existsSync } from 'node:fs';
import { writeFile } from 'node:fs/promises';
import { FolderError } from '../../core/files/folder-error.js';
import type { KeptFile } from '../store/entry.js';
import { LostPart, openStore, type StoredPart } from '../store/store.js';

export interface Shelf {
  find(key: string): Promise<StoredPart | undefined>;
  /**
   * @param isPassing whether no other run will ever ask for it
   * @throws FolderError where there is no room anywhere
   */
  keep(key: string, record: unknown, files: readonly KeptFile[], isPassing?: boolean): Promise<StoredPart>;
}

export interface ShelfPlaces {
  /** The user's cache; left out: none. */
  readonly cache?: string | undefined;
  /** A folder of this run alone, made when it is needed: for what the cache does not take. */
  readonly scratch: string;
}

/** @param note told once why the cache takes nothing */
export async function openShelf(
  { cache, scratch }: ShelfPlaces,
  note: (text: string) => void = () => undefined,
): Promise<Shelf> {
  const kept = cache === undefined ? undefined : await openStore(cache, { note });
  let reason = '';
  let opening: ReturnType<typeof openStore> | undefined;
  const scratchStore = () => {
    opening ??= openStore(scratch, {
      reserve: 0,
      note: (text) => {
        reason = text.replace(/^.*?: /, '');
      },
    });
    return opening;
  };
  return {
    // Another thread may have begun the scratch folder.
    find: async (key) =>
      (await kept?.find(key)) ?? (existsSync(scratch) ? await (await scratchStore()).find(key) : undefined),
    async keep(key, record, files, isPassing = false) {
      const stored = isPassing ? undefined : await kept?.keep(key, record, files);
      if (stored) return stored;
      const own = await (await scratchStore()).keep(key, record, files);
      if (own) return own;
      throw new FolderError(
        'disk-full',
        `What is made on the way cannot be kept: ${reason}`,
        'Free some space, or set TMPDIR to a folder on another disk.',
      );
    },
  };
}

/** For a job of one part, whose files are written as soon as they are made. */
export function shelfInMemory(): Shelf {
  const kept = new Map<string, StoredPart>();
  return {
    find: async (key) => kept.get(key),
    keep: async (key, record, files) => {
      const bytes = new Map(files.map((f) => [f.name, f.bytes]));
      const read = async (name: string): Promise<Uint8Array> => {
        const found = bytes.get(name);
        if (found === undefined) throw new LostPart(`There is no ${name}.`);
        return found;
      };
      const stored: StoredPart = {
        record,
        read,
        copyTo: async (name, path) => writeFile(path, await read(name), { flag: 'wx' }),
      };
      kept.set(key, stored);
      return stored;
    },
  };
}
