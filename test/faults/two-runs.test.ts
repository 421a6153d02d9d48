/** Two runs at once in one folder: one of the two whole results stands, nothing is mixed, nothing is left. */
import { readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, describe, expect, test } from 'vitest';
import { builtMain, ensureBuilt } from '../cli/helpers/built.js';
import { temporaryFolder } from '../cli/helpers/folders.js';
import { type Ended, expectClear, inLanes, runProgram } from './helpers/program.js';
import { found, giveJob, mixedJob, namesOn, newShelf, plate, type Shelf, smallJob } from './helpers/shelf.js';

beforeAll(ensureBuilt);

const root = temporaryFolder();
const patience = 900_000;

const whole = new Map<string, readonly string[]>();
const jobs: Readonly<Record<string, string>> = {
  small: smallJob(20),
  larger: smallJob(24),
  mixed: mixedJob(22),
};

beforeAll(async () => {
  const shelf = newShelf(root, 'whole');
  for (const [name, job] of Object.entries(jobs)) {
    giveJob(shelf, job);
    expect(await runProgram(plate, { cwd: shelf.cwd })).toMatchObject({ code: 0, err: '' });
    whole.set(name, found(shelf));
  }
}, patience);

const giveAll = ({ cwd }: Shelf): void => {
  for (const [name, job] of Object.entries(jobs)) writeFileSync(join(cwd, `${name}.yaml`), job);
};

const argv = (job: string): readonly string[] => ['plate', `${job}.yaml`, '--out', 'shelf/out', '--quiet'];

/** Ended well, or told that the other one was in its way. */
function endedWell(ended: Ended): boolean {
  if (ended.code === 0) {
    expect(ended.err).toBe('');
    return true;
  }
  expectClear(ended, 1, /Another run is writing \S*out at the same time\. Wait for it to end/);
  return false;
}

const standing = (shelf: Shelf): string | undefined => {
  const text = JSON.stringify(found(shelf));
  return [...whole].find(([, listing]) => JSON.stringify(listing) === text)?.[0];
};

describe('runs of one folder at the same time', () => {
  test.each([
    ['the same job', ['small', 'small']],
    ['different jobs', ['small', 'larger']],
    ['a short and a long one', ['mixed', 'small']],
    ['four of three kinds', ['small', 'mixed', 'larger', 'small']],
  ] as const)(
    '%s',
    async (name, kinds) => {
      const shelf = newShelf(root, name);
      giveAll(shelf);
      for (let round = 0; round < 3; round++) {
        if (round === 0) rmSync(join(shelf.path, 'out'), { recursive: true, force: true });
        const ended = await Promise.all(kinds.map((job) => runProgram(argv(job), { cwd: shelf.cwd })));
        const done = kinds.filter((_, i) => endedWell(ended[i]!));
        expect(done).toContain(standing(shelf));
        expect(namesOn(shelf)).toEqual(['out']);
      }
    },
    patience,
  );

  test(
    'a whole other run before any call that begins, moves or clears a folder',
    async () => {
      const counted = newShelf(root, 'counted');
      giveAll(counted);
      for (const job of ['small', 'larger'] as const) {
        const trace = join(root, 'trace');
        rmSync(trace, { force: true });
        const disk = { watch: [counted.path], trace };
        expect((await runProgram(argv(job), { cwd: counted.cwd, faults: { disk } })).code).toBe(0);
      }
      const calls = readFileSync(join(root, 'trace'), 'utf8').trimEnd().split('\n');
      const within = calls.findIndex((call) => / (writeFile|write) /.test(call));
      const after = calls.findLastIndex((call) => / (writeFile|write) /.test(call));
      const cleared = calls.findIndex((call) => / rm /.test(call));
      expect(within).toBeGreaterThan(8);
      expect(cleared).toBeGreaterThan(after + 5);
      const points = calls
        .map((_, i) => i + 1)
        .filter((n) => n <= within + 2 || (n > after && n <= cleared + 3));
      await inLanes(2, points, async (at, lane) => {
        const shelf = newShelf(root, `between-${lane}`);
        giveAll(shelf);
        if (standing1(shelf) === undefined)
          expect((await runProgram(argv('small'), { cwd: shelf.cwd })).code).toBe(0);
        const meanwhile = [process.execPath, builtMain, ...argv('small')];
        const disk = { watch: [shelf.path], at, fault: 'meanwhile' as const, meanwhile };
        const ended = await runProgram(argv('larger'), { cwd: shelf.cwd, faults: { disk } });
        const call = calls[at - 1];
        const done = endedWell(ended) ? ['small', 'larger'] : ['small'];
        expect({ at, call, done, stands: standing(shelf) }).toMatchObject({
          stands: expect.stringMatching(done.join('|')),
        });
        expect({ at, call, names: namesOn(shelf) }).toMatchObject({ names: ['out'] });
      });
    },
    patience,
  );
});

const standing1 = (shelf: Shelf): string | undefined =>
  namesOn(shelf).includes('out') ? standing(shelf) : undefined;
