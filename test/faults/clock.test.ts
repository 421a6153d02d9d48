/** Clocks that are wrong, or are set while a run is under way: what lives is not taken for litter, nor litter kept for good. */
import { spawn } from 'node:child_process';
import { cpSync, mkdirSync, readFileSync, renameSync, utimesSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { ensureBuilt } from '../cli/helpers/built.js';
import { listing, temporaryFolder } from '../cli/helpers/folders.js';
import { expectClear, runProgram } from './helpers/program.js';
import { found, giveJob, namesOn, newShelf, plate, type Shelf, smallJob } from './helpers/shelf.js';

beforeAll(ensureBuilt);

const root = temporaryFolder();
const patience = 600_000;
const day = 24 * 3600 * 1000;
const hours = 3600 * 1000;

const clocks = {
  'two days behind': { offset: -2 * day },
  'two days ahead': { offset: 2 * day },
  'thirty years ahead': { offset: 30 * 365 * day },
  'before all time': { offset: -70 * 365 * day },
  'set back while it runs': { offset: -2 * day, jumpAfter: 200 },
  'set ahead while it runs': { offset: 2 * day, jumpAfter: 200 },
} as const;

let whole: readonly string[] = [];
let old: readonly string[] = [];
let template: Shelf;

/** A program that lives, and so may be at work on a folder. */
const alive = spawn(process.execPath, ['-e', 'setInterval(() => undefined, 1000)'], { stdio: 'ignore' });
afterAll(() => alive.kill('SIGKILL'));

/** This machine, as names of folders on the way have it. */
let host = '';
/** No process has a number this high. */
const noProcess = 4_194_305;

beforeAll(async () => {
  template = newShelf(root, 'template');
  giveJob(template, smallJob(20));
  expect((await runProgram(plate, { cwd: template.cwd })).code).toBe(0);
  old = found(template);
  const after = newShelf(root, 'after');
  giveJob(after, smallJob(24));
  expect((await runProgram(plate, { cwd: after.cwd })).code).toBe(0);
  whole = found(after);
  const disk = { watch: [after.path], calls: 'writing', at: 5, fault: 'SIGKILL' } as const;
  expect((await runProgram(plate, { cwd: after.cwd, faults: { disk } })).signal).toBe('SIGKILL');
  host = /^\.out\.partial-([0-9a-f]{8})-\d+-/.exec(namesOn(after)[0]!)![1]!;
}, patience);

test.each(Object.entries(clocks))(
  'a clock %s: the same bytes, and no nonsense in what is told',
  async (name, clock) => {
    const shelf = newShelf(root, name);
    cpSync(template.path, shelf.path, { recursive: true });
    giveJob(shelf, smallJob(24));
    const argv = plate.filter((word) => word !== '--quiet');
    const ended = await runProgram(argv, { cwd: shelf.cwd, faults: { clock } });
    expect(ended).toMatchObject({ code: 0, err: '' });
    expect(ended.out).not.toMatch(/NaN|Invalid|Infinity|undefined|-\d+ (s|min|h)\b/);
    expect(found(shelf)).toEqual(whole);
    expect(namesOn(shelf)).toEqual(['out']);
  },
  patience,
);

describe('folders that other runs are at work on', () => {
  const live = () => `.out.partial-${host}-${alive.pid}-0123abcd`;
  const dead = () => `.out.partial-${host}-${noProcess}-0123abcd`;
  const elsewhere = '.out.partial-0badf00d-1-0123abcd';

  const shelfWith = (name: string, names: readonly string[], time?: Date): Shelf => {
    const shelf = newShelf(root, name);
    cpSync(template.path, shelf.path, { recursive: true });
    for (const folder of names) {
      mkdirSync(join(shelf.path, folder));
      writeFileSync(join(shelf.path, folder, 'part.stl'), 'half');
      if (time) utimesSync(join(shelf.path, folder), time, time);
    }
    giveJob(shelf, smallJob(24));
    return shelf;
  };

  test(
    'one of a program that lives stays, one of a dead program goes, by a clock that is right',
    async () => {
      const shelf = shelfWith('right', [live(), dead(), elsewhere]);
      expect((await runProgram(plate, { cwd: shelf.cwd })).code).toBe(0);
      expect(namesOn(shelf)).toEqual([elsewhere, live(), 'out'].sort());
      expect(found(shelf)).toEqual(whole);
    },
    patience,
  );

  test.each([
    ['far ahead', new Date(Date.now() + 5 * 365 * day)],
    ['a little ahead', new Date(Date.now() + 3 * hours)],
    ['ten years ago', new Date(Date.now() - 3650 * day)],
  ] as const)(
    'times set %s: what a living program makes stays, what a dead one left goes',
    async (name, time) => {
      const shelf = shelfWith(`times-${name}`, [live(), dead()], time);
      expect((await runProgram(plate, { cwd: shelf.cwd })).code).toBe(0);
      expect(namesOn(shelf)).toEqual([live(), 'out']);
      expect(found(shelf)).toEqual(whole);
    },
    patience,
  );

  test.each([
    ['two days ahead', clocks['two days ahead']],
    ['set ahead while it runs', clocks['set ahead while it runs']],
    ['two days behind', clocks['two days behind']],
  ] as const)(
    'by a clock %s: what a living program of this machine makes stays',
    async (name, clock) => {
      const shelf = shelfWith(`live-${name}`, [live(), dead()]);
      expect((await runProgram(plate, { cwd: shelf.cwd, faults: { clock } })).code).toBe(0);
      expect(namesOn(shelf)).toEqual([live(), 'out']);
      expect(listing(join(shelf.path, live()))).toHaveLength(1);
    },
    patience,
  );

  test(
    'an old folder that was left aside comes back whatever its times and the clock say',
    async () => {
      for (const time of [new Date(Date.now() + 900 * day), new Date(0)]) {
        for (const clock of [clocks['two days ahead'], clocks['two days behind']]) {
          const shelf = newShelf(root, `aside-${time.getTime()}-${clock.offset}`);
          const aside = join(shelf.path, `.out.aside-${host}-${noProcess}-0123abcd`);
          cpSync(join(template.path, 'out'), aside, { recursive: true });
          utimesSync(aside, time, time);
          // A run whose job cannot be made puts it back all the same.
          giveJob(shelf, `${smallJob(24)}bed: {width: 20, depth: 20, height: 20}\n`);
          const refused = await runProgram(plate, { cwd: shelf.cwd, faults: { clock } });
          expectClear(refused, 1, /Use a larger bed/, /Nothing was written\.$/m);
          expect(namesOn(shelf)).toEqual(['out']);
          expect(found(shelf)).toEqual(old);
          // So does one that its disk fails.
          renameSync(join(shelf.path, 'out'), aside);
          utimesSync(aside, time, time);
          giveJob(shelf, smallJob(24));
          const disk = { watch: [shelf.path], at: 14, calls: 'writing', fault: 'EIO' } as const;
          expect((await runProgram(plate, { cwd: shelf.cwd, faults: { clock, disk } })).code).toBe(1);
          expect(namesOn(shelf)).toEqual(['out']);
          expect(found(shelf)).toEqual(old);
        }
      }
    },
    patience,
  );
});

test(
  'what a run of yesterday left while the clock was ahead is not kept for good',
  async () => {
    const shelf = newShelf(root, 'later');
    giveJob(shelf, smallJob(24));
    const faults = {
      clock: clocks['two days ahead'],
      disk: { watch: [shelf.path], calls: 'writing', at: 11, fault: 'SIGKILL' },
    } as const;
    expect((await runProgram(plate, { cwd: shelf.cwd, faults })).signal).toBe('SIGKILL');
    expect(namesOn(shelf)).toHaveLength(1);
    expect((await runProgram(plate, { cwd: shelf.cwd })).code).toBe(0);
    expect(namesOn(shelf)).toEqual(['out']);
    expect(readFileSync(join(shelf.path, 'out/summary.json'), 'utf8')).toContain('schemaVersion');
  },
  patience,
);
