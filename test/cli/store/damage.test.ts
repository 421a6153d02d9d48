/** Whatever befalls the files of a store: right bytes or nothing, and what is missing can be kept anew. */
import { spawnSync } from 'node:child_process';
import * as fs from 'node:fs/promises';
import { join } from 'node:path';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { sumOf } from '../../../cli/store/entry.js';
import { LostPart, openStore } from '../../../cli/store/store.js';
import { temporaryFolder } from '../helpers/folders.js';
import { checkStored, sample } from './helpers.js';

const root = temporaryFolder();
const outside = join(root, 'outside');
const samples = [sample(0), sample(1), sample(2)];
const place = (cache: string, i: number): string => join(cache, 'parts-1', `${samples[i]!.key}.part`);

/** Done to the first part's file. */
type Damage = (path: string, cache: string) => Promise<unknown>;

/** Leaves what an earlier damage has put there. */
const rewritten =
  (change: (bytes: Buffer) => Uint8Array): Damage =>
  async (path) => {
    const bytes = await readPlain(path);
    if (bytes !== undefined) await fs.writeFile(path, change(bytes));
  };

async function readPlain(path: string): Promise<Buffer | undefined> {
  const facts = await fs.lstat(path).catch(() => undefined);
  return facts?.isFile() && facts.size < 1e6 ? fs.readFile(path) : undefined;
}

const inPlaceOf =
  (put: Damage): Damage =>
  async (path, cache) => {
    await fs.rm(path, { recursive: true, force: true });
    await put(path, cache);
  };

const share = fc.double({ min: 0, max: 1, maxExcluded: true, noNaN: true });

/** Changes that no reading can miss: each byte of the file is under a sum. */
const spoiled = fc.oneof(
  fc.tuple(share, fc.nat(7)).map(([at, bit]) =>
    rewritten((bytes) => {
      bytes[Math.floor(at * bytes.length)]! ^= 1 << bit;
      return bytes;
    }),
  ),
  share.map((at) => rewritten((bytes) => bytes.subarray(0, Math.floor(at * bytes.length)))),
  fc
    .uint8Array({ minLength: 1, maxLength: 99 })
    .map((more) => rewritten((bytes) => Buffer.concat([bytes, more]))),
  fc.uint8Array({ maxLength: 300 }).map((other) => rewritten(() => other)),
  fc.constantFrom<Damage>(
    rewritten((bytes) => bytes.fill(0)),
    (path) => fs.truncate(path, 2 ** 42),
    (path) => fs.rm(path),
    // In place of what is there: to write into a pipe would wait for a reader.
    inPlaceOf((path, cache) => fs.copyFile(place(cache, 1), path)),
    inPlaceOf((path, cache) => fs.symlink(place(cache, 1), path)),
    inPlaceOf((path) => fs.symlink(outside, path)),
    inPlaceOf((path) => fs.symlink('/dev/zero', path)),
    inPlaceOf((path) => fs.symlink(path, path)),
    inPlaceOf((path) => fs.mkdir(join(path, 'deep', 'er'), { recursive: true })),
    inPlaceOf(async (path) => spawnSync('mkfifo', [path])),
  ),
);

/** A header whose sum is right, in a file as long as `length` says, of what no program of ours writes. */
const forged = fc
  .tuple(
    fc.oneof(
      fc.json(),
      fc
        .record({
          key: fc.constantFrom(samples[0]!.key, samples[1]!.key, '', 7),
          record: fc.constant({ of: 'another form' }),
          files: fc.oneof(
            fc.constantFrom<unknown>(null, {}, 'part.stl', [null], [[]], [{}]),
            fc.array(
              fc.record({
                name: fc.constantFrom<unknown>('part.stl', '../../outside', '__proto__', 7),
                length: fc.constantFrom<unknown>(-1, 0.5, 1e300, 2 ** 40, '3', null, 0),
                sha256: fc.constantFrom<unknown>(sumOf(new Uint8Array()), '', 7),
              }),
              { minLength: 1, maxLength: 3 },
            ),
          ),
        })
        .map((header) => JSON.stringify(header)),
    ),
    fc.constantFrom(0, 2 ** 40),
  )
  .map(
    ([header, more]): Damage =>
      async (path) => {
        await fs.writeFile(
          path,
          `patternwright part 1 ${Buffer.byteLength(header)} ${sumOf(Buffer.from(header))}\n${header}`,
        );
        if (more > 0) await fs.truncate(path, (await fs.stat(path)).size + more);
      },
  );

let n = 0;
const afterDamage = async (damages: readonly Damage[], whileHeld: boolean): Promise<void> => {
  const cache = join(root, `case-${n++}`);
  await fs.writeFile(outside, 'precious');
  const store = await openStore(cache, { reserve: 0 });
  for (const { key, record, files } of samples) await store.keep(key, record, files);
  const [first, ...others] = samples as [(typeof samples)[0], ...typeof samples];
  const held = whileHeld ? await store.find(first.key) : undefined;
  for (const damage of damages) await damage(place(cache, 0), cache).catch(() => undefined);
  const found = held ?? (await store.find(first.key));
  const copy = join(root, `copy-${n}`);
  if (found !== undefined) {
    // A forged record has names of its own.
    if (JSON.stringify(found.record) === JSON.stringify(first.record)) {
      await checkStored(found, first).catch((error) => expect(error).toBeInstanceOf(LostPart));
      await found.copyTo('part.stl', copy).then(
        async () => expect((await fs.readFile(copy)).equals(first.files[0]!.bytes)).toBe(true),
        async (error) => {
          expect(error).toBeInstanceOf(LostPart);
          await expect(fs.lstat(copy)).rejects.toThrow('ENOENT');
        },
      );
    } else {
      expect(found.record).toEqual({ of: 'another form' });
    }
    await fs.rm(copy, { force: true });
  }
  await checkStored((await store.keep(first.key, first.record, first.files))!, first);
  for (const other of others) await checkStored((await store.find(other.key))!, other);
  await store.prune();
  for (const each of samples) await checkStored((await store.find(each.key))!, each);
  expect(await fs.readFile(outside, 'utf8')).toBe('precious');
  await fs.rm(cache, { recursive: true });
};

test('random damage, before the part is found and after', async () => {
  await fc.assert(
    fc.asyncProperty(fc.array(spoiled, { minLength: 1, maxLength: 3 }), fc.boolean(), afterDamage),
    { numRuns: 100 },
  );
});

test('one damage, whatever it is, is never taken for the part', async () => {
  await fc.assert(
    fc.asyncProperty(spoiled, async (damage) => {
      const cache = join(root, `case-${n++}`);
      const store = await openStore(cache, { reserve: 0 });
      for (const { key, record, files } of samples) await store.keep(key, record, files);
      const whole = await fs.readFile(place(cache, 0));
      await damage(place(cache, 0), cache);
      const same = (await readPlain(place(cache, 0)))?.equals(whole) ?? false;
      fc.pre(!same);
      const found = await store.find(samples[0]!.key);
      if (found !== undefined) await expect(checkStored(found, samples[0]!)).rejects.toThrow(LostPart);
    }),
    { numRuns: 60 },
  );
});

test('headers that are forged, with a right sum', async () => {
  await fc.assert(
    fc.asyncProperty(forged, fc.boolean(), (damage, held) => afterDamage([damage], held)),
    { numRuns: 100 },
  );
});
