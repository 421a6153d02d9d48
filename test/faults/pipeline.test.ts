/**
 * Jobs of several parts, with threads, a cache and a scratch folder: killed and failing at the calls they make there.
 * Every `stride`-th call is taken; PATTERNWRIGHT_FAULTS=all takes each.
 */
import { existsSync, mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, describe, expect, test } from 'vitest';
import { recoverFolder } from '../../core/files/folder.js';
import { ensureBuilt } from '../cli/helpers/built.js';
import { temporaryFolder } from '../cli/helpers/folders.js';
import { type DiskFault, type Ended, expectClear, inLanes, runProgram } from './helpers/program.js';
import { found, giveJob, mixedJob, namesOn, newShelf, plate, type Shelf } from './helpers/shelf.js';

beforeAll(ensureBuilt);

const root = temporaryFolder();
const patience = 1_800_000;
const lanes = 2;
const all = process.env.PATTERNWRIGHT_FAULTS === 'all';
const sizes = [20, 24] as const;

/** The whole output of each size, as one thread makes it without a cache. */
const whole: (readonly string[])[] = [];
const alone = [...plate, '--threads', '1', '--cache', 'none'];
const cached = [...plate, '--threads', '2', '--cache', 'cache'];
const uncached = [...plate, '--threads', '2', '--cache', 'none'];

/** A shelf whose runs have temporary files and a cache of their own. */
interface Place extends Shelf {
  readonly temporary: string;
  readonly cache: string;
}

function newPlace(name: string): Place {
  const shelf = newShelf(root, name);
  const place = { ...shelf, temporary: join(shelf.cwd, 'tmp'), cache: join(shelf.cwd, 'cache') };
  mkdirSync(place.temporary);
  return place;
}

const run = (place: Place, argv: readonly string[], disk?: Omit<DiskFault, 'watch'>): Promise<Ended> =>
  runProgram(argv, {
    cwd: place.cwd,
    env: { TMPDIR: place.temporary },
    ...(disk && { faults: { disk: { watch: [place.path, place.cache, place.temporary], ...disk } } }),
  });

beforeAll(async () => {
  const place = newPlace('whole');
  for (const size of sizes) {
    giveJob(place, mixedJob(size));
    expect(await run(place, alone)).toMatchObject({ code: 0, out: '', err: '' });
    whole.push(found(place));
  }
  expect(whole[0]).not.toEqual(whole[1]);
}, patience);

/** How many calls an undisturbed run makes that change the disk, replacing size 0 by size 1 with an empty cache. */
async function callsOf(argv: readonly string[]): Promise<readonly string[]> {
  const place = newPlace(`counted-${argv.join('').length}-${readdirSync(root).length}`);
  giveJob(place, mixedJob(sizes[0]));
  expect((await run(place, alone)).code).toBe(0);
  giveJob(place, mixedJob(sizes[1]));
  const trace = join(place.cwd, 'trace');
  expect(await run(place, argv, { calls: 'writing', trace })).toMatchObject({ code: 0, err: '' });
  expect(found(place)).toEqual(whole[1]);
  expect(readdirSync(place.temporary)).toEqual([]);
  return readFileSync(trace, 'utf8').trimEnd().split('\n');
}

const numbersOf = (calls: readonly string[], stride: number): readonly number[] =>
  calls.map((_, i) => i + 1).filter((n) => all || n % stride === 1);

const standing = (place: Place): 0 | 1 => {
  const which = JSON.stringify(found(place)) === JSON.stringify(whole[1]) ? 1 : 0;
  expect(found(place)).toEqual(whole[which]);
  return which;
};

const halves = ({ cache }: Place): readonly string[] =>
  existsSync(join(cache, 'parts-1'))
    ? readdirSync(join(cache, 'parts-1')).filter((name) => !name.endsWith('.part'))
    : [];

describe.each([
  ['with a cache', cached, 6],
  ['without one', uncached, 9],
] as const)('killed at calls on the disk, %s', (name, argv, stride) => {
  test(
    'leaves the old output or the new one; the next run makes the same bytes of what is kept',
    async () => {
      const calls = await callsOf(argv);
      expect(calls.length).toBeGreaterThan(60);
      expect(calls.some((call) => call.includes(' worker '))).toBe(true);
      const places = Array.from({ length: lanes }, (_, i) => newPlace(`killed-${name}-${i}`));
      const holds = await Promise.all(
        places.map(async (place) => {
          giveJob(place, mixedJob(sizes[0]));
          expect((await run(place, alone)).code).toBe(0);
          return 0 as 0 | 1;
        }),
      );
      // What earlier ones kept is taken away half of the time, so that all of the work is met.
      const points = numbersOf(calls, stride).map((at, i) => ({
        at,
        isEmptied: i % 4 < 2,
        fault: i % 8 < 4 ? ('SIGKILL' as const) : ('torn' as const),
      }));
      const emptied = { killed: 0, of: 0 };
      await inLanes(lanes, points, async ({ at, isEmptied, fault }, lane) => {
        const place = places[lane]!;
        if (isEmptied) rmSync(place.cache, { recursive: true, force: true });
        const fresh = (1 - holds[lane]!) as 0 | 1;
        giveJob(place, mixedJob(sizes[fresh]));
        const ended = await run(place, argv, { calls: 'writing', at, fault });
        if (ended.signal === null) expect(ended).toMatchObject({ code: 0, err: '' });
        else expect(ended).toMatchObject({ signal: 'SIGKILL', err: '' });
        const now = standing(place);
        if (ended.signal === null) expect(now).toBe(fresh);
        if (isEmptied) emptied.of++;
        if (isEmptied && ended.signal !== null) emptied.killed++;
        await recoverFolder(join(place.path, 'out'));
        expect(namesOn(place)).toEqual(['out']);
        expect(standing(place)).toBe(now);
        holds[lane] = now;
      });
      // A run that makes all of its parts makes as many calls as were counted, but for a few by how its threads meet.
      expect(emptied.of).toBeGreaterThan(points.length / 3);
      expect(emptied.killed).toBeGreaterThanOrEqual(emptied.of - 2);
      for (const [lane, place] of places.entries()) {
        giveJob(place, mixedJob(sizes[1 - holds[lane]!]!));
        expect(await run(place, argv)).toMatchObject({ code: 0, out: '', err: '' });
        expect(standing(place)).toBe(1 - holds[lane]!);
        expect(namesOn(place)).toEqual(['out']);
        // Scratch of the dead is gone. Halves of the cache go after a day: another run may be at them.
        expect(readdirSync(place.temporary)).toEqual([]);
        expect(halves(place).every((half) => /^[0-9a-f]{64}\.[0-9a-f]+\.half$/.test(half))).toBe(true);
      }
    },
    patience,
  );
});

test.each(['SIGINT', 'SIGTERM'] as const)(
  '%s while parts are made: whole files, words on how to go on, and the next run does',
  async (fault) => {
    const place = newPlace(`told-${fault}`);
    giveJob(place, mixedJob(sizes[0]));
    expect((await run(place, alone)).code).toBe(0);
    giveJob(place, mixedJob(sizes[1]));
    const trace = join(place.cwd, 'trace');
    const argv = cached.filter((word) => word !== '--quiet');
    // The cache takes the first part at about the fifth call after the place has been tried.
    const ended = await run(place, argv, { calls: 'writing', at: 7, fault, trace });
    expect(ended.signal).toBe(fault);
    expect(ended.err).toMatch(/^Interrupted\.\nNothing was written; shelf\/out is as it was before\.\s/);
    expect(ended.err).toMatch(/The same command (goes on from there|begins anew)\.\n$/);
    expect(standing(place)).toBe(0);
    expect(namesOn(place)).toEqual(['out']);
    expect(readdirSync(place.temporary)).toEqual([]);
    expect(await run(place, cached)).toMatchObject({ code: 0, err: '' });
    expect(standing(place)).toBe(1);
  },
  patience,
);

describe('a cache that fails', () => {
  test(
    'from any call on, in each way it may: the job is made all the same',
    async () => {
      const calls = (await callsOf(cached)).filter((call) => call.includes('/cache'));
      expect(calls.length).toBeGreaterThan(10);
      const codes = ['ENOSPC', 'EIO', 'EROFS', 'EACCES', 'EDQUOT', 'EMFILE'] as const;
      const numbers = Array.from({ length: calls.length + 6 }, (_, i) => i + 1).filter(
        (n) => all || n % 3 === 1,
      );
      const points = numbers.flatMap((at, i) =>
        (all ? codes : [codes[i % codes.length]!]).map((fault) => ({ at, fault, i })),
      );
      expect(new Set(points.map(({ fault }) => fault))).toEqual(new Set(codes));
      await inLanes(lanes, points, async ({ at, fault, i }) => {
        const place = newPlace(`cache-${at}-${fault}`);
        giveJob(place, mixedJob(sizes[1]));
        const ended = await runProgram(
          cached.filter((word) => word !== '--quiet'),
          {
            cwd: place.cwd,
            env: { TMPDIR: place.temporary },
            faults: { disk: { watch: [place.cache], at, fault, onwards: true } },
          },
        );
        expect({ at, fault, code: ended.code, err: ended.err }).toMatchObject({ code: 0 });
        expect(ended.err).toMatch(/^(Parts are not kept for the next run: [^\n]*\.\n)?$/);
        expect(ended.err).not.toMatch(/undefined|Error:/);
        expect(found(place)).toEqual(whole[1]);
        expect(readdirSync(place.temporary)).toEqual([]);
        // Sound again: what was kept meanwhile is right or not there.
        giveJob(place, mixedJob(sizes[1]));
        if (i % 4 === 0) {
          expect(await run(place, cached)).toMatchObject({ code: 0, err: '' });
          expect(found(place)).toEqual(whole[1]);
        }
      });
    },
    patience,
  );

  test(
    'with a byte changed anywhere in it: the same output',
    async () => {
      const place = newPlace('damaged');
      giveJob(place, mixedJob(sizes[1]));
      expect(await run(place, cached)).toMatchObject({ code: 0, err: '' });
      const folder = join(place.cache, 'parts-1');
      const names = readdirSync(folder);
      const sound = new Map(names.map((name) => [name, readFileSync(join(folder, name))]));
      // A place in the header, in the record, and in each of what lies behind it.
      const shares = all
        ? Array.from({ length: 40 }, (_, i) => (i + 0.5) / 40)
        : [0.001, 0.04, 0.1, 0.3, 0.8];
      for (const share of shares) {
        for (const [name, bytes] of sound) {
          const changed = Buffer.from(bytes);
          const at = Math.floor(share * changed.length);
          changed[at] = changed[at]! ^ 0x10;
          writeFileSync(join(folder, name), changed);
        }
        expect(await run(place, cached)).toMatchObject({ code: 0, out: '', err: '' });
        expect({ share, files: found(place) }).toEqual({ share, files: whole[1] });
      }
    },
    patience,
  );
});

test(
  'a full disk for what is made on the way: one message that names the way out, the old output stays',
  async () => {
    const place = newPlace('scratch');
    giveJob(place, mixedJob(sizes[0]));
    expect((await run(place, alone)).code).toBe(0);
    giveJob(place, mixedJob(sizes[1]));
    for (const at of [1, 2, 4, 6]) {
      const ended = await runProgram(uncached, {
        cwd: place.cwd,
        env: { TMPDIR: place.temporary },
        faults: { disk: { watch: [place.temporary], calls: 'writing', at, fault: 'ENOSPC', onwards: true } },
      });
      expectClear(
        ended,
        1,
        /What is made on the way cannot be kept: the disk of \S*tmp\S* is full\. Free some space, or set TMPDIR/,
        /Nothing was written\.$/m,
      );
      expect(standing(place)).toBe(0);
      expect(namesOn(place)).toEqual(['out']);
      rmSync(place.temporary, { recursive: true });
      mkdirSync(place.temporary);
    }
  },
  patience,
);

test(
  'threads that end amid their work cost the parts they worked at',
  async () => {
    const place = newPlace('thread');
    giveJob(place, mixedJob(sizes[1]));
    const trace = join(place.cwd, 'trace');
    expect((await run(place, uncached, { trace })).code).toBe(0);
    const calls = readFileSync(trace, 'utf8').trimEnd().split('\n');
    const ofWorkers = calls.flatMap((call, i) => (call.includes(' worker ') ? [i + 1] : []));
    expect(ofWorkers.length).toBeGreaterThan(4);
    for (const at of [ofWorkers[0]!, ofWorkers[3]!]) {
      rmSync(join(place.path, 'out'), { recursive: true, force: true });
      const ended = await run(place, uncached, { at, fault: 'thread ends' });
      expect(ended.err).not.toMatch(/^ {4}at |node:internal|undefined/m);
      if (ended.code === 0) expect(found(place)).toEqual(whole[1]);
      else {
        expect([1, 3]).toContain(ended.code);
        expect(ended.err).toMatch(/It was not made: the thread that worked at it ended/);
        if (ended.code === 1) expect(ended.err).toMatch(/Nothing was written\.\n$/);
      }
      expect(readdirSync(place.temporary)).toEqual([]);
    }
  },
  patience,
);

test(
  'two runs with one cache at the same time, of the same job and of another: right bytes of both',
  async () => {
    const places = [newPlace('together-a'), newPlace('together-b'), newPlace('together-c')];
    const cache = join(root, 'one-cache');
    for (const [i, place] of places.entries()) giveJob(place, mixedJob(sizes[i === 2 ? 0 : 1]));
    const argv = [...plate, '--threads', '2', '--cache', cache];
    for (let round = 0; round < 2; round++) {
      const ended = await Promise.all(places.map((place) => run(place, argv)));
      for (const one of ended) expect(one).toMatchObject({ code: 0, out: '', err: '' });
      for (const [i, place] of places.entries()) expect(found(place)).toEqual(whole[i === 2 ? 0 : 1]);
    }
  },
  patience,
);
