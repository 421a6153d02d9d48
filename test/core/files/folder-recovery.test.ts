/** What stands beside an output folder: whose it is, how long it stays, what it is good for. */
import { spawnSync } from 'node:child_process';
import * as fs from 'node:fs/promises';
import { basename, join } from 'node:path';
import { afterEach, describe, expect, test, vi } from 'vitest';
import { checkFolder, recoverFolder, writeFolder } from '../../../core/files/folder.js';
import { FolderError } from '../../../core/files/folder-error.js';
import { siblingPath } from '../../../core/files/folder-siblings.js';
import type { OutputFile } from '../../../core/files/output-file.js';
import { failing, failure, freshShops, markOf, systemError, version } from './folder-versions.js';

let shop: string;
let out: string;
freshShops((...fresh) => {
  [shop, out] = fresh;
});
afterEach(() => {
  vi.restoreAllMocks();
});

const day = 24 * 3600 * 1000;
const setClock = (by: number): void => {
  vi.restoreAllMocks();
  const now = Date.now();
  vi.spyOn(Date, 'now').mockReturnValue(now + by);
};

/** As a run of this host that has died would have called it. */
const ofDeadRun = (kind: 'partial' | 'aside' | 'trash', target = out): string => {
  const { pid } = spawnSync(process.execPath, ['-e', '0']);
  return siblingPath(target, kind).replace(`-${process.pid}-`, `-${pid}-`);
};
const ofOtherHost = (kind: 'partial' | 'aside'): string => join(shop, `.out.${kind}-00000000-1-00000000`);

describe('clocks', () => {
  test.each([
    ['a day ahead', day + 1000],
    ['years ahead', 4000 * day],
    ['years back', -4000 * day],
  ])('set %s while a run is at work: another run leaves its folder alone, both end well', async (_, by) => {
    await writeFolder(out, version('old'));
    const whileOthersRun = async function* (): AsyncGenerator<OutputFile> {
      for (const [i, file] of version('mine').entries()) {
        yield file;
        if (i !== 6) continue;
        setClock(by);
        await recoverFolder(out);
        await writeFolder(out, version('theirs'));
        expect(await markOf(out)).toBe('theirs');
      }
    };
    await writeFolder(out, whileOthersRun());
    expect(await markOf(out)).toBe('mine');
    expect(await fs.readdir(shop)).toEqual(['out']);
  });

  test("another host's folder stays for a week, by a clock that may be days wrong", async () => {
    await writeFolder(out, version('old'));
    await fs.mkdir(ofOtherHost('partial'));
    for (const by of [0, day + 1000, 6 * day, -4000 * day]) {
      setClock(by);
      await recoverFolder(out);
      expect(await fs.readdir(shop)).toContain(basename(ofOtherHost('partial')));
    }
    setClock(8 * day);
    await recoverFolder(out);
    expect(await fs.readdir(shop)).toEqual(['out']);
  });

  test("a dead run's folders go at once, whatever the clock says", async () => {
    await writeFolder(out, version('old'));
    for (const by of [0, -4000 * day, 4000 * day]) {
      for (const kind of ['partial', 'aside', 'trash'] as const)
        await writeFolder(ofDeadRun(kind), version('dead', 2));
      setClock(by);
      expect(await recoverFolder(out)).toBe(false);
      expect(await fs.readdir(shop)).toEqual(['out']);
      expect(await markOf(out)).toBe('old');
    }
  });
});

test('a run whose folder is taken away at any moment fails with a reason, and never ends in a part of it', async () => {
  let calls = 0;
  const count = failing(() => void calls++);
  await writeFolder(join(shop, 'q', 'out'), version('mine', 2), { system: count });
  let failed = 0;
  for (let k = 0; k < calls; k++) {
    const place = join(shop, `k${k}`, 'out');
    await writeFolder(place, version('old', 2));
    let at = 0;
    const system = failing(async () => {
      if (at++ !== k) return;
      // As another host does that takes it for dead: renamed first, then deleted.
      for (const name of await fs.readdir(join(shop, `k${k}`))) {
        if (!name.includes('.partial-')) continue;
        await fs.rename(join(shop, `k${k}`, name), join(shop, `k${k}`, 'trash'));
        await fs.rm(join(shop, `k${k}`, 'trash'), { recursive: true });
      }
    });
    const ended = await writeFolder(place, version('mine', 2), { system }).then(
      () => 'mine',
      (error: unknown) => {
        expect(error).toMatchObject({
          code: 'write-failed',
          message: expect.stringMatching(/missing|taken away/),
        });
        failed++;
        return 'old';
      },
    );
    await recoverFolder(place);
    expect(await markOf(place)).toBe(ended);
  }
  expect(failed).toBeGreaterThan(10);
});

describe('an old folder that a killed run left aside', () => {
  test('is put back where nothing stands, or an empty folder', async () => {
    for (const isEmpty of [false, true]) {
      await writeFolder(ofDeadRun('aside'), version('old', 2));
      if (isEmpty) await fs.mkdir(out);
      expect(await recoverFolder(out)).toBe(true);
      expect(await markOf(out)).toBe('old');
      expect(await fs.readdir(shop)).toEqual(['out']);
      await fs.rm(out, { recursive: true });
    }
  });

  test("stays where another program's folder or a file has its place, until that goes", async () => {
    const aside = ofDeadRun('aside');
    await writeFolder(aside, version('old', 2));
    await fs.mkdir(out);
    await fs.writeFile(join(out, 'boat.jpg'), 'x');
    expect((await failure(writeFolder(out, version('new')))).code).toBe('foreign-folder');
    expect(await markOf(aside)).toBe('old');
    await fs.rm(out, { recursive: true });
    await fs.writeFile(out, 'x');
    expect((await failure(writeFolder(out, version('new')))).code).toBe('not-a-folder');
    expect(await markOf(aside)).toBe('old');
    await fs.rm(out);
    expect(await recoverFolder(out)).toBe(true);
    expect(await markOf(out)).toBe('old');
  });

  test('is not deleted where it is not ours', async () => {
    await writeFolder(out, version('old'));
    const aside = ofDeadRun('aside');
    await fs.mkdir(aside);
    await fs.writeFile(join(aside, 'boat.jpg'), 'x');
    await writeFolder(out, version('new'));
    expect(await fs.readFile(join(aside, 'boat.jpg'), 'utf8')).toBe('x');
  });
});

test('names up to the longest a disk takes, told apart', async () => {
  const long = (last: string): string => join(shop, `${'x'.repeat(254)}${last}`);
  const wide = join(shop, 'ä'.repeat(127));
  for (const place of [long('a'), wide]) {
    await writeFolder(place, version('old', 2));
    await writeFolder(place, version('new', 2));
    expect(await markOf(place)).toBe('new');
  }
  await fs.rename(long('a'), ofDeadRun('aside', long('a')));
  expect(await recoverFolder(long('b'))).toBe(false);
  expect(await recoverFolder(long('a'))).toBe(true);
  expect(await markOf(long('a'))).toBe('new');
  expect(await fs.readdir(shop)).toHaveLength(2);
  expect((await failure(writeFolder(long('ab'), version('v')))).code).toBe('name-too-long');
});

test('the folder this command runs in is found by whatever links it is named', async () => {
  await fs.symlink(join(process.cwd(), '..'), join(shop, 'above'));
  expect((await failure(checkFolder(join(shop, 'above', basename(process.cwd()))))).code).toBe(
    'folder-in-use',
  );
});

describe('a place is tried before long work', () => {
  test('and left as it was, with an output in it, without, and below folders that are to be made', async () => {
    await checkFolder(out);
    await checkFolder(join(shop, 'a', 'b', 'out'));
    expect(await fs.readdir(shop)).toEqual([]);
    await writeFolder(out, version('old', 2));
    await checkFolder(out);
    expect(await fs.readdir(shop)).toEqual(['out']);
    expect(await markOf(out)).toBe('old');
  });

  test.each([
    ['EROFS', 'read-only'],
    ['EACCES', 'no-permission'],
    ['ENOSPC', 'disk-full'],
  ] as const)('%s at any call that changes it: told, nothing left', async (system, code) => {
    for (const place of [out, join(shop, 'a', 'b')]) {
      let refusals = 0;
      for (const refused of ['mkdir', 'rmdir']) {
        for (let at = 1; ; at++) {
          let n = 0;
          const failingAt = failing((call) => {
            if (call === refused && ++n === at) throw systemError(system);
          });
          const ended = await checkFolder(place, { system: failingAt }).then(
            () => undefined,
            (error: unknown) => error,
          );
          if (n < at) break;
          // What is left of folders that were made is empty, and in the way of nothing.
          if (refused === 'mkdir' || at === 1) expect(ended).toMatchObject({ code });
          if (ended !== undefined) refusals++;
          if (refused === 'mkdir' || place === out) expect(await fs.readdir(shop)).toEqual([]);
          await fs.rm(join(shop, 'a'), { recursive: true, force: true });
        }
      }
      expect(refusals).toBeGreaterThanOrEqual(2);
    }
  });
});

test('a marker of any size is known by how it begins; one of another program is not read whole', async () => {
  await writeFolder(out, version('old', 2));
  const marker = join(out, 'summary.json');
  await fs.writeFile(marker, '{\n  "schemaVersion": 1,\n  "parts": [');
  await fs.truncate(marker, 2 ** 33);
  await checkFolder(out);
  await fs.writeFile(marker, '{"parts": [');
  await fs.truncate(marker, 2 ** 33);
  expect((await failure(checkFolder(out))).code).toBe('foreign-folder');
  await fs.writeFile(marker, '{"parts": [], "schemaVersion": 1}');
  await checkFolder(out);
  await fs.writeFile(marker, '{"schemaVersion": 1x');
  expect((await failure(checkFolder(out))).code).toBe('foreign-folder');
});

test('places that cannot be exchanged are told as such', async () => {
  for (const [code, wanted] of [
    ['EBUSY', 'folder-in-use'],
    ['EXDEV', 'folder-in-use'],
  ] as const) {
    await writeFolder(out, version('old', 2));
    const system = failing((call) => {
      if (call === 'rename') throw Object.assign(new Error(code), { code });
    });
    const error = await failure(writeFolder(out, version('new', 2), { system }));
    expect(error).toBeInstanceOf(FolderError);
    expect(error.code).toBe(wanted);
    expect(await markOf(out)).toBe('old');
    expect(await fs.readdir(shop)).toEqual(['out']);
  }
});
