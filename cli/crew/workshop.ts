/** What a run works with: hands, a shelf, keys. Opened for one job, closed at its end whatever that is. */
import { randomBytes } from 'node:crypto';
import { rm } from 'node:fs/promises';
import { availableParallelism } from 'node:os';
import type { Job, JobPart } from '../../core/job/job.js';
import type { LearntGrowth } from '../../core/job/logged-growth.js';
import type { PartDefinition } from '../../core/part/contract.js';
import { loadKernel } from '../../core/solid/index.js';
import { startCrew } from '../freeze-crew.js';
import { programIdentity } from '../store/program.js';
import { openStore } from '../store/store.js';
import type { Bench } from './bench.js';
import { type Hands, ownHands, Stopped } from './hands.js';
import { type JobKeys, jobKeys } from './keys.js';
import { relievedHands } from './relief.js';
import { clearScratch, scratchFolder } from './scratch.js';
import { openShelf, shelfInMemory } from './shelf.js';
import type { Task } from './tasks.js';
import { isOwnCode, shareMeshes, termsOf } from './terms.js';

export interface WorkshopOptions {
  readonly learntGrowth: LearntGrowth | undefined;
  readonly findPart: (name: string) => PartDefinition | undefined;
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
  const { learntGrowth, findPart, cache, workerFile, letThrough = (work) => work() } = options;
  const { threads = availableParallelism() } = options;
  const id = randomBytes(8).toString('hex');
  const terms = termsOf(job, learntGrowth);
  const keys = jobKeys(terms, cache === undefined ? '' : await programIdentity(), id, findPart);
  const own = job.parts.filter(isOwnCode).length;
  const others = new Set(job.parts.filter((p) => !isOwnCode(p)).map(keys.ofPart)).size;
  // One thread, too: this one is free then, and hears of interrupts.
  const isPool = workerFile !== undefined && (others > 1 || isLong(job));
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
  const pool =
    workerFile &&
    poolOfHands &&
    relievedHands(
      (count) => poolOfHands({ threads: count, workerFile, terms: shared, places, note }),
      Math.min(threads, Math.max(1, others)),
    );
  let stopped = false;
  const hands: Hands = {
    count: pool?.count ?? 1,
    do: async (task, onShare) => {
      if (stopped) throw new Stopped();
      const isOwn = needsOwnCode(task, job);
      const by = pool !== undefined && !isOwn ? pool : here;
      const work = () => by.do(task, onShare);
      return (isOwn ? letThrough(work) : work()).catch((error: unknown) => {
        throw stopped ? new Stopped() : error;
      });
    },
    rest: async () => pool?.rest(),
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
    },
    close: async () => {
      stopped = true;
      crew?.close();
      await pool?.close();
      await clearing;
      await rm(scratch, { recursive: true, force: true }).catch(() => undefined);
      if (cache !== undefined) await (await openStore(cache)).prune();
    },
  };
}

/** Whether putting on trees or laying out may take long, whatever there is to be made. */
const isLong = ({ packFlasks, nesting }: Job): boolean => packFlasks === true || (nesting?.seconds ?? 0) > 0;

/** Somebody's own code runs where it was loaded: in this thread. */
function needsOwnCode(task: Task, job: Job): boolean {
  const request = (of: JobPart): boolean => isOwnCode(of);
  if (task.kind === 'make') return request(task.request);
  return task.kind === 'freeze' && job.improve === true && request(task.part.request);
}

function once(tell: (text: string) => void): (text: string) => void {
  let told = false;
  return (text) => {
    if (!told) tell(text);
    told = true;
  };
}
