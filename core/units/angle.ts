/** Angles: radians inside, degrees for people. */
import { maths } from '../maths/maths.js';
import { formatNumber, type NumberFormat } from './format-number.js';
import { plainText, splitNumber } from './number-text.js';
import { type Parsed, parsed, unparsed } from './parsed.js';

const example = "30deg or 30°15'";

export const radians = (degrees: number): number => (degrees * Math.PI) / 180;
export const degrees = (radians: number): number => (radians * 180) / Math.PI;

const sexagesimal =
  /^([-+]?)(\d{1,9}(?:\.\d+)?) ?(?:°|deg) ?(?:(\d{1,9}(?:\.\d+)?) ?' ?)?(?:(\d{1,9}(?:\.\d+)?) ?(?:"|''))?$/;

/**
 * Reads an angle in radians: `30`, `30deg`, `30°`, `30°15'`, `30°15'20"`, `0.5rad`, `500mrad`. A bare number is
 * in degrees. Refused: minutes or seconds without degrees (`3'` may be feet, `5"` inches), minutes or seconds
 * of 60 and more, and a decimal part before a smaller unit.
 */
export function parseAngle(input: string | number): Parsed {
  const text = typeof input === 'string' && input.length <= 64 ? plainText(input) : input;
  const parts = typeof text === 'string' ? sexagesimal.exec(text) : null;
  if (parts !== null && (parts[3] !== undefined || parts[4] !== undefined)) return fromParts(parts);
  const split = splitNumber(input, example);
  if (!split.ok) return split;
  const { numerator, denominator, rest } = split.value;
  const value = numerator / denominator;
  switch (rest.toLowerCase()) {
    case '':
    case '°':
    case 'deg':
    case 'degree':
    case 'degrees':
      return parsed(radians(value));
    case 'rad':
      return parsed(value);
    case 'mrad':
      return parsed(value / 1000);
    case "'":
      return unparsed(
        'may be minutes of arc or feet',
        `write minutes with degrees, like 0°${formatNumber(value)}'`,
      );
    case '"':
    case "''":
      return unparsed(
        'may be seconds of arc or inches',
        `write seconds with degrees and minutes, like 0°0'${formatNumber(value)}"`,
      );
    default:
      return unparsed(
        /\d/.test(rest) ? `has "${rest}" after the number` : `has the unit "${rest}", which is no angle`,
        `write it like ${example}`,
      );
  }
}

function fromParts([, sign, degreeText = '', minuteText, secondText]: RegExpExecArray): Parsed {
  const [whole, minutes, seconds] = [degreeText, minuteText ?? '0', secondText ?? '0'].map(Number) as [
    number,
    number,
    number,
  ];
  if (minuteText === undefined) {
    return unparsed('gives seconds without minutes', `write the minutes too, like 30°0'20"`);
  }
  if (minutes >= 60 || seconds >= 60) {
    return unparsed(
      minutes >= 60 ? `has ${minutes} minutes` : `has ${seconds} seconds`,
      'minutes and seconds go from 0 to below 60',
    );
  }
  if (!Number.isInteger(whole) || (secondText !== undefined && !Number.isInteger(minutes))) {
    return unparsed('has decimals before a smaller unit', `write it like ${example}, or as decimal degrees`);
  }
  return parsed(radians(((sign === '-' ? -1 : 1) * (whole * 3600 + minutes * 60 + seconds)) / 3600));
}

/** `deg` is 30.25°, `dms` is 30°15', `rad` is 0.528 rad. */
export type AngleStyle = 'deg' | 'dms' | 'rad';

/** An angle for people. `digits` are those of the last unit shown: default 3 (deg), 0 (dms), 5 (rad). */
export function formatAngle(angle: number, style: AngleStyle = 'deg', format: NumberFormat = {}): string {
  if (style === 'rad') return `${formatNumber(angle, { digits: 5, ...format })} rad`;
  if (style === 'deg') return `${formatNumber(degrees(angle), { digits: 3, ...format })}°`;
  if (!Number.isFinite(angle)) return String(angle);
  // Round once, in the smallest unit shown, so that 59.9999" carries into the minutes.
  const unit = maths.pow(10, format.digits ?? 0);
  const total = Math.round(Math.abs(degrees(angle)) * 3600 * unit);
  const seconds = (total % (60 * unit)) / unit;
  const minutes = Math.floor(total / (60 * unit)) % 60;
  const whole = Math.floor(total / (3600 * unit));
  const sign = angle < 0 && total > 0 ? '-' : '';
  if (total % (3600 * unit) === 0) return `${sign}${whole}°`;
  return `${sign}${whole}°${minutes}'${seconds === 0 ? '' : `${formatNumber(seconds, format)}"`}`;
}
