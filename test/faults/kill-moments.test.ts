/** Runs that are killed at random moments: the output folder is the old one or the new one, whole. */
import { spawn } from 'node:child_process';
import { existsSync, mkdtempSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, describe, expect, test } from 'vitest';
import { builtMain, ensureBuilt } from '../cli/helpers/built.js';
import { listing, temporaryFolder } from '../cli/helpers/folders.js';
import { seeded } from '../helpers/seeded.js';
import { inLanes, runProgram } from './helpers/program.js';
import { found, giveJob, mixedJob, namesOn, newShelf, plate, type Shelf, smallJob } from './helpers/shelf.js';

beforeAll(ensureBuilt);

const root = temporaryFolder();
const seed = 20_260_301;
/** Kills that must meet a run; a run that ends before its kill is none. */
const moments = Math.max(200, Number(process.env.PATTERNWRIGHT_KILLS ?? 0));
const lanes = 2;
const sizes = [20, 24] as const;

/** Whether there is a folder with something in it. */
function holdsSomething(folder: string): boolean {
  try {
    return readdirSync(folder).length > 0;
  } catch {
    return false;
  }
}

/** A busy machine makes a run some seconds long, ms. */
const patience = 1_200_000;

interface Ended {
  readonly code: number | null;
  readonly signal: NodeJS.Signals | null;
  readonly said: string;
  readonly milliseconds: number;
  /** From the start until something stood in the new folder. */
  readonly writingAfter: number | null;
}

/** Runs `plate` and kills it after `delay` ms, counted from the start or from when something stands in the new folder. */
function killedRun(
  shelf: Shelf,
  signal: NodeJS.Signals,
  delay: number,
  from: 'start' | 'writing',
): Promise<Ended> {
  const dead = new Set(namesOn(shelf));
  const started = performance.now();
  const child = spawn(process.execPath, [builtMain, ...plate], {
    cwd: shelf.cwd,
    stdio: ['ignore', 'ignore', 'pipe'],
  });
  let said = '';
  child.stderr.setEncoding('utf8').on('data', (text: string) => {
    said += text;
  });
  let writingAfter: number | null = null;
  let timer: NodeJS.Timeout | undefined;
  const kill = (): void => {
    timer = setTimeout(() => child.kill(signal), delay);
  };
  if (from === 'start') kill();
  const watch = setInterval(() => {
    if (writingAfter !== null) return;
    // The place is tried first, with an empty one.
    const begun = namesOn(shelf).find((name) => name.includes('.partial-') && !dead.has(name));
    if (begun === undefined || !holdsSomething(join(shelf.path, begun))) return;
    writingAfter = performance.now() - started;
    if (from === 'writing') kill();
  }, 2);
  return new Promise((resolve, reject) => {
    child.on('error', reject);
    child.on('close', (code, ended) => {
      clearInterval(watch);
      clearTimeout(timer);
      resolve({ code, signal: ended, said, milliseconds: performance.now() - started, writingAfter });
    });
  });
}

const kinds = [
  { name: 'one part', job: smallJob, share: 0.75 },
  { name: 'several parts', job: mixedJob, share: 0.25 },
] as const;

describe.each(kinds)('a run of $name that is killed', ({ name, job, share }) => {
  const whole: (readonly string[])[] = [];
  const shelves: Shelf[] = [];
  let usual: Ended;

  const runToTheEnd = async (shelf: Shelf, which: number): Promise<void> => {
    giveJob(shelf, job(sizes[which]!));
    expect(await runProgram(plate, { cwd: shelf.cwd })).toMatchObject({ code: 0, out: '', err: '' });
    expect(namesOn(shelf)).toEqual(['out']);
    whole[which] ??= listing(join(shelf.path, 'out'));
    expect(found(shelf)).toEqual(whole[which]);
  };

  beforeAll(async () => {
    for (let lane = 0; lane < lanes; lane++) shelves.push(newShelf(root, `${name}-${lane}`));
    await Promise.all(shelves.map((shelf, lane) => runToTheEnd(shelf, lane % 2)));
    await Promise.all(shelves.map((shelf, lane) => runToTheEnd(shelf, (lane + 1) % 2)));
    expect(whole[0]).not.toEqual(whole[1]);
    // As busy as it will be with several at a time.
    const runs = shelves.map((shelf, lane) => {
      giveJob(shelf, job(sizes[lane % 2]!));
      return killedRun(shelf, 'SIGKILL', patience, 'start');
    });
    usual = (await Promise.all(runs))[0]!;
    expect(usual).toMatchObject({ code: 0, signal: null });
    expect(usual.writingAfter).not.toBeNull();
  }, patience);

  const kills = Math.round(moments * share);

  test(
    `${kills} times, at random moments (seed ${seed}), leaves the old output or the new one, and the next run succeeds`,
    async () => {
      const next = seeded(seed);
      const holds = shelves.map((_, lane) => lane % 2);
      let [killed, whileWriting] = [0, 0];
      const writing = usual.milliseconds - usual.writingAfter!;
      // More than are needed: those that come too late do not count.
      const points = Array.from({ length: 4 * kills }, (_, i) => {
        // Two in five anywhere in the run, the others while the folder is written.
        const from = i % 5 < 2 ? ('start' as const) : ('writing' as const);
        const delay = next() * (from === 'start' ? usual.milliseconds : writing);
        // As a machine that stops does it mostly, else as people and their shells do.
        const signal = (['SIGKILL', 'SIGTERM', 'SIGKILL', 'SIGINT'] as const)[i % 4]!;
        return { i, from, delay, signal };
      });
      let runs = 0;
      await inLanes(lanes, points, async ({ i, from, delay, signal }, lane) => {
        if (killed >= kills) return;
        runs++;
        const shelf = shelves[lane]!;
        const old = holds[lane]!;
        const fresh = 1 - old;
        giveJob(shelf, job(sizes[fresh]!));
        const ended = await killedRun(shelf, signal, delay, from);
        if (ended.signal !== null) killed++;
        if (ended.signal !== null && ended.writingAfter !== null) whileWriting++;
        const now = found(shelf);
        const isNew = JSON.stringify(now) === JSON.stringify(whole[fresh]);
        if (!isNew) expect(now).toEqual(whole[old]);
        if (ended.signal === null)
          expect({ ...ended, isNew }).toMatchObject({ code: 0, said: '', isNew: true });
        else expect(ended.signal, ended.said).toBe(signal);
        if (isNew) holds[lane] = fresh;
        if (i % 20 === 19) {
          await runToTheEnd(shelf, 1 - holds[lane]!);
          holds[lane] = 1 - holds[lane]!;
        }
      });
      console.log(
        `${name}: ${killed} of ${runs} runs killed, ${whileWriting} of them while the folder was written`,
      );
      expect(killed).toBeGreaterThanOrEqual(kills);
      expect(whileWriting).toBeGreaterThanOrEqual(0.25 * kills);
      await Promise.all(shelves.map((shelf, lane) => runToTheEnd(shelf, 1 - holds[lane]!)));
    },
    patience,
  );

  test.skipIf(process.platform === 'win32').each(['SIGINT', 'SIGTERM'] as const)(
    '%s while the folder is written takes away what is begun',
    async (signal) => {
      const shelf = shelves[0]!;
      await runToTheEnd(shelf, 0);
      giveJob(shelf, job(sizes[1]));
      // Tried (1, 2), begun (3), the first folder in it.
      const disk = {
        watch: [join(shelf.path, '.out.partial-')],
        calls: 'writing',
        at: 4,
        fault: signal,
      } as const;
      const ended = await runProgram(plate, { cwd: shelf.cwd, faults: { disk } });
      expect(ended.signal, ended.err).toBe(signal);
      expect(namesOn(shelf)).toEqual(['out']);
      expect(found(shelf)).toEqual(whole[0]);
    },
    patience,
  );
});

test(
  'the first run of all, killed, leaves nothing that the next does not clear',
  async () => {
    const first = { cwd: mkdtempSync(join(root, 'first-')), path: '' };
    const shelf = join(first.cwd, 'shelf');
    giveJob(first, smallJob(20));
    const child = spawn(process.execPath, [builtMain, ...plate], { cwd: first.cwd, stdio: 'ignore' });
    const ended = new Promise((resolve) => child.on('close', resolve));
    const watch = setInterval(() => {
      if (readdirSync(first.cwd).includes('shelf')) child.kill('SIGKILL');
    }, 2);
    await ended;
    clearInterval(watch);
    // The place is tried and cleared first.
    expect(existsSync(shelf) ? readdirSync(shelf) : []).not.toContain('out');
    expect((await runProgram(plate, { cwd: first.cwd })).code).toBe(0);
    expect(readdirSync(shelf)).toEqual(['out']);
  },
  patience,
);
