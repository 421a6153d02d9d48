import type { ProgressEvent, StageKind } from './events.js';
import { type Running, ShownTime, timeLeft } from './time-left.js';

/** A stage as it is drawn. */
export interface StageView {
  readonly stage: StageKind;
  readonly done: number;
  readonly of: number;
  /** Of its work, 0 to 1. */
  readonly share: number;
  /** How many of the done were made before. */
  readonly kept: number;
  /** ms, rounded; left out where there is no ground for an estimate. */
  readonly left?: number | undefined;
  /** Being worked on, the longest first; `share` 0 where it does not tell. */
  readonly running: readonly { readonly name: string; readonly share: number }[];
}

/** Items that an estimate looks back on. */
const lookBack = 200;
/** Items whose share of kept ones tells how many of the coming are kept. */
const lookBackKept = 50;

/** One stage of a run, followed from its events. */
export class Stage {
  readonly kind: StageKind;
  #of: number;
  readonly #running = new Map<string, { readonly since: number; share: number }>();
  readonly #ended = new Set<string>();
  /** ms that the last items took. */
  readonly #finished: number[] = [];
  readonly #wereKept: boolean[] = [];
  #kept = 0;
  #since: number | undefined;
  #busy = 0;
  readonly #shown = new ShownTime();

  constructor({ stage, of }: ProgressEvent) {
    this.kind = stage;
    this.#of = of;
  }

  take({ of, name, share = 0, kept = false }: ProgressEvent, now: number): void {
    this.#of = of;
    if (name === undefined || this.#ended.has(name)) return;
    const running = this.#running.get(name);
    if (!kept && share < 1) {
      this.#since ??= now;
      if (running) running.share = Math.max(running.share, share > 0 ? share : 0);
      else this.#running.set(name, { since: now, share: share > 0 ? share : 0 });
      return;
    }
    this.#running.delete(name);
    this.#ended.add(name);
    this.#wereKept.push(kept);
    if (this.#wereKept.length > lookBackKept) this.#wereKept.shift();
    if (kept) this.#kept++;
    else if (running) {
      const took = Math.max(0, now - running.since);
      this.#busy += took;
      this.#finished.push(took);
      if (this.#finished.length > lookBack) this.#finished.shift();
    }
  }

  view(now: number): StageView {
    const [of, done] = [this.#of, this.#ended.size];
    const running = [...this.#running].map(([name, { since, share }]) => {
      const elapsed = Math.max(0, now - since);
      return { name, share, elapsed } satisfies Running & { name: string };
    });
    const underWay = running.reduce((sum, r) => sum + Math.min(1, r.share), 0);
    const made = this.#wereKept.filter((kept) => !kept).length;
    const likely = this.#wereKept.length === 0 ? 1 : Math.max(0.02, made / this.#wereKept.length);
    const estimate = timeLeft({
      finished: this.#finished,
      running,
      waiting: Math.max(0, of - done - running.length) * likely,
      elapsed: this.#since === undefined ? 0 : Math.max(0, now - this.#since),
      busy: this.#busy + running.reduce((sum, r) => sum + r.elapsed, 0),
    });
    return {
      stage: this.kind,
      done: Math.min(done, of),
      of,
      share: of > 0 ? Math.min(1, (done + underWay) / of) : 0,
      kept: this.#kept,
      left: this.#shown.follow(estimate, now),
      running,
    };
  }
}
