/** A field's values and range in the user's unit. */
import { maths } from '../maths/maths.js';
import { degrees, formatNumber, type LengthUnit, millimetresPerInch } from '../units/index.js';
import type { FieldInfo, FieldKind } from './fields.js';

/** `mm`, `in`, `°`, `°C` and so on, or nothing for numbers, counts, choices and flags. */
export const fieldUnit = (info: FieldInfo, lengthUnit: LengthUnit): string =>
  info.kind === 'length' ? lengthUnit : (units[info.kind] ?? '');

const units: Readonly<Partial<Record<FieldKind, string>>> = {
  angle: '°',
  temperature: '°C',
  'temperature-rate': '°C/h',
  duration: 's',
  mass: 'g',
  power: 'W',
};

/** A stored value as the number people read: inches, degrees. */
export const toShown = (info: FieldInfo, value: number, lengthUnit: LengthUnit): number => {
  if (info.kind === 'length' && lengthUnit === 'in') return value / millimetresPerInch;
  return info.kind === 'angle' ? degrees(value) : value;
};

/** Decimals that keep at least three significant figures. */
const digitsFor = (info: FieldInfo, value: number, lengthUnit: LengthUnit): number => {
  const usual = info.kind === 'length' && lengthUnit === 'mm' ? 3 : 4;
  return value === 0 ? usual : Math.min(12, Math.max(usual, 2 - Math.floor(maths.log10(Math.abs(value)))));
};

const withUnit = (text: string, unit: string): string =>
  unit === '' ? text : unit === '°' ? `${text}°` : `${text} ${unit}`;

/** A value as `readFields` would read it back: `12 mm`, `25°`, `40`, `yes`. */
export function formatFieldValue(
  info: FieldInfo,
  value: number | string | boolean,
  lengthUnit: LengthUnit,
): string {
  if (typeof value === 'boolean') return value ? 'yes' : 'no';
  if (typeof value === 'string') return value;
  const shown = toShown(info, value, lengthUnit);
  return withUnit(
    formatNumber(shown, { digits: digitsFor(info, shown, lengthUnit) }),
    fieldUnit(info, lengthUnit),
  );
}

/** A bound, rounded into the range, so that the value shown is itself accepted. */
function formatBound(info: FieldInfo, bound: number, side: 'min' | 'max', lengthUnit: LengthUnit): string {
  const shown = toShown(info, bound, lengthUnit);
  const digits = digitsFor(info, shown, lengthUnit);
  const nearest = Number(shown.toFixed(digits));
  const outside = side === 'min' ? nearest < shown : nearest > shown;
  const slight = Math.abs(nearest - shown) <= 1e-9 * Math.max(1, Math.abs(shown));
  const step = side === 'min' ? maths.pow(10, -digits) : -maths.pow(10, -digits);
  return formatNumber(outside && !slight ? nearest + step : nearest, { digits });
}

/** `from 5 to 400`, `from 0.5 to 25 mm`, `a whole number from 1 to 9`, `one of left, right`, `yes or no`. */
export function formatRange(info: FieldInfo, lengthUnit: LengthUnit): string {
  if (info.kind === 'flag') return 'yes or no';
  if (info.kind === 'choice') return info.choices === undefined ? '' : `one of ${info.choices.join(', ')}`;
  if (info.kind === 'text') return `a text of at most ${info.longest} characters`;
  if (info.kind === 'file') return 'the name of a file';
  const whole = info.kind === 'count' ? 'a whole number' : '';
  const unit = fieldUnit(info, lengthUnit);
  const min = info.min === undefined ? undefined : formatBound(info, info.min, 'min', lengthUnit);
  const max = info.max === undefined ? undefined : formatBound(info, info.max, 'max', lengthUnit);
  const limits =
    min !== undefined && max !== undefined
      ? `from ${min} to ${withUnit(max, unit)}`
      : min !== undefined
        ? `at least ${withUnit(min, unit)}`
        : max !== undefined
          ? `at most ${withUnit(max, unit)}`
          : '';
  const words = info.choices === undefined ? '' : `or ${info.choices.join(' or ')}`;
  return [whole, limits, words].filter((text) => text !== '').join(' ');
}
