/** What a run works with: hands, a shelf, keys. Opened for one job, closed at its end whatever that is. */
import { randomBytes } from 'node:crypto';
import { rm } from 'node:fs/promises';
import { availableParallelism } from 'node:os';
import type { Job } from '../../core/job/job.js';
import { isPartFile } from '../../core/job/job-context.js';
import type { LearntGrowth } from '../../core/job/logged-growth.js';
import type { PartDefinition } from '../../core/part/contract.js';
import { loadKernel } from '../../core/solid/index.js';
import { startCrew } from '../freeze-crew.js';
import type { PartFilePlaces } from '../part-file/part-file-places.js';
import { programIdentity } from '../store/program.js';
import { openStore } from '../store/store.js';
import type { Bench } from './bench.js';
import { type Hands, ownHands, Stopped, type Stray, WorkerLost } from './hands.js';
import { type JobKeys, jobKeys } from './keys.js';
import { relievedHands } from './relief.js';
import { clearScratch, scratchFolder } from './scratch.js';
import { openShelf, shelfInMemory } from './shelf.js';
import type { Task } from './tasks.js';
import { isOwnCode, shareMeshes, termsOf } from './terms.js';

export interface WorkshopOptions {
  readonly learntGrowth: LearntGrowth | undefined;
  readonly findPart: (name: string) => PartDefinition | undefined;
  /** Somebody's own files, which a thread of their own runs; left out: all is done in this one. */
  readonly partFiles?: PartFilePlaces | undefined;
  /** Left out: as many as the machine has processors for. */
  readonly threads?: number | undefined;
  /** Folder of parts kept from run to run; left out: none. */
  readonly cache?: string | undefined;
  /** The built module that further threads run; left out: all is done in this one. */
  readonly workerFile?: URL | undefined;
  /** Told what is to be known of the cache. */
  readonly note: (text: string) => void;
  /** Round somebody's own code, which keeps this thread from hearing of interrupts; left out: nothing is done about it. */
  readonly letThrough?: <T>(work: () => Promise<T>) => Promise<T>;
}

export interface Workshop {
  readonly hands: Hands;
  readonly threads: number;
  /** Whether this thread is free while others work, so that it hears of interrupts. */
  readonly isFree: boolean;
  readonly bench: Bench;
  readonly keys: JobKeys;
  /** Ends what is in work; whoever waits for it gets `Stopped`. */
  stop(): void;
  close(): Promise<void>;
}

export async function openWorkshop(job: Job, options: WorkshopOptions): Promise<Workshop> {
  const { learntGrowth, findPart, partFiles, cache, workerFile, letThrough = (work) => work() } = options;
  const { threads = availableParallelism() } = options;
  const id = randomBytes(8).toString('hex');
  const terms = termsOf(job, learntGrowth);
  const keys = jobKeys(terms, cache === undefined ? '' : await programIdentity(), id, findPart);
  const own = job.parts.filter(isOwnCode).length;
  const others = new Set(job.parts.filter((p) => !isOwnCode(p)).map(keys.ofPart)).size;
  // One thread, too: this one is free then, and hears of interrupts.
  const isPool = workerFile !== undefined && (own + others > 1 || isLong(job));
  const crew = !isPool && threads > 1 && job.freeze !== 'off' ? startCrew(threads - 1) : undefined;
  const note = once(options.note);
  const scratch = scratchFolder(id);
  const isAlone = own + others <= 1 && !isPool;
  const isInMemory = isAlone && (cache === undefined || own > 0);
  const clearing = isInMemory ? undefined : clearScratch();
  const shelf = isInMemory ? shelfInMemory() : await openShelf({ cache, scratch }, note);
  const bench: Bench = {
    terms,
    shelf,
    kernel: () => loadKernel(),
    findPart,
    callHands: () => crew && { ...crew, close: () => undefined },
  };
  const here = ownHands(bench);
  const { poolOfHands } = isPool ? await import('./pool.js') : { poolOfHands: undefined };
  const places = { scratch, ...(cache === undefined ? {} : { cache }) };
  const shared = isPool ? shareMeshes(terms) : terms;
  const onStray = ({ told }: Stray): void =>
    options.note(`A part file failed after its part was made, at ${told}`);
  const common = workerFile && { workerFile, terms: shared, places, note, onStray };
  const pool =
    common &&
    poolOfHands &&
    relievedHands(
      (count) => poolOfHands({ threads: count, ...common }),
      Math.min(threads, Math.max(1, others)),
    );
  // Whatever it does, this thread hears of interrupts, and the others go on.
  const ownPool =
    common && own > 0 && partFiles ? poolOfHands?.({ threads: 1, ...common, partFiles }) : undefined;
  let stopped = false;
  const hands: Hands = {
    count: pool?.count ?? 1,
    do: async (task, onShare) => {
      if (stopped) throw new Stopped();
      const files = ownCodeOf(task, job);
      const by = (files === undefined ? pool : ownPool) ?? here;
      const work = () => by.do(task, onShare);
      for (let left = mostAgain; ; left--) {
        try {
          return await (files !== undefined && by === here ? letThrough(work) : work());
        } catch (error) {
          if (stopped) throw new Stopped();
          const stray = error instanceof WorkerLost ? error.stray : undefined;
          const isAnothers = stray?.file !== undefined && files !== undefined && !files.includes(stray.file);
          if (!isAnothers || left === 0) throw error;
          // The thread was ended by another file.
          onStray(stray);
        }
      }
    },
    rest: async () => {
      await pool?.rest();
      await ownPool?.rest();
    },
    close: async () => undefined,
  };
  return {
    hands,
    threads,
    isFree: pool !== undefined,
    bench,
    keys,
    stop: () => {
      stopped = true;
      void pool?.close();
      void ownPool?.close();
    },
    close: async () => {
      stopped = true;
      crew?.close();
      await pool?.close();
      await ownPool?.close();
      await clearing;
      await rm(scratch, { recursive: true, force: true }).catch(() => undefined);
      if (cache !== undefined) await (await openStore(cache)).prune();
    },
  };
}

/** How often a task is begun again whose thread another part's file has ended. */
const mostAgain = 5;

/** Whether putting on trees or laying out may take long, whatever there is to be made. */
const isLong = ({ packFlasks, nesting }: Job): boolean => packFlasks === true || (nesting?.seconds ?? 0) > 0;

/** Somebody's own files that a task runs, which not every thread has loaded; undefined: none. */
function ownCodeOf(task: Task, job: Job): readonly string[] | undefined {
  const request =
    task.kind === 'make'
      ? task.request
      : task.kind === 'freeze' && job.improve === true
        ? task.part.request
        : undefined;
  return request && isOwnCode(request)
    ? (request.tree ?? [request]).map(({ part }) => part).filter(isPartFile)
    : undefined;
}

function once(tell: (text: string) => void): (text: string) => void {
  let told = false;
  return (text) => {
    if (!told) tell(text);
    told = true;
  };
}
