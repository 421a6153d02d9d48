import { spawnSync } from 'node:child_process';
import { constants, rmSync, statfsSync, symlinkSync } from 'node:fs';
import * as fs from 'node:fs/promises';
import { join } from 'node:path';
import { beforeEach, describe, expect, test } from 'vitest';
import { LostPart, openStore, type PartStore, type StoreOptions } from '../../../cli/store/store.js';
import { temporaryFolder } from '../helpers/folders.js';
import { checkStored, sample } from './helpers.js';

const root = temporaryFolder();
let cache: string;
let n = 0;
beforeEach(() => {
  cache = join(root, `case-${n++}`, 'cache');
});

const entries = async (): Promise<readonly string[]> => (await fs.readdir(join(cache, 'parts-1'))).sort();
const entryPath = (key: string): string => join(cache, 'parts-1', `${key}.part`);

/** A store, and the notes it gave. */
async function opened(
  options: StoreOptions = {},
): Promise<PartStore & { readonly notes: readonly string[] }> {
  const notes: string[] = [];
  const store = await openStore(cache, { reserve: 0, note: (text) => notes.push(text), ...options });
  return { ...store, notes };
}

const [a, b] = [sample(1), sample(2)];
const keepBoth = async (store: PartStore): Promise<void> => {
  for (const { key, record, files } of [a, b]) await store.keep(key, record, files);
};

describe('a store', () => {
  test('finds what was kept, for this opening and the next; nothing else', async () => {
    const store = await opened();
    expect(await store.find(a.key)).toBeUndefined();
    await checkStored((await store.keep(a.key, a.record, a.files))!, a);
    for (const again of [store, await opened()]) {
      await checkStored((await again.find(a.key))!, a);
      expect(await again.find(b.key)).toBeUndefined();
    }
    expect(store.notes).toEqual([]);
    expect(await entries()).toEqual([`${a.key}.part`]);
  });

  test('copies are files of their own', async () => {
    const store = await opened();
    const stored = await store.keep(a.key, a.record, a.files);
    for (const { name, bytes } of a.files) {
      const path = join(root, `copy-${n}-${name}`);
      await stored!.copyTo(name, path);
      expect(Buffer.from(bytes).equals(await fs.readFile(path))).toBe(true);
      await fs.writeFile(path, 'scribbled over');
      await expect(stored!.copyTo(name, path)).rejects.toMatchObject({ code: 'EEXIST' });
      expect(await fs.readFile(path, 'utf8')).toBe('scribbled over');
    }
    await expect(stored!.copyTo('part.stl', join(root, 'no', 'such'))).rejects.toMatchObject({
      code: 'ENOENT',
    });
    await checkStored(stored!, a);
  });

  test('is of one user alone, and tells backups that it need not be copied', async () => {
    await keepBoth(await opened());
    if (process.platform !== 'win32') {
      expect((await fs.stat(join(cache, 'parts-1'))).mode & 0o777).toBe(0o700);
      expect((await fs.stat(entryPath(a.key))).mode & 0o777).toBe(0o600);
      await fs.chmod(join(cache, 'parts-1'), 0o777);
      await opened();
      expect((await fs.stat(join(cache, 'parts-1'))).mode & 0o777).toBe(0o700);
    }
    // The signature that the Cache Directory Tagging Specification wants (from memory).
    expect(await fs.readFile(join(cache, 'CACHEDIR.TAG'), 'utf8')).toMatch(
      /^Signature: 8a477f597d28d172789f06886806bc55\n/,
    );
  });

  test('a part that goes between finding and reading is told as lost, and can be made anew', async () => {
    const store = await opened();
    const stored = await store.keep(a.key, a.record, a.files);
    rmSync(cache, { recursive: true });
    await expect(stored!.read('part.stl')).rejects.toThrow(LostPart);
    const copy = join(root, `copy-${n}`);
    await expect(stored!.copyTo('part.stl', copy)).rejects.toThrow(LostPart);
    await expect(fs.lstat(copy)).rejects.toMatchObject({ code: 'ENOENT' });
    expect(await store.find(a.key)).toBeUndefined();
    // The folder has gone with it.
    await checkStored((await store.keep(a.key, a.record, a.files))!, a);
    expect(store.notes).toEqual([]);
  });

  test('a broken copy is not left behind, and the part is made anew', async () => {
    const store = await opened();
    const stored = await store.keep(a.key, a.record, a.files);
    const bytes = await fs.readFile(entryPath(a.key));
    bytes[bytes.length - 200]! ^= 1;
    await fs.writeFile(entryPath(a.key), bytes);
    const copy = join(root, `copy-${n}`);
    await expect(stored!.copyTo('part.stl', copy)).rejects.toThrow(LostPart);
    await expect(fs.lstat(copy)).rejects.toMatchObject({ code: 'ENOENT' });
    expect(await store.find(a.key)).toBeUndefined();
    await checkStored((await store.keep(a.key, a.record, a.files))!, a);
  });

  test('names and keys that it does not have are faults of the program', async () => {
    const store = await opened();
    const stored = await store.keep(a.key, a.record, a.files);
    await expect(stored!.read('../../secret')).rejects.toThrow(TypeError);
    for (const key of ['', '../x', a.key.toUpperCase(), `${a.key}/`]) {
      await expect(store.find(key)).rejects.toThrow(TypeError);
      await expect(store.keep(key, 1, [])).rejects.toThrow(TypeError);
    }
  });
});

describe('a cache that cannot be used costs a sentence', () => {
  const useless = async (words: RegExp): Promise<void> => {
    const store = await opened();
    await keepBoth(store);
    expect(await store.find(a.key)).toBeUndefined();
    await store.prune();
    expect(store.notes).toHaveLength(1);
    expect(store.notes[0]).toMatch(/^Parts are not kept for the next run: .*\.$/);
    expect(store.notes[0]).toMatch(words);
  };

  test('a file stands there, or on the way, or a link to nowhere', async () => {
    await fs.mkdir(join(cache, '..'));
    await fs.writeFile(cache, 'precious');
    await useless(/is not a folder/);
    expect(await fs.readFile(cache, 'utf8')).toBe('precious');
    cache = join(cache, 'below');
    await useless(/is not a folder/);
    cache = join(root, `case-${n}-link`);
    symlinkSync(join(root, 'nowhere'), cache);
    await useless(/is a symbolic link that leads nowhere/);
    cache = join(root, `case-${n}-inner`);
    await fs.mkdir(join(root, 'elsewhere'));
    await fs.mkdir(cache);
    symlinkSync(join(root, 'elsewhere'), join(cache, 'parts-1'));
    await useless(/is not a folder/);
    expect(await fs.readdir(join(root, 'elsewhere'))).toEqual([]);
  });

  test.skipIf(process.getuid?.() !== 0)("another user's folder", async () => {
    await fs.mkdir(join(cache, 'parts-1'), { recursive: true });
    await fs.chown(join(cache, 'parts-1'), 12345, 12345);
    await useless(/belongs to another user/);
    expect(await entries()).toEqual([]);
  });

  test('little room on the disk is left to the job’s own files', async () => {
    const { bavail, bsize } = statfsSync(root);
    const store = await opened({ reserve: bavail * bsize * 2 });
    await keepBoth(store);
    expect(store.notes).toHaveLength(1);
    expect(store.notes[0]).toMatch(/nearly full/);
    expect(await entries()).toEqual([]);
  });

  const mount = (...given: string[]): boolean => spawnSync('mount', ['-t', 'tmpfs', ...given]).status === 0;
  const mayMount = ((): boolean => {
    if (process.platform !== 'linux' || process.getuid?.() !== 0) return false;
    return mount('-o', 'size=64k', 'tmpfs', root) && spawnSync('umount', [root]).status === 0;
  })();

  test.skipIf(!mayMount)('a real full disk, and a real read-only one, which is still read from', async () => {
    await fs.mkdir(cache, { recursive: true });
    expect(mount('-o', 'size=128k', 'tmpfs', cache)).toBe(true);
    try {
      const store = await opened();
      await checkStored((await store.keep(a.key, a.record, a.files))!, a);
      expect(
        await store.keep(b.key, b.record, [{ name: 'x', bytes: new Uint8Array(2 ** 18) }]),
      ).toBeUndefined();
      expect(store.notes).toEqual([expect.stringMatching(/full/)]);
      // What was begun is gone, what was there is not.
      expect(await entries()).toEqual([`${a.key}.part`]);
      expect(spawnSync('mount', ['-o', 'remount,ro', cache]).status).toBe(0);
      const later = await opened();
      await checkStored((await later.find(a.key))!, a);
      await later.prune(0);
      expect(await later.keep(b.key, b.record, b.files)).toBeUndefined();
      expect(later.notes).toEqual([expect.stringMatching(/cannot be written/)]);
      await checkStored((await later.find(a.key))!, a);
    } finally {
      spawnSync('umount', [cache]);
    }
  });
});

describe('pruning', () => {
  const store = () => opened();
  const used = async (key: string, seconds: number): Promise<void> =>
    fs.utimes(entryPath(key), seconds, seconds);
  const now = Date.now() / 1000;

  test('the parts used longest ago go first, until the rest is small enough', async () => {
    const samples = [1, 2, 3, 4].map((i) => sample(i, 10_000));
    const s = await store();
    for (const { key, record, files } of samples) await s.keep(key, record, files);
    for (const [i, { key }] of samples.entries()) await used(key, now - 1000 + i);
    // Finding is using.
    await s.find(samples[0]!.key);
    await s.prune(24_000);
    expect(await entries()).toEqual([samples[0]!, samples[3]!].map((x) => `${x.key}.part`).sort());
    await s.prune();
    expect(await entries()).toHaveLength(2);
    await s.prune(0);
    expect(await entries()).toEqual([]);
  });

  test('clocks that were set ahead or back lose nothing that has room, and order what follows', async () => {
    const [old, ahead, usual] = [sample(1), sample(2), sample(3)];
    const s = await store();
    for (const { key, record, files } of [old, ahead, usual]) await s.keep(key, record, files);
    await used(old.key, 0);
    await used(ahead.key, now + 10 * 365 * 86_400);
    await s.prune();
    for (const x of [old, ahead, usual]) await checkStored((await s.find(x.key))!, x);
    await used(ahead.key, now + 10 * 365 * 86_400);
    await used(usual.key, now - 60);
    await s.prune();
    // What was used ten years ahead was used now at the latest, and goes before what is used from here on.
    expect((await fs.stat(entryPath(ahead.key))).mtimeMs).toBeLessThan((now + 3600) * 1000);
    await used(usual.key, now + 3600);
    await s.prune(4_000);
    expect(await entries()).toEqual([`${usual.key}.part`]);
  });

  test('what killed runs left goes after a day, whichever way the clock went; what is being written stays', async () => {
    const s = await store();
    const half = (i: number): string => join(cache, 'parts-1', `${a.key}.${i}${'0'.repeat(15)}.half`);
    for (const [i, seconds] of [now, now - 3 * 86_400, now + 3 * 86_400].entries()) {
      await fs.writeFile(half(i), 'x');
      await fs.utimes(half(i), seconds, seconds);
    }
    await fs.writeFile(join(cache, 'parts-1', 'notes.txt'), 'mine');
    await s.prune(0);
    expect(await entries()).toEqual([`${a.key}.0${'0'.repeat(15)}.half`, 'notes.txt'].sort());
  });

  test('links and what they lead to, folders, absurd sizes', async () => {
    const s = await store();
    await s.keep(a.key, a.record, a.files);
    await fs.writeFile(join(root, 'precious'), 'x');
    await fs.mkdir(join(root, `precious-${n}`));
    await fs.writeFile(join(root, `precious-${n}`, 'x'), 'x');
    const [link, folder, huge, folderLink] = [5, 6, 7, 8].map((i) => entryPath(sample(i).key));
    symlinkSync(join(root, 'precious'), link!);
    symlinkSync(join(root, `precious-${n}`), folderLink!);
    await fs.mkdir(join(folder!, 'deeper'), { recursive: true });
    await (await fs.open(huge!, constants.O_CREAT | constants.O_WRONLY)).close();
    await fs.truncate(huge!, 2 ** 42);
    await s.prune();
    expect(await entries()).toEqual([`${a.key}.part`]);
    expect(await fs.readFile(join(root, 'precious'), 'utf8')).toBe('x');
    expect(await fs.readdir(join(root, `precious-${n}`))).toEqual(['x']);
  });
});
