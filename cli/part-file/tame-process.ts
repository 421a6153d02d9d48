/** What code that is not ours could do to the whole run, caught so that it ends in words. */
import { isMainThread } from 'node:worker_threads';
import type { PartPath } from './place-in-file.js';
import { placeInStack, shownPlace } from './place-in-file.js';

/** `process.exit` was called where only a part was asked for. */
export class EndedByPart extends Error {
  override readonly name = 'EndedByPart';
}

let tamed = false;

/**
 * From now on `process.exit` throws, so that a run does not end silently; what is printed with `console.log` goes to
 * the messages, since results belong to programs; what fails between turns ends the run with one line.
 * @param err where messages go
 * @param exit ends the run; what is begun is cleared away by the next
 */
export function tameProcess(parts: () => readonly PartPath[], err: (text: string) => void): void {
  if (tamed) return;
  tamed = true;
  const end = process.exit.bind(process);
  process.exit = () => {
    throw new EndedByPart('process.exit was called');
  };
  console.log = console.error;
  console.info = console.error;
  console.debug = console.error;
  // The part's own file is to be among the lines of a stack, however deep it was left.
  Error.stackTraceLimit = 100;
  if (!isMainThread) {
    // It ends the thread, as Node does it; the part that the thread worked at is told of.
    process.once('uncaughtExceptionMonitor', () => {
      process.exit = end;
    });
    return;
  }
  const told = (reason: unknown): void => {
    const place = parts()
      .map((part) => ({ part, place: placeInStack(reason, part) }))
      .find((found) => found.place !== undefined);
    const what = place?.place
      ? `A part file failed after it was run, at ${shownPlace(place.place, place.part)}`
      : 'This should not have happened';
    err(`${what}: ${reasonOf(reason)}\nNothing was written.\n`);
    end(1);
  };
  process.on('uncaughtException', told);
  process.on('unhandledRejection', told);
}

const longestReason = 300;

/** What was thrown, in one line. Never throws. */
export function reasonOf(error: unknown): string {
  try {
    const said =
      error instanceof RangeError && /call stack/.test(error.message)
        ? 'endless recursion: a function calls itself without end'
        : error instanceof Error
          ? `${error.message}` || error.name
          : `threw ${typeof error === 'string' ? `"${error}"` : String(error)}, not an Error`;
    const [first = ''] = said.split('\n');
    const line = first.replace(/\p{Cc}/gu, ' ').trim();
    return line.length > longestReason ? `${line.slice(0, longestReason)}…` : line;
  } catch {
    return 'something that cannot be shown was thrown';
  }
}
