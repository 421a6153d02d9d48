/**
 * The program killed at every single call it makes on the disk, one run for each, and amid every write: exhaustive
 * where kills at random moments are a sample. The folder is the old one or the new one, whole.
 */
import { cpSync, mkdirSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, describe, expect, test } from 'vitest';
import { recoverFolder } from '../../core/files/folder.js';
import { ensureBuilt } from '../cli/helpers/built.js';
import { temporaryFolder } from '../cli/helpers/folders.js';
import { type Ended, inLanes, runProgram } from './helpers/program.js';
import { found, giveJob, namesOn, newShelf, plate, type Shelf, smallJob } from './helpers/shelf.js';

beforeAll(ensureBuilt);

const root = temporaryFolder();
const lanes = 2;
const sizes = [20, 24] as const;
const patience = 900_000;

type Listing = readonly string[];

/** The whole output of each size, and shelves that hold the first, one for each lane. */
let whole: readonly Listing[] = [];
let shelves: readonly Shelf[] = [];

const run = async (shelf: Shelf): Promise<Listing> => {
  expect(await runProgram(plate, { cwd: shelf.cwd })).toMatchObject({ code: 0, out: '', err: '' });
  expect(namesOn(shelf)).toEqual(['out']);
  return found(shelf);
};

beforeAll(async () => {
  shelves = Array.from({ length: lanes }, (_, i) => newShelf(root, `lane-${i}`));
  const [first] = shelves;
  const made: Listing[] = [];
  for (const size of [sizes[1], sizes[0]]) {
    giveJob(first!, smallJob(size));
    made.unshift(await run(first!));
  }
  whole = made;
  expect(whole[0]).not.toEqual(whole[1]);
  for (const other of shelves.slice(1))
    cpSync(join(first!.path, 'out'), join(other.path, 'out'), { recursive: true });
}, patience);

/** The calls of an undisturbed run that replaces one size by the other, in their order. */
async function callsOf(shelf: Shelf, calls: 'all' | 'writing'): Promise<readonly string[]> {
  const trace = join(root, `trace-${calls}`);
  rmSync(trace, { force: true });
  const faults = { disk: { watch: [shelf.path], calls, trace } };
  expect(await runProgram(plate, { cwd: shelf.cwd, faults })).toMatchObject({ code: 0, err: '' });
  return readFileSync(trace, 'utf8').trimEnd().split('\n');
}

const killAt = (shelf: Shelf, at: number, fault: 'SIGKILL' | 'torn'): Promise<Ended> =>
  runProgram(plate, {
    cwd: shelf.cwd,
    faults: { disk: { watch: [shelf.path], calls: 'writing', at, fault } },
  });

/** Which of the two sizes stands there; neither is an error. */
function standing(shelf: Shelf): 0 | 1 {
  const now = found(shelf);
  const which = JSON.stringify(now) === JSON.stringify(whole[1]) ? 1 : 0;
  expect(now).toEqual(whole[which]);
  return which;
}

describe('killed', () => {
  const holds: (0 | 1)[] = Array.from({ length: lanes }, () => 0);

  test(
    'before each call that changes the disk, and amid each write',
    async () => {
      giveJob(shelves[0]!, smallJob(sizes[1]));
      const calls = await callsOf(shelves[0]!, 'writing');
      holds[0] = 1;
      expect(standing(shelves[0]!)).toBe(1);
      const writes = calls.flatMap((call, i) => (/ (write|writeFile) /.test(call) ? [i + 1] : []));
      expect(writes.length).toBeGreaterThan(10);
      expect(calls.filter((call) => / rename /.test(call))).toHaveLength(3);
      const points = [
        ...calls.map((_, i) => ({ at: i + 1, fault: 'SIGKILL' as const })),
        ...writes.map((at) => ({ at, fault: 'torn' as const })),
      ];
      let [missing, replaced] = [0, 0];
      await inLanes(lanes, points, async ({ at, fault }, lane) => {
        const shelf = shelves[lane]!;
        const before = holds[lane]!;
        giveJob(shelf, smallJob(sizes[1 - before]!));
        const ended = await killAt(shelf, at, fault);
        expect({ at, ...ended }).toMatchObject({ signal: 'SIGKILL', out: '', err: '' });
        const isMissing = !namesOn(shelf).includes('out');
        const after = standing(shelf);
        if (after !== before) replaced++;
        if (isMissing) missing++;
        if (isMissing) expect(after).toBe(before);
        expect(await recoverFolder(join(shelf.path, 'out'))).toBe(isMissing);
        expect(namesOn(shelf)).toEqual(['out']);
        expect(standing(shelf)).toBe(after);
        holds[lane] = after;
      });
      // One point alone has the folder missing, between the two renames; from the second on the new one stands.
      expect(missing).toBe(1);
      expect(replaced).toBe(calls.length - calls.findLastIndex((call) => / sync .*shelf$/.test(call)));
      for (const shelf of shelves) {
        giveJob(shelf, smallJob(sizes[0]));
        expect(await run(shelf)).toEqual(whole[0]);
      }
    },
    patience,
  );

  test(
    'before each call of a run that clears up after one killed between the two renames',
    async () => {
      const dirty = join(root, 'dirty');
      const shelf = shelves[0]!;
      giveJob(shelf, smallJob(sizes[0]));
      await run(shelf);
      giveJob(shelf, smallJob(sizes[1]));
      const calls = await callsOf(shelf, 'writing');
      const renames = calls.flatMap((call, i) => (/ rename /.test(call) ? [i + 1] : []));
      giveJob(shelf, smallJob(sizes[0]));
      expect(await killAt(shelf, renames[1]!, 'SIGKILL')).toMatchObject({ signal: 'SIGKILL' });
      expect(namesOn(shelf).map((name) => name.replace(/-.*/, ''))).toEqual(['.out.aside', '.out.partial']);
      cpSync(shelf.path, dirty, { recursive: true });
      const restore = (to: Shelf): void => {
        rmSync(to.path, { recursive: true });
        cpSync(dirty, to.path, { recursive: true });
      };
      const clearing = (await callsOf(shelf, 'writing')).findIndex((call) => / mkdir .*partial/.test(call));
      expect(clearing).toBeGreaterThan(15);
      const points = Array.from({ length: clearing }, (_, i) => i + 1);
      await inLanes(lanes, points, async (at, lane) => {
        const own = shelves[lane]!;
        restore(own);
        giveJob(own, smallJob(sizes[0]));
        expect(await killAt(own, at, 'SIGKILL')).toMatchObject({ signal: 'SIGKILL' });
        expect(found(own)).toEqual(whole[1]);
        await recoverFolder(join(own.path, 'out'));
        expect(namesOn(own)).toEqual(['out']);
        expect(found(own)).toEqual(whole[1]);
      });
    },
    patience,
  );

  test(
    'before each call of the first run of all: no folder or the whole one, and nothing is left that the next does not clear',
    async () => {
      const trace = join(root, 'trace-first');
      const first = newShelf(root, 'first');
      giveJob(first, smallJob(sizes[0]));
      const watch = [first.path];
      rmSync(first.path, { recursive: true });
      const counted = { disk: { watch, calls: 'writing' as const, trace } };
      expect((await runProgram(plate, { cwd: first.cwd, faults: counted })).code).toBe(0);
      const calls = readFileSync(trace, 'utf8').trimEnd().split('\n').length;
      // The writes are swept above; here it is the folder's beginning and end.
      const points = Array.from({ length: calls }, (_, i) => i + 1).filter((n) => n <= 5 || n > calls - 3);
      await inLanes(lanes, points, async (at, lane) => {
        const own = newShelf(root, `first-${lane}-${at}`);
        giveJob(own, smallJob(sizes[0]));
        rmSync(own.path, { recursive: true });
        const disk = { watch: [own.path], calls: 'writing' as const, at, fault: 'SIGKILL' as const };
        expect((await runProgram(plate, { cwd: own.cwd, faults: { disk } })).signal).toBe('SIGKILL');
        mkdirSync(own.path, { recursive: true });
        const isThere = readdirSync(own.path).includes('out');
        if (isThere) expect(found(own)).toEqual(whole[0]);
        await recoverFolder(join(own.path, 'out'));
        // Nothing is left beside it: what is cleared here the next run clears too, since it begins so.
        expect({ at, names: namesOn(own) }).toEqual({ at, names: isThere ? ['out'] : [] });
        if (isThere) expect(found(own)).toEqual(whole[0]);
        if (at === 3 || at === calls) expect(await run(own)).toEqual(whole[0]);
      });
    },
    patience,
  );
});
