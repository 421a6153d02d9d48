/** The bar on a terminal: one line that is drawn over itself. */
import type { ProgressEvent, StageKind } from './events.js';
import { formatStage } from './line.js';
import { Stage } from './stage.js';

export interface ProgressBar {
  event(event: ProgressEvent): void;
  /** Prints lines above the bar. */
  print(text: string): void;
  /** Takes the bar away; an event brings it back. */
  clear(): void;
}

export interface ProgressOptions {
  readonly write: (text: string) => void;
  /** Of the terminal, now; undefined where it does not tell. */
  readonly columns: () => number | undefined;
  /** ms of a clock that is never set. */
  readonly now: () => number;
  /** Whether the terminal shows more than ASCII; default true. */
  readonly unicode?: boolean;
  /** Whether it can clear a line; default true. */
  readonly escapes?: boolean;
  /** Calls back again and again, until what it gives is called: the time left runs down while nothing else happens. */
  readonly every?: (ms: number, tick: () => void) => () => void;
}

/** Where nobody watches. */
export const noProgress: ProgressBar = {
  event: () => undefined,
  print: () => undefined,
  clear: () => undefined,
};

/** ms between drawings. */
const leastPause = 100;
const tickPause = 500;
/** ms: a longer step of the clock is a machine that slept, or a clock that is not to be trusted. */
const longestStep = 3_600_000;
const usualColumns = 80;

/** Begins a bar that is drawn as events come, at most ten times a second. Of several stages the one that began last is shown. */
export function startProgress(options: ProgressOptions): ProgressBar {
  const { write, unicode = true, escapes = true } = options;
  const clock = steadyClock(options.now);
  const stages = new Map<StageKind, Stage>();
  let shown: Stage | undefined;
  /** Characters of the line that stands. */
  let drawn = 0;
  let drawnAt = Number.NEGATIVE_INFINITY;
  let stopTicks: (() => void) | undefined;
  const columns = (): number => Math.max(1, Math.floor(options.columns() || usualColumns));

  /** What takes the line away, which is more than one where the terminal was made narrower. */
  const wipe = (): string => {
    if (drawn === 0) return '';
    if (!escapes) return `\r${' '.repeat(Math.min(drawn, columns() - 1))}\r`;
    const above = Math.ceil(drawn / columns()) - 1;
    return `\r${above > 0 ? `\u001b[${above}A` : ''}\u001b[J`;
  };
  const draw = (): void => {
    if (!shown) return;
    const now = clock();
    // The last column stays free: a terminal that has filled it may go to the next line.
    const line = formatStage(shown.view(now), columns() - 1, unicode);
    write(`${wipe()}${line}`);
    drawn = line.length;
    drawnAt = now;
  };
  const clear = (): void => {
    stopTicks?.();
    stopTicks = undefined;
    if (drawn > 0) write(wipe());
    drawn = 0;
  };
  return {
    event(event) {
      const now = clock();
      const known = event.name === undefined ? undefined : stages.get(event.stage);
      const stage = known ?? new Stage(event);
      stages.set(event.stage, stage);
      if (!known) shown = stage;
      stage.take(event, now);
      stopTicks ??= options.every?.(tickPause, draw);
      // Nothing more may come for a long time of a stage that begins.
      if (!known || now - drawnAt >= leastPause) draw();
    },
    print(text) {
      const stood = drawn > 0;
      write(`${wipe()}${text}`);
      drawn = 0;
      if (stood) draw();
    },
    clear,
  };
}

/** A clock that only goes forward, and never far at once. */
function steadyClock(now: () => number): () => number {
  let [last, told] = [Number.NaN, 0];
  return () => {
    const read = now();
    const step = read - last;
    if (step > 0) told += Math.min(step, longestStep);
    if (Number.isFinite(read)) last = read;
    return told;
  };
}
