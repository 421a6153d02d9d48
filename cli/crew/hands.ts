/** Who does the work: this thread, or many. */
import type { Bench } from './bench.js';
import { type AnswerTo, doTask, type Task } from './tasks.js';

export interface Hands {
  /** How many tasks are worked at together. */
  readonly count: number;
  /**
   * @param onShare told how much is done, where that is known
   * @throws what the work throws; `WorkerLost` where the thread that did it is no more
   */
  do<T extends Task>(task: T, onShare?: (share: number) => void): Promise<AnswerTo<T>>;
  /** Lets threads go that have nothing to do, with the memory that they hold; more work calls fresh ones. */
  rest(): Promise<void>;
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
    rest: async () => undefined,
    close: async () => undefined,
  };
}
