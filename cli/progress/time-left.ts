/** How long a stage still takes, by what it took so far. Times are in ms. */

/** An item that is being worked on. */
export interface Running {
  readonly elapsed: number;
  /** 0 where it does not tell. */
  readonly share: number;
}

export interface WorkSoFar {
  /** What the last items took that ended, without those kept from before. */
  readonly finished: readonly number[];
  readonly running: readonly Running[];
  /** How many have not begun and are likely to be made. */
  readonly waiting: number;
  /** Since the first item began. */
  readonly elapsed: number;
  /** Of all items that were made and are being made, together. */
  readonly busy: number;
}

/** Before so much there is no ground for an estimate. */
const leastFinished = 3;
const leastElapsed = 2000;
/** Of an item that tells how far it is. */
const leastShare = 0.1;

/**
 * The cost of an item is the mean over the last ones, the dearest and cheapest tenth taken as those at its
 * edge, so that one odd part does not turn it; what is still to do by that, over as many items as went on at once.
 * Undefined while there is no ground for it.
 */
export function timeLeft({ finished, running, waiting, elapsed, busy }: WorkSoFar): number | undefined {
  if (elapsed < leastElapsed) return undefined;
  const telling = running.filter((r) => r.share >= leastShare);
  const done =
    finished.length >= leastFinished ? finished : [...finished, ...telling.map((r) => r.elapsed / r.share)];
  const isGround = finished.length >= leastFinished || telling.length > 0;
  const cost = isGround ? robustCost(done) : undefined;
  if (cost === undefined) return undefined;
  const ends = running.map(({ elapsed: so, share }) =>
    share >= leastShare ? so / share - so : Math.max(cost - so, 0.1 * so),
  );
  const atOnce = Math.max(0.1, busy / elapsed);
  const toDo = waiting * cost + ends.reduce((a, b) => a + b, 0);
  return Math.max(toDo / atOnce, ...ends);
}

function robustCost(items: readonly number[]): number | undefined {
  const costs = [...items].sort((a, b) => a - b);
  const tenth = Math.floor(costs.length / 10);
  const [low = 0, high = 0] = [costs[tenth], costs[costs.length - 1 - tenth]];
  const took = costs.reduce((sum, cost) => sum + Math.min(high, Math.max(low, cost)), 0);
  return costs.length > 0 && Number.isFinite(took) ? took / costs.length : undefined;
}

/** ms within which a shown time follows a new estimate. */
const settling = 4000;

/** A time that is shown: it runs down with the clock and turns towards new estimates by and by. */
export class ShownTime {
  #left: number | undefined;
  #at = 0;
  /** As it was last rounded, ms. */
  #rounded: number | undefined;

  /** What to show, ms; undefined while there was never an estimate. */
  follow(estimate: number | undefined, now: number): number | undefined {
    if (estimate !== undefined) {
      const passed = Math.max(0, now - this.#at);
      if (this.#left === undefined) this.#left = estimate;
      else {
        const expected = Math.max(0, this.#left - passed);
        this.#left = expected + (estimate - expected) * (1 - Math.exp(-passed / settling));
      }
      this.#at = now;
      this.#rounded = roundTime(this.#left, this.#rounded);
    }
    return this.#rounded;
  }
}

const [second, minute, hour] = [1000, 60_000, 3_600_000];

/** ms that a time of this size is rounded to. */
const stepAt = (left: number): number =>
  left < minute ? 10 * second : left < 20 * minute ? minute : left < hour ? 5 * minute : 10 * minute;

/** Rounded, but left as it was shown last while it lies about there. */
export function roundTime(left: number, last?: number): number {
  if (last !== undefined && Math.abs(left - last) < 0.75 * stepAt(left)) return last;
  const step = stepAt(left);
  return Math.round(left / step) * step;
}

/** `about 3 min left` of a rounded time; short, `~3 min`. */
export function formatTimeLeft(left: number, isShort = false): string {
  if (left < 10 * second) return isShort ? '~5 s' : 'a few seconds left';
  const minutes = Math.round(left / minute);
  const rest = minutes % 60;
  const time =
    left < minute
      ? `${Math.round(left / second)} s`
      : minutes < 60
        ? `${minutes} min`
        : `${Math.floor(minutes / 60)} h${rest === 0 ? '' : ` ${rest} min`}`;
  return isShort ? `~${time}` : `about ${time} left`;
}
