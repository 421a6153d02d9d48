import { formatLength, type LengthUnit } from '../units/index.js';

/** One row of a pair's figures: a value for the whole, or one for either member. */
export interface PairRow {
  readonly label: string;
  readonly values: readonly [string] | readonly [string, string];
}

export const oneRow = (label: string, value: string): PairRow => ({ label, values: [value] });
export const twoRow = (label: string, values: readonly [string, string]): PairRow => ({ label, values });

/** A number as short as its digits allow, with a true minus sign. */
export const plain = (value: number, digits: number): string => {
  const text = String(Number(value.toFixed(digits)));
  return text === '-0' ? '0' : text.replace('-', '−');
};

export const lengthIn =
  (unit: LengthUnit) =>
  (value: number): string =>
    formatLength(value, unit, { digits: unit === 'in' ? 4 : 3 }).replace('-', '−');
