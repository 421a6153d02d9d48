/** A number as it is written into a job, so that `readFieldValue` reads the same number back. */

import { formatMixedFraction } from '../units/fraction.js';
import { formatNumber, type LengthUnit } from '../units/index.js';
import { toShown } from './field-text.js';
import type { FieldInfo } from './fields.js';
import type { FieldValue } from './read-field.js';

/** Inches in whole 64ths are written as the rule shows them: `1-1/2in`. */
const isFraction = (inches: number): boolean => Math.abs(inches) >= 1 / 64 && Number.isInteger(inches * 64);

/** A number in the unit that is shown, as a job has it: `12.5`, `1-1/2in`, `25deg`, `732C`. */
export function rawOfShown(info: FieldInfo, shown: number, lengthUnit: LengthUnit): number | string {
  switch (info.kind) {
    case 'length':
      return lengthUnit === 'in' && isFraction(shown) && !Number.isInteger(shown)
        ? `${formatMixedFraction(shown, 64)}in`
        : shown;
    case 'angle':
      return `${plain(shown)}deg`;
    case 'temperature':
      return `${plain(shown)}C`;
    case 'temperature-rate':
      return `${plain(shown)}C/h`;
    default:
      return shown;
  }
}

/** A stored value (mm, radians …) as a job has it, its digits kept: `18`, but `18mm` in a job in inches. */
export function rawOfValue(info: FieldInfo, value: FieldValue, lengthUnit: LengthUnit): FieldValue {
  if (typeof value !== 'number') return value;
  if (info.kind === 'length' && lengthUnit === 'in') return `${plain(value)}mm`;
  return rawOfShown(info, Number(plain(toShown(info, value, lengthUnit))), lengthUnit);
}

const plain = (value: number): string => formatNumber(value, { digits: 12 });
