/** Clock times of a programme. Days have 24 hours here: no time zone, no summer time. */
import { type Parsed, parsed, unparsed } from '../../units/index.js';
import { FoundryInputError } from '../input.js';
import type { BurnoutClock, BurnoutSegment } from '../plans.js';

/** When it starts, or when it is to be ready to pour: `2026-05-09T18:30`, or ms since 1970 as a clock without zone. */
export type BurnoutTime =
  | { readonly startAt: string | number; readonly pourAt?: undefined }
  | { readonly pourAt: string | number; readonly startAt?: undefined };

const written = /^\d{4}-\d{2}-\d{2}T\d{2}:\d{2}(:\d{2})?$/;

/**
 * The clock at the start and at each segment's end. To the minute: a start reckoned back from the pour is rounded
 * down, the ends up, so that nothing is taken out early.
 * @throws FoundryInputError for what is no date and time, or has a zone.
 */
export function burnoutClock(
  segments: readonly Pick<BurnoutSegment, 'ramp' | 'soak'>[],
  time: BurnoutTime,
): BurnoutClock {
  const total = segments.reduce((t, s) => t + s.ramp + s.soak, 0);
  const start =
    time.startAt !== undefined
      ? clockTime('startAt', time.startAt)
      : Math.floor((clockTime('pourAt', time.pourAt) - total * 1000) / minute) * minute;
  let elapsed = 0;
  const ends = segments.map((s) => {
    elapsed += s.ramp + s.soak;
    return clockText(start + Math.ceil((elapsed * 1000) / minute - 1e-6) * minute);
  });
  return { start: clockText(start), ends };
}

const minute = 60_000;

/** Checks a date and time as a job gives it. */
export function parseClockTime(text: string): Parsed<string> {
  try {
    return parsed(clockText(clockTime('', text)));
  } catch (error) {
    if (!(error instanceof FoundryInputError)) throw error;
    return unparsed('is no date and time', error.expected);
  }
}

/** ms since 1970. */
function clockTime(parameter: string, value: string | number): number {
  const refuse = (): never => {
    throw new FoundryInputError(
      parameter,
      value,
      'write a date and time without a zone, like 2026-05-09T18:30',
    );
  };
  if (typeof value === 'number') return Number.isFinite(value) && Math.abs(value) < 8e15 ? value : refuse();
  const text = value.trim().replace(' ', 'T');
  if (!written.test(text)) return refuse();
  const ms = Date.parse(`${text}Z`);
  // 30 February and 24:00 are read as what comes after them: no such day, no such hour.
  return Number.isFinite(ms) && new Date(ms).toISOString().startsWith(text) ? ms : refuse();
}

const clockText = (ms: number): string => new Date(ms).toISOString().slice(0, 16);
