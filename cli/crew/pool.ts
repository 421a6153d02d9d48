/** Threads that each take the next task. */
import { Piscina } from 'piscina';
import { FolderError, type FolderErrorCode } from '../../core/files/folder-error.js';
import type { PartFilePlaces } from '../part-file/part-file-places.js';
import { strayIn } from '../part-file/stray.js';
import { FileChanged, type Hands, Stopped, type Stray, WorkerLost } from './hands.js';
import type { ShelfPlaces } from './shelf.js';
import type { AnswerTo, Task } from './tasks.js';
import type { Terms } from './terms.js';

/** What each thread is given once. */
export interface PoolTerms {
  readonly terms: Terms;
  readonly places: ShelfPlaces;
  /** Part files that the threads may run; left out: none. */
  readonly partFiles?: PartFilePlaces;
}

/** What a thread answers: errors lose what they are on the way, so they are told in data. */
export type Reply<T extends Task = Task> =
  | { readonly answer: AnswerTo<T>; readonly notes: readonly string[] }
  | { readonly fault: Fault; readonly notes: readonly string[] };
export interface Fault {
  readonly message: string;
  /** Where an output folder or the shelf is at fault. */
  readonly folder?: { readonly code: FolderErrorCode; readonly remedy: string };
  readonly outOfMemory?: boolean;
  /** Where a part file is not what it was. */
  readonly isChanged?: boolean;
}

export interface PoolOptions extends PoolTerms {
  readonly threads: number;
  /** The built module that threads run. */
  readonly workerFile: URL;
  readonly note: (text: string) => void;
  /** Told what a part file did while its thread had nothing to do. */
  readonly onStray?: (stray: Stray) => void;
}

export function poolOfHands({
  threads,
  workerFile,
  note,
  onStray = () => undefined,
  ...workerData
}: PoolOptions): Hands {
  const { partFiles } = workerData;
  const strayOf = (error: unknown): Stray | undefined => partFiles && strayIn(error, partFiles);
  const open = (): Piscina => {
    const opened = new Piscina({
      filename: workerFile.href,
      minThreads: threads,
      maxThreads: threads,
      workerData,
      // Threads of their own help with a mould: they need turns of the event loop.
      atomics: 'disabled',
      recordTiming: false,
    });
    // A thread that ends while it does nothing costs nothing.
    return opened.on('error', (error: unknown) => {
      const stray = strayOf(error);
      if (stray) onStray(stray);
    });
  };
  let pool: Piscina | undefined = open();
  let isClosed = false;
  let ending: Promise<unknown> = Promise.resolve();
  const rest = async (): Promise<void> => {
    const resting = pool;
    pool = undefined;
    if (resting) ending = Promise.all([ending, resting.destroy()]);
    await ending;
  };
  return {
    count: threads,
    do: async <T extends Task>(task: T): Promise<AnswerTo<T>> => {
      if (isClosed) throw new Stopped();
      pool ??= open();
      const reply = (await pool.run(task).catch((error: unknown) => {
        const outOfMemory = (error as { code?: unknown } | null)?.code === 'ERR_WORKER_OUT_OF_MEMORY';
        throw new WorkerLost(outOfMemory, outOfMemory ? undefined : strayOf(error));
      })) as Reply<T>;
      for (const text of reply.notes) note(text);
      if ('answer' in reply) return reply.answer;
      const { message, folder, outOfMemory = false, isChanged } = reply.fault;
      if (folder) throw new FolderError(folder.code, message, folder.remedy);
      if (isChanged) throw new FileChanged(message);
      throw outOfMemory ? new WorkerLost(true) : new Error(message);
    },
    rest,
    close: () => {
      isClosed = true;
      return rest();
    },
  };
}
