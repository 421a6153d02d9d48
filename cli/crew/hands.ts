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

/** What a part file did when nobody waited for it. */
export interface Stray {
  /** The file as the job names it; left out where it cannot be told. */
  readonly file?: string;
  /** Where and why: `./late.mjs:3:9: too late`. */
  readonly told: string;
}

/** The thread that worked at a task has ended; the others go on. */
export class WorkerLost extends Error {
  override readonly name = 'WorkerLost';
  constructor(
    readonly outOfMemory: boolean,
    /** Somebody's own code that ended it between its tasks. */
    readonly stray?: Stray,
  ) {
    super(outOfMemory ? 'there was not enough memory for it' : 'the thread that worked at it ended');
  }
}

/** A part file is no longer what it was when the job was read. */
export class FileChanged extends Error {
  override readonly name = 'FileChanged';
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
