import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { availableParallelism, tmpdir } from 'node:os';
import { join } from 'node:path';
import { type MixedJobOptions, mixedJob } from '../../helpers/mixed-job.js';
import { builtMain } from '../built-program.js';
import { canKeepToOneCore, type Measured, measureChild } from '../child.js';
import type { Sheet } from '../sheet.js';
import { isTrial } from '../trial.js';
import { times } from './words.js';

const seconds = ({ wall }: Measured): string => `${wall.toFixed(1)} s`;
const mebibytes = ({ memory }: Measured): string => `${memory.toFixed(0)} MiB`;
const coresUsed = ({ processor, wall }: Measured): string => `${(processor / wall).toFixed(2)} cores used`;

const throughputParts = isTrial ? 10 : 40;
const memoryParts = isTrial ? [10, 30] : [10, 100, 1000];
/** More memory than this against a job of a tenth of the parts is growth. */
const flat = 1.25;
const batchParts = isTrial ? 10 : 100;

type Plate = (argv: readonly string[], options?: { readonly onOneCore?: boolean }) => Promise<Measured>;

/** Whole runs of `plate` in a folder of their own, its cache in it. */
async function withJob<T>(
  parts: number,
  options: MixedJobOptions,
  use: (plate: Plate, cache: string) => Promise<T>,
): Promise<T> {
  const folder = mkdtempSync(join(tmpdir(), 'patternwright-bench-'));
  try {
    writeFileSync(join(folder, 'job.yaml'), JSON.stringify(mixedJob(parts, options)));
    const plate: Plate = (argv, options) =>
      measureChild(builtMain, ['plate', 'job.yaml', '--out', 'made', '--quiet', ...argv], {
        cwd: folder,
        ...options,
      });
    return await use(plate, join(folder, 'cache'));
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

/** Mixed parts by one core and by all: beside its one thread for parts, a run has others that plan, write and tidy up. */
export async function benchThroughput(sheet: Sheet): Promise<void> {
  const cores = availableParallelism();
  const wanted = cores < 2 ? 1 : 0.75 * cores;
  const rows = [];
  for (const freeze of ['off', 'coarse'] as const) {
    const [one, all] = await withJob(throughputParts, { freeze }, async (plate) => [
      await plate(['--cache', 'none', '--threads', '1'], { onOneCore: canKeepToOneCore }),
      await plate(['--cache', 'none', '--threads', String(cores)]),
    ]);
    const ratio = one.wall / all.wall;
    rows.push({
      what: `${throughputParts} mixed parts, freeze ${freeze}: ${cores} threads`,
      measured: `${seconds(all)}, ${(throughputParts / all.wall).toFixed(1)} parts a second, ${coresUsed(all)}, ${mebibytes(all)}`,
      against: `${canKeepToOneCore ? 'one thread on one core' : 'one thread'}: ${seconds(one)}, ${coresUsed(one)}, ${mebibytes(one)}`,
      ratio: `${times(ratio)} as fast`,
      wanted: { words: `at least ${wanted.toFixed(2)} ×`, met: ratio >= wanted },
    });
  }
  sheet.add(
    'Throughput against cores',
    'The whole command from a cold start, nothing kept from before: every part made, planned, nested and written.',
    rows,
  );
}

/** Most memory of the process against the size of the job, and what a second run costs. */
export async function benchMemory(sheet: Sheet): Promise<void> {
  const rows = [];
  const colds: Measured[] = [];
  for (const parts of memoryParts) {
    const [cold, warm] = await withJob(parts, {}, async (plate, cache) => [
      await plate(['--cache', cache]),
      await plate(['--cache', cache]),
    ]);
    const [least = cold] = colds;
    const before = colds.at(-1) ?? cold;
    colds.push(cold);
    const ratio = cold.memory / least.memory;
    const isFlat = cold.memory <= flat * before.memory;
    const fewer = memoryParts.at(-2);
    rows.push({
      what: `${parts} parts, all different`,
      measured: `${mebibytes(cold)}, ${seconds(cold)}, ${coresUsed(cold)}`,
      against: `10 parts: ${mebibytes(least)}`,
      ratio: times(ratio),
      ...(parts === memoryParts.at(-1)
        ? {
            wanted: {
              words: `within 2 ×, and within ${flat} × of ${fewer} parts (${mebibytes(before)})`,
              met: ratio <= 2 && isFlat,
            },
          }
        : {}),
    });
    rows.push({
      what: `${parts} parts, a second run, all kept`,
      measured: `${seconds(warm)}, ${mebibytes(warm)}`,
      against: `the first: ${seconds(cold)}`,
      ratio: `${times(cold.wall / warm.wall)} as fast`,
    });
  }
  sheet.add(
    'Memory against job size',
    'Most memory of the whole process, all its threads; mixed small parts at 0.1 mm, freeze off, as many threads as the ' +
      'program takes by itself.',
    rows,
  );
}

/** A shop's batch as it comes. */
export async function benchBatch(sheet: Sheet): Promise<void> {
  const ran = await withJob(batchParts, { tolerance: 0.02, freeze: 'coarse' }, (plate) =>
    plate(['--cache', 'none']),
  );
  const cores = availableParallelism();
  sheet.add(
    'A mixed batch',
    'One run from a cold start: parts of every kind at 0.02 mm, freeze coarse, each mould filled and frozen.',
    [
      {
        what: `${batchParts} mixed parts`,
        measured: `${seconds(ran)}, ${mebibytes(ran)}`,
        against: `${ran.processor.toFixed(1)} s of processor on ${cores} cores`,
        ratio: coresUsed(ran),
      },
    ],
  );
}
