import { wrap } from '../core/report/wrap.js';

const labelWidth = 36;
const columnWidth = 18;

const pad = (text: string, width: number): string => text + ' '.repeat(Math.max(1, width - [...text].length));

/** `  centre distance a                   64 mm`, longer values on lines of their own below. */
export const oneRow = (label: string, value: string): string =>
  wrap(value, `  ${pad(label, labelWidth)}`, ' '.repeat(labelWidth + 2));

/** A row with a value for each of the two members. */
export const twoRow = (label: string, [first, second]: readonly [string, string]): string =>
  `  ${pad(label, labelWidth)}${pad(first, columnWidth)}${second}`.trimEnd();

export const paragraph = (text: string): string => wrap(text, '  ', '  ');
export const bullet = (text: string): string => wrap(text, '  - ', '    ');

/** A number as short as its digits allow, with a true minus sign. */
export const plain = (value: number, digits: number): string => {
  const text = String(Number(value.toFixed(digits)));
  return text === '-0' ? '0' : text.replace('-', '−');
};
