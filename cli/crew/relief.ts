/** Threads that are relieved by fresh ones, since a thread gives its memory back only as it ends. */
import { type Hands, Stopped } from './hands.js';
import type { AnswerTo, Task } from './tasks.js';

/** Whether it is worth a second to have fresh threads between the stages of a job of so many parts. */
export const isLarge = (parts: number): boolean => parts >= 100;

/**
 * Hands of a pool of threads. A large plan gets a thread to itself, which goes with all that it took; the others have gone
 * before it comes, and fresh ones come after it, so that the process never holds the most of both.
 */
export function relievedHands(openPool: (threads: number) => Hands, count: number): Hands {
  const crew = openPool(count);
  let alone: Hands | undefined;
  let isClosed = false;
  const doAlone = async <T extends Task>(task: T): Promise<AnswerTo<T>> => {
    await crew.rest();
    if (isClosed) throw new Stopped();
    alone = openPool(1);
    try {
      return await alone.do(task);
    } finally {
      await alone.close();
    }
  };
  return {
    ...crew,
    do: async (task, onShare) =>
      task.kind === 'plan' && isLarge(task.order.parts.size) ? doAlone(task) : crew.do(task, onShare),
    close: async () => {
      isClosed = true;
      await Promise.all([crew.close(), alone?.close()]);
    },
  };
}
