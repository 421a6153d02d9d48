/** Disks that are full, read-only or failing: one clear message, and the old folder as it was. */
import { chmodSync, mkdirSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, describe, expect, test } from 'vitest';
import { recoverFolder } from '../../core/files/folder.js';
import { ensureBuilt } from '../cli/helpers/built.js';
import { listing, temporaryFolder } from '../cli/helpers/folders.js';
import { type ErrorCode, expectClear, inLanes, runProgram } from './helpers/program.js';
import { found, giveJob, namesOn, newShelf, plate, type Shelf, smallJob } from './helpers/shelf.js';
import { makeReadOnly, mayMount, mountNote, withDisk } from './helpers/small-disk.js';

beforeAll(ensureBuilt);

const root = temporaryFolder();
const lanes = 2;
const patience = 900_000;
const sizes = [20, 24] as const;

const run = (shelf: Shelf, argv: readonly string[] = plate) => runProgram(argv, { cwd: shelf.cwd });
const runToTheEnd = async (shelf: Shelf, size: number): Promise<readonly string[]> => {
  giveJob(shelf, smallJob(size));
  expect(await run(shelf)).toMatchObject({ code: 0, out: '', err: '' });
  return found(shelf);
};

/** What is said of each. */
const words: Readonly<Record<ErrorCode, RegExp>> = {
  ENOSPC: /The disk is full: \S*shelf\S* could not be written\. Free some space/,
  EDQUOT: /The disk is full: \S*shelf\S* could not be written\. Free some space/,
  EROFS: /The disk that would hold \S*shelf\S* is mounted read-only\. Choose a folder/,
  EACCES: /Writing \S*shelf\S* is not permitted\. Choose a folder/,
  EPERM: /Writing \S*shelf\S* is not permitted\. Choose a folder/,
  EIO: /\S*shelf\S* could not be written: .*EIO.*\. Check the folder and its disk/,
  EMFILE: /\S*shelf\S* could not be written: .*EMFILE.*\. Check the folder and its disk/,
  EBUSY: /\S*shelf\S* could not be written: .*EBUSY.*\. Check the folder and its disk/,
};

describe('a disk that fails at one call', () => {
  const shelves: Shelf[] = [];
  const whole: (readonly string[])[] = [];
  let calls: readonly string[] = [];

  beforeAll(async () => {
    for (let lane = 0; lane < lanes; lane++) {
      const shelf = newShelf(root, `failing-${lane}`);
      shelves.push(shelf);
      whole[1] ??= await runToTheEnd(shelf, sizes[1]);
      whole[0] = await runToTheEnd(shelf, sizes[0]);
      giveJob(shelf, smallJob(sizes[1]));
    }
    const counted = newShelf(root, 'counted');
    await runToTheEnd(counted, sizes[0]);
    const trace = join(root, 'trace');
    const disk = { watch: [counted.path], calls: 'writing' as const, trace };
    expect((await runProgram(plate, { cwd: counted.cwd, faults: { disk } })).code).toBe(0);
    calls = readFileSync(trace, 'utf8').trimEnd().split('\n');
  }, patience);

  const sweep = async (codeAt: (n: number) => ErrorCode, onwards: boolean): Promise<void> => {
    // What comes before has the folder in its place.
    const inPlace = calls.findLastIndex((call) => / sync .*\/shelf$/.test(call));
    expect(inPlace).toBeGreaterThan(30);
    const points = calls.map((_, i) => i + 1);
    await inLanes(lanes, points, async (at, lane) => {
      const shelf = shelves[lane]!;
      const fault = codeAt(at);
      const disk = { watch: [shelf.path], calls: 'writing' as const, at, fault, onwards };
      const ended = await runProgram(plate, { cwd: shelf.cwd, faults: { disk } });
      const told = { at, call: calls[at - 1], fault, code: ended.code, err: ended.err };
      const isNew = JSON.stringify(found(shelf)) === JSON.stringify(whole[1]);
      if (ended.code === 0) expect({ ...told, isNew }).toMatchObject({ err: '', isNew: true });
      else if (isNew) {
        expectClear(
          ended,
          1,
          new RegExp(`/shelf/out is in place, but its disk .*\\(${fault}\\)\\. Check the disk`),
        );
        expect(ended.err).not.toMatch(/Nothing was written/);
      } else {
        expectClear(ended, 1, words[fault], /Nothing was written\.$/m);
        expect(found(shelf)).toEqual(whole[0]);
        if (!onwards) expect({ ...told, names: namesOn(shelf) }).toMatchObject({ names: ['out'] });
      }
      // What fails after that is litter, which the next run clears.
      if (at <= inPlace) expect({ ...told, isNew }).toMatchObject({ code: 1, isNew: false });
      await recoverFolder(join(shelf.path, 'out'));
      expect(namesOn(shelf)).toEqual(['out']);
      if (isNew) await runToTheEnd(shelf, sizes[0]);
      giveJob(shelf, smallJob(sizes[1]));
    });
  };

  test('full, at every call that writes', () => sweep(() => 'ENOSPC', false), patience);

  test(
    'failing in other ways, at every call that writes, and from there on',
    async () => {
      const codes = ['EDQUOT', 'EIO', 'EROFS', 'EACCES', 'EPERM'] as const;
      await sweep((n) => codes[n % codes.length]!, true);
    },
    patience,
  );

  test(
    'one that takes nothing is told before anything is made',
    async () => {
      const shelf = newShelf(root, 'before');
      giveJob(shelf, smallJob(sizes[0]));
      const cache = join(shelf.cwd, 'cache');
      const disk = { watch: [shelf.path], calls: 'writing' as const, at: 1, fault: 'EROFS' as const };
      const argv = [...plate, '--cache', cache];
      const ended = await runProgram(argv, { cwd: shelf.cwd, faults: { disk } });
      expectClear(ended, 1, words.EROFS, /Nothing was written\.$/m);
      expect(listing(cache).filter((file) => file.includes('.part'))).toEqual([]);
      expect(namesOn(shelf)).toEqual([]);
    },
    patience,
  );

  test(
    'too many open files',
    async () => {
      const shelf = newShelf(root, 'open');
      const old = await runToTheEnd(shelf, sizes[0]);
      giveJob(shelf, smallJob(sizes[1]));
      for (const at of [1, 3, 7, 12]) {
        const disk = { watch: [shelf.path], calls: 'opening' as const, at, fault: 'EMFILE' as const };
        expectClear(await runProgram(plate, { cwd: shelf.cwd, faults: { disk } }), 1, words.EMFILE);
        expect(found(shelf)).toEqual(old);
        expect(namesOn(shelf)).toEqual(['out']);
      }
    },
    patience,
  );
});

describe.skipIf(!mayMount)(`a real disk${mountNote}`, () => {
  test(
    'full: the old folder stays, the message names the file; with room it is written',
    async () => {
      const shelf = newShelf(root, 'full');
      giveJob(shelf, smallJob(sizes[1]));
      await withDisk(shelf.path, '1500k', async () => {
        const old = await runToTheEnd(shelf, sizes[0]);
        const ballast = join(shelf.path, 'ballast');
        giveJob(shelf, smallJob(sizes[1]));
        for (const free of [0, 40, 130, 240, 330]) {
          // What is left over beside the old folder, KB.
          fill(shelf.path, ballast, free * 1024);
          expectClear(await run(shelf), 1, words.ENOSPC, /Nothing was written\.$/m);
          expect(found(shelf)).toEqual(old);
          rmSync(ballast);
          expect(namesOn(shelf)).toEqual(['out']);
        }
        await runToTheEnd(shelf, sizes[1]);
        expect(namesOn(shelf)).toEqual(['out']);
      });
    },
    patience,
  );

  test(
    'full where nothing stood: no folder, no parents',
    async () => {
      const shelf = newShelf(root, 'full-first');
      giveJob(shelf, smallJob(sizes[1]));
      await withDisk(shelf.path, '200k', async () => {
        const deep = ['plate', 'job.yaml', '--out', 'shelf/a/b/out'];
        expectClear(await run(shelf, deep), 1, words.ENOSPC, /Nothing was written\.$/m);
        expect(namesOn(shelf)).toEqual([]);
      });
    },
    patience,
  );

  test(
    'read-only: said before long work',
    async () => {
      const shelf = newShelf(root, 'read-only');
      giveJob(shelf, smallJob(sizes[0]));
      await withDisk(shelf.path, '1500k', async () => {
        const old = await runToTheEnd(shelf, sizes[0]);
        expect(makeReadOnly(shelf.path)).toBe(true);
        expectClear(await run(shelf), 1, words.EROFS, /Nothing was written\.$/m);
        expectClear(await run(shelf, ['plate', 'job.yaml', '--out', 'shelf/new']), 1, words.EROFS);
        expectClear(await run(shelf, ['plate', 'job.yaml', '--out', 'shelf/a/b']), 1, words.EROFS);
        expect(found(shelf)).toEqual(old);
        expect(namesOn(shelf)).toEqual(['out']);
      });
    },
    patience,
  );
});

/** Leaves `free` bytes on a disk. */
function fill(disk: string, ballast: string, free: number): void {
  writeFileSync(ballast, '');
  const page = new Uint8Array(4096);
  try {
    for (;;) writeFileSync(ballast, page, { flag: 'a' });
  } catch {
    // Full.
  }
  const size = statSync(ballast).size;
  writeFileSync(ballast, new Uint8Array(Math.max(0, size - free)));
  expect(readdirSync(disk)).toContain('ballast');
}

/** A user without rights, where the tests are the super-user's; else the tests' own. */
const other = process.getuid?.() === 0 ? { uid: 65534 } : {};

describe.skipIf(process.platform === 'win32')('a place that cannot be written', () => {
  test(
    'a folder, its parent, and a foreign old folder without the right to write',
    async () => {
      const shelf = newShelf(root, 'locked');
      chmodSync(root, 0o755);
      chmodSync(shelf.cwd, 0o755);
      const old = await runToTheEnd(shelf, sizes[0]);
      chmodSync(shelf.path, 0o555);
      for (const out of ['shelf/out', 'shelf/new', 'shelf/a/b']) {
        const ended = await runProgram(['plate', 'job.yaml', '--out', out], { cwd: shelf.cwd, ...other });
        expectClear(ended, 1, words.EACCES, /Nothing was written\.$/m);
      }
      chmodSync(shelf.path, 0o000);
      const hidden = await runProgram(plate, { cwd: shelf.cwd, ...other });
      expectClear(hidden, 1, words.EACCES, /Nothing was written\.$/m);
      chmodSync(shelf.path, 0o755);
      expect(found(shelf)).toEqual(old);
      expect(namesOn(shelf)).toEqual(['out']);
    },
    patience,
  );

  test(
    'a file where the folder or a parent should be',
    async () => {
      const shelf = newShelf(root, 'file');
      giveJob(shelf, smallJob(sizes[0]));
      writeFileSync(join(shelf.path, 'out'), 'precious');
      for (const [out, said] of [
        ['shelf/out', /shelf\/out is a file\. Choose a folder name that is free/],
        ['shelf/out/', /shelf\/out is a file\. Choose a folder name that is free/],
        ['shelf/out/a', /A file stands where \S*shelf\/out\/a needs a folder\. Move that file away/],
        ['shelf/out/a/b', /A file stands where \S*shelf\/out\/a\/b needs a folder\. Move that file away/],
      ] as const) {
        expectClear(await run(shelf, ['plate', 'job.yaml', '--out', out]), 1, said, /Nothing was written/);
      }
      expect(readFileSync(join(shelf.path, 'out'), 'utf8')).toBe('precious');
      expect(namesOn(shelf)).toEqual(['out']);
    },
    patience,
  );

  test(
    'somebody else’s folder, and one with an output of ours deep inside it',
    async () => {
      const shelf = newShelf(root, 'foreign');
      giveJob(shelf, smallJob(sizes[0]));
      mkdirSync(join(shelf.path, 'out/deep'), { recursive: true });
      writeFileSync(join(shelf.path, 'out/boat.jpg'), 'precious');
      writeFileSync(join(shelf.path, 'out/deep/summary.json'), '{"schemaVersion":1}');
      const before = listing(shelf.path);
      expectClear(await run(shelf), 1, /was not written by this program/, /Choose an empty or new folder/);
      expect(listing(shelf.path)).toEqual(before);
    },
    patience,
  );
});
