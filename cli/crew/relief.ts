/** Threads that are relieved by fresh ones, since a thread's memory is given back only as it ends. */
import { type Hands, Stopped } from './hands.js';
import type { AnswerTo, Task } from './tasks.js';

/** Plans of so many parts are laid out by a thread that is alone meanwhile. */
const manyParts = 200;

/**
 * Hands of a pool of threads. A large plan gets a thread to itself, which goes with all that it took; the others have gone
 * before it comes, and fresh ones come after it, so that the process never holds the most of both.
 */
export function relievedHands(openPool: (threads: number) => Hands, count: number): Hands {
  const opened = new Set<Hands>();
  let isClosed = false;
  const open = (threads: number): Hands => {
    if (isClosed) throw new Stopped();
    const hands = openPool(threads);
    opened.add(hands);
    return hands;
  };
  const close = async (hands: Hands): Promise<void> => {
    await hands.close();
    opened.delete(hands);
  };
  let crew: Hands | undefined = open(count);
  const doAlone = async <T extends Task>(task: T): Promise<AnswerTo<T>> => {
    if (crew) await close(crew);
    crew = undefined;
    const alone = open(1);
    try {
      return await alone.do(task);
    } finally {
      await close(alone);
    }
  };
  return {
    count,
    do: async (task, onShare) => {
      if (task.kind === 'plan' && task.order.parts.size >= manyParts) return doAlone(task);
      crew ??= open(count);
      return crew.do(task, onShare);
    },
    close: async () => {
      isClosed = true;
      for (const hands of opened) await hands.close();
    },
  };
}
