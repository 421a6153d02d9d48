import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { openShelf } from '../../../cli/crew/shelf.js';
import { temporaryFolder } from '../helpers/folders.js';

const folder = temporaryFolder();
const [key, other] = ['a'.repeat(64), 'b'.repeat(64)];
const file = { name: 'one', bytes: Uint8Array.of(1, 2, 3) };

test('what no other run asks for does not go into the cache; another thread finds it', async () => {
  const places = { cache: join(folder, 'cache'), scratch: join(folder, 'scratch') };
  const [mine, theirs] = [await openShelf(places), await openShelf(places)];
  expect(await theirs.find(key)).toBeUndefined();
  await mine.keep(key, null, [file], true);
  await mine.keep(other, null, [file]);
  const kept = readdirSync(join(folder, 'cache', 'parts-1'));
  expect(kept).toEqual([`${other}.part`]);
  for (const shelf of [mine, theirs]) {
    for (const k of [key, other])
      expect([...((await (await shelf.find(k))?.read('one')) ?? [])]).toEqual([1, 2, 3]);
  }
});

test('a cache that takes nothing leaves all to the scratch folder, of every thread', async () => {
  const notes: string[] = [];
  // Below a file there is no folder.
  const places = { cache: join(folder, 'cache', 'CACHEDIR.TAG', 'x'), scratch: join(folder, 'scratch-2') };
  const [mine, theirs] = [await openShelf(places, (t) => notes.push(t)), await openShelf(places)];
  await mine.keep(key, null, [file]);
  expect([...((await (await theirs.find(key))?.read('one')) ?? [])]).toEqual([1, 2, 3]);
  expect(notes).toHaveLength(1);
});
