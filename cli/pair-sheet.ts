import type { PairRow } from '../core/pair/rows.js';
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

/** Rows of figures as lines. */
export const printed = (rows: readonly PairRow[]): readonly string[] =>
  rows.map(({ label, values }) => (values.length === 1 ? oneRow(label, values[0]) : twoRow(label, values)));
