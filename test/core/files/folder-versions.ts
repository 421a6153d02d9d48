import * as fs from 'node:fs/promises';
import { join } from 'node:path';
import { beforeEach, expect } from 'vitest';
import { FolderError } from '../../../core/files/folder-error.js';
import type { FolderSystem } from '../../../core/files/folder-system.js';
import type { WholeFile } from '../../../core/files/output-file.js';
import { temporaryFolder } from '../../cli/helpers/folders.js';

/** Each test gets an empty folder, and the place in it where output goes. Gives the folder that holds them all. */
export function freshShops(take: (shop: string, out: string) => void): string {
  const root = temporaryFolder();
  let n = 0;
  beforeEach(async () => {
    const shop = join(root, `case-${n++}`);
    await fs.mkdir(shop);
    take(shop, join(shop, 'out'));
  });
  return root;
}

/** A folder's worth of files that all carry one mark. */
export function version(mark: string, count = 12): WholeFile[] {
  const files: WholeFile[] = [{ path: 'traveller.html', bytes: `<p>${mark}</p>` }];
  for (let i = 0; i < count; i++) {
    files.push({ path: `part-${i}/gated.stl`, bytes: new TextEncoder().encode(mark.repeat(500 + i)) });
  }
  return [...files, { path: 'summary.json', bytes: JSON.stringify({ schemaVersion: 1, mark, count }) }];
}

/** The mark of a folder in which every file is whole and of one version; throws otherwise. */
export async function markOf(folder: string): Promise<string> {
  const { mark, count } = JSON.parse(await fs.readFile(join(folder, 'summary.json'), 'utf8')) as {
    mark: string;
    count: number;
  };
  const found = (await fs.readdir(folder, { recursive: true })).sort();
  const wanted = version(mark, count);
  const paths = wanted.flatMap((f) => (f.path.includes('/') ? [f.path.split('/')[0]!, f.path] : [f.path]));
  expect(found).toEqual(paths.sort());
  for (const f of wanted) {
    const text = typeof f.bytes === 'string' ? f.bytes : new TextDecoder().decode(f.bytes);
    expect(await fs.readFile(join(folder, f.path), 'utf8')).toBe(text);
  }
  return mark;
}

export const failure = async (step: Promise<unknown>): Promise<FolderError> => {
  try {
    await step;
  } catch (error) {
    if (error instanceof FolderError) return error;
    throw error;
  }
  throw new Error('no error was thrown');
};

/** The file system, but `step` runs, and may fail, before each call is made; calls on opened files count too. */
export function failing(step: (call: string) => void | Promise<void>): FolderSystem {
  const wrap = <T extends object>(target: T, name: string): T =>
    new Proxy(target, {
      get(on, key) {
        const value: unknown = Reflect.get(on, key);
        if (typeof value !== 'function') return value;
        return async (...given: unknown[]) => {
          // Closing changes nothing on the disk, and a file must not stay open because of a made-up failure.
          if (key !== 'close') await step(`${name}${String(key)}`);
          const result: unknown = await value.apply(on, given);
          return key === 'open' ? wrap(result as object, 'file.') : result;
        };
      },
    });
  return wrap(fs as FolderSystem, '');
}

export const systemError = (code: string): Error => Object.assign(new Error(`${code}: made up`), { code });
