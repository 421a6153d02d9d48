/** A stage that goes on for a time it was given tells how much of that has passed, until it ends. */
import type { ProgressEvent } from './events.js';

export interface AllowedTime {
  /** What is tried meanwhile. */
  readonly name: string;
  /** s; nothing is told of none. */
  readonly seconds: number;
  /** ms of a clock that is never set. */
  readonly now: () => number;
  /** Calls back again and again, until what it gives is called. */
  readonly every: (ms: number, tick: () => void) => () => void;
}

const pause = 250;
/** It has not ended because its time is up: what it found is still to be written out. */
const nearlyAll = 0.999;

/** Tells from now on; what it gives ends that. */
export function tellAllowedTime(
  stage: ProgressEvent['stage'],
  { name, seconds, now, every }: AllowedTime,
  onProgress: (event: ProgressEvent) => void,
): () => void {
  if (!(seconds > 0)) return () => undefined;
  const since = now();
  onProgress({ stage, of: 1, name });
  return every(pause, () => {
    const share = Math.min(nearlyAll, Math.max(0, (now() - since) / (1000 * seconds)));
    onProgress({ stage, of: 1, name, share });
  });
}

/** By the clock and the timers of the machine. */
export const byTheClock: Pick<AllowedTime, 'now' | 'every'> = {
  now: () => performance.now(),
  every: (ms, tick) => {
    const timer = setInterval(tick, ms);
    timer.unref();
    return () => clearInterval(timer);
  },
};
