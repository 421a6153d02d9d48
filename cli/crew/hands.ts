/** Who does the work: this thread, or many. */
import { type AnswerTo, type Bench, doTask, type Task } from './tasks.js';

export interface Hands {
  /** How many tasks are worked at together. */
  readonly count: number;
  /**
   * @param onShare told how much is done, where that is known
   * @throws what the work throws; `WorkerLost` where the thread that did it is no more
   */
  do<T extends Task>(task: T, onShare?: (share: number) => void): Promise<AnswerTo<T>>;
  close(): Promise<void>;
}

/** The thread that worked at a task has ended; the others go on. */
export class WorkerLost extends Error {
  override readonly name = 'WorkerLost';
  constructor(readonly outOfMemory: boolean) {
    super(outOfMemory ? 'there was not enough memory for it' : 'the thread that worked at it ended');
  }
}

/** The run was told to end. */
export class Stopped extends Error {
  override readonly name = 'Stopped';
}

export function ownHands(bench: Bench): Hands {
  return {
    count: 1,
    do: async (task, onShare) => {
      // Signals are told to the program between turns of its event loop.
      await new Promise(setImmediate);
      return doTask(task, bench, onShare);
    },
    close: async () => undefined,
  };
}

/** Does something with each item, at most so many at a time, and gives the results in the order of the items. */
export async function doAll<T, R>(
  items: readonly T[],
  most: number,
  each: (item: T, index: number) => Promise<R>,
): Promise<readonly R[]> {
  const results: R[] = [];
  let next = 0;
  const work = async (): Promise<void> => {
    while (next < items.length) {
      const i = next++;
      results[i] = await each(items[i] as T, i).catch((error: unknown) => {
        // The others begin nothing more.
        next = items.length;
        throw error;
      });
    }
  };
  await Promise.all(Array.from({ length: Math.min(most, items.length) }, work));
  return results;
}

/** The same one after the other: of results that are not yet taken there are never more than `most`. */
export async function* inOrder<T, R>(
  items: Iterable<T>,
  most: number,
  each: (item: T) => Promise<R>,
): AsyncGenerator<R> {
  const begun: Promise<R>[] = [];
  try {
    for (const item of items) {
      const result = each(item);
      // Its failure is told when it is taken.
      result.catch(() => undefined);
      begun.push(result);
      if (begun.length >= most) yield await (begun.shift() as Promise<R>);
    }
    while (begun.length > 0) yield await (begun.shift() as Promise<R>);
  } finally {
    await Promise.allSettled(begun);
  }
}
