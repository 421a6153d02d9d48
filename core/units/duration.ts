/** Durations: seconds inside. */
import { plainText, splitNumber } from './number-text.js';
import { type Parsed, parsed, unparsed } from './parsed.js';

export type DurationUnit = 's' | 'min' | 'h';

const example = '2h, 90min, 2h 30min or 1.5s';

const secondsPer: Readonly<Record<string, number>> = {
  s: 1,
  sec: 1,
  min: 60,
  h: 3600,
  hr: 3600,
  hours: 3600,
  hour: 3600,
  d: 86_400,
};

const compound = /^(\d+) ?(?:h|hr) ?(\d+) ?min$/i;

/** Reads a duration in seconds: `2h`, `90min`, `45s`, `2h 30min`. A bare number is in `unit`. Negative is refused. */
export function parseDuration(input: string | number, unit: DurationUnit): Parsed {
  const text = typeof input === 'string' && input.length <= 64 ? plainText(input) : input;
  if (typeof text === 'string') {
    const both = compound.exec(text);
    if (both !== null) return fromHoursAndMinutes(Number(both[1]), Number(both[2]));
    if (/^\d+:\d/.test(text))
      return unparsed('may be hours and minutes or minutes and seconds', `write it like ${example}`);
  }
  const split = splitNumber(input, example);
  if (!split.ok) return split;
  const { numerator, denominator, rest } = split.value;
  if (numerator < 0) return unparsed('is negative', `write it like ${example}`);
  const spelled = rest.toLowerCase();
  if (spelled === 'm') return unparsed('may be minutes or metres', 'write minutes as min');
  const seconds =
    rest === '' ? secondsPer[unit] : Object.hasOwn(secondsPer, spelled) ? secondsPer[spelled] : undefined;
  if (seconds === undefined)
    return unparsed(`has the unit "${rest}", which is no duration`, `write it like ${example}`);
  const value = (numerator * seconds) / denominator;
  return Number.isFinite(value) ? parsed(value) : unparsed('is too large', `write it like ${example}`);
}

function fromHoursAndMinutes(hours: number, minutes: number): Parsed {
  if (minutes >= 60) return unparsed(`has ${minutes} minutes beside hours`, 'minutes go from 0 to 59');
  return parsed(hours * 3600 + minutes * 60);
}

/** A duration for people: `45 s`, `12 min`, `2 h 30 min`. Seconds are shown below ten minutes only. */
export function formatDuration(seconds: number): string {
  if (!Number.isFinite(seconds)) return String(seconds);
  const sign = seconds < 0 ? '-' : '';
  const size = Math.round(Math.abs(seconds));
  if (size < 60) return `${size === 0 ? '' : sign}${size} s`;
  if (size < 600) return `${sign}${joined(Math.floor(size / 60), 'min', size % 60, 's')}`;
  const minutes = Math.round(Math.abs(seconds) / 60);
  if (minutes < 60) return `${sign}${minutes} min`;
  return `${sign}${joined(Math.floor(minutes / 60), 'h', minutes % 60, 'min')}`;
}

const joined = (large: number, largeUnit: string, small: number, smallUnit: string): string =>
  small === 0 ? `${large} ${largeUnit}` : `${large} ${largeUnit} ${small} ${smallUnit}`;
