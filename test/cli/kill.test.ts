/** Runs that are killed: the output folder is the old one or the new one, whole. */
import { spawn } from 'node:child_process';
import { mkdtempSync, readdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, describe, expect, test } from 'vitest';
import { builtMain, ensureBuilt, runBuilt } from './helpers/built.js';
import { listing, temporaryFolder } from './helpers/folders.js';

const cwd = temporaryFolder();
const seed = 20_260_301;
const moments = 27;

/** mulberry32: a 32-bit generator, so that a seed gives the same moments each time. */
function random(state: number): () => number {
  let a = state;
  return () => {
    a = (a + 0x6d2b79f5) | 0;
    let t = Math.imul(a ^ (a >>> 15), 1 | a);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 2 ** 32;
  };
}

const job = (size: number): string =>
  `job: a\ntolerance: 0.2\nparts:\n  - {name: one, part: hatch-pull, parameters: {size: ${size}}}\n`;

/** A busy machine makes a run some seconds long, ms. */
const patience = 600_000;

const plate = ['plate', 'job.yaml', '--out', 'shelf/out', '--quiet'];

interface Ended {
  readonly code: number | null;
  readonly signal: NodeJS.Signals | null;
  readonly said: string;
  readonly milliseconds: number;
  /** From the start until the new folder was begun. */
  readonly writingAfter: number | null;
}

/** Runs `plate` and kills it after `delay` ms, counted from the start or from when the new folder is begun. */
function killedRun(signal: NodeJS.Signals, delay: number, from: 'start' | 'writing'): Promise<Ended> {
  const shelf = join(cwd, 'shelf');
  const dead = new Set(readdirSync(shelf));
  const started = performance.now();
  const child = spawn(process.execPath, [builtMain, ...plate], { cwd, stdio: ['ignore', 'ignore', 'pipe'] });
  let said = '';
  child.stderr.setEncoding('utf8').on('data', (text: string) => {
    said += text;
  });
  let writingAfter: number | null = null;
  let timer: NodeJS.Timeout | undefined;
  const kill = () => {
    timer = setTimeout(() => child.kill(signal), delay);
  };
  if (from === 'start') kill();
  const watch = setInterval(() => {
    if (writingAfter !== null) return;
    if (!readdirSync(shelf).some((name) => name.includes('.partial-') && !dead.has(name))) return;
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

/** The folder as a reader finds it: in the instant between two renames the whole old one stands aside. */
function found(): readonly string[] {
  const names = readdirSync(join(cwd, 'shelf'));
  if (names.includes('out')) return listing(join(cwd, 'shelf/out'));
  const asides = names.filter((name) => name.startsWith('.out.aside-'));
  expect(asides).toHaveLength(1);
  return listing(join(cwd, 'shelf', asides[0]!));
}

describe('a run that is killed', () => {
  const whole: (readonly string[])[] = [];
  const sizes = [20, 24];
  let usual: Ended;

  const give = (which: number): void => writeFileSync(join(cwd, 'job.yaml'), job(sizes[which]!));
  const runToTheEnd = (which: number): void => {
    give(which);
    expect(runBuilt(plate, { cwd })).toMatchObject({ code: 0, out: '', err: '' });
    expect(readdirSync(join(cwd, 'shelf'))).toEqual(['out']);
  };

  beforeAll(async () => {
    ensureBuilt();
    for (const which of [0, 1]) {
      runToTheEnd(which);
      whole.push(listing(join(cwd, 'shelf/out')));
    }
    expect(whole[0]).not.toEqual(whole[1]);
    give(1);
    usual = await killedRun('SIGKILL', 600_000, 'start');
    expect(usual).toMatchObject({ code: 0, signal: null });
    expect(usual.writingAfter).not.toBeNull();
  }, patience);

  test(
    `at ${moments} moments (seed ${seed}) leaves the old output or the new one, and the next run succeeds`,
    async () => {
      const next = random(seed);
      let old = 1;
      let [killed, whileWriting] = [0, 0];
      const writing = usual.milliseconds - usual.writingAfter!;
      for (let i = 0; i < moments; i++) {
        const fresh = 1 - old;
        give(fresh);
        const signal = (['SIGKILL', 'SIGTERM', 'SIGINT'] as const)[i % 3]!;
        // A third anywhere in the run, the others while the folder is written.
        const from = i % 5 < 2 ? 'start' : 'writing';
        const ended = await killedRun(
          signal,
          next() * (from === 'start' ? usual.milliseconds : writing),
          from,
        );
        if (ended.signal !== null) killed++;
        if (ended.signal !== null && ended.writingAfter !== null) whileWriting++;
        const now = found();
        const isNew = JSON.stringify(now) === JSON.stringify(whole[fresh]);
        if (!isNew) expect(now).toEqual(whole[old]);
        if (ended.signal === null)
          expect({ ...ended, isNew }).toMatchObject({ code: 0, said: '', isNew: true });
        if (isNew) old = fresh;
        if (i % 9 === 8) {
          runToTheEnd(1 - old);
          old = 1 - old;
          expect(found()).toEqual(whole[old]);
        }
      }
      expect(killed).toBeGreaterThanOrEqual(18);
      expect(whileWriting).toBeGreaterThanOrEqual(8);
    },
    patience,
  );

  test.skipIf(process.platform === 'win32').each(['SIGINT', 'SIGTERM'] as const)(
    '%s while the folder is written takes away what is begun',
    async (signal) => {
      runToTheEnd(0);
      give(1);
      const ended = await killedRun(signal, 0, 'writing');
      expect(ended.signal).toBe(signal);
      expect(readdirSync(join(cwd, 'shelf'))).toEqual(['out']);
      expect(found()).toEqual(whole[0]);
    },
    patience,
  );

  test('the first run of all, killed, leaves nothing that the next does not clear', async () => {
    const first = mkdtempSync(join(cwd, 'first-'));
    writeFileSync(join(first, 'job.yaml'), job(20));
    const child = spawn(process.execPath, [builtMain, ...plate], { cwd: first, stdio: 'ignore' });
    const ended = new Promise((resolve) => child.on('close', resolve));
    const watch = setInterval(() => {
      if (readdirSync(first).includes('shelf')) child.kill('SIGKILL');
    }, 2);
    await ended;
    clearInterval(watch);
    expect(readdirSync(join(first, 'shelf'))).not.toContain('out');
    expect(runBuilt(plate, { cwd: first }).code).toBe(0);
    expect(readdirSync(join(first, 'shelf'))).toEqual(['out']);
    expect(listing(join(first, 'shelf/out'))).toEqual(whole[0]);
  });
});
