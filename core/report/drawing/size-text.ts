import type { DimensionRow } from '../../job/summary.js';
import type { DataNote, Sized } from '../../part/drawing-notes.js';
import { formatLength } from '../../units/index.js';
import { decimals, type Format } from '../format.js';

/** A number on the drawing in the reader's unit: mm without trailing zeros (ISO 129-1), inches with three places. */
export const sizeNumber = (mm: number, f: Format): string =>
  formatLength(mm, f.view.lengthUnit, {
    digits: f.view.lengthUnit === 'mm' ? 2 : 3,
    keepZeros: f.view.lengthUnit === 'in',
    showUnit: false,
  }).replace('-', '−');

/** A value in its unit; lengths without their unit, which the sheet gives once. */
export function sizeValue(value: number, unit: DimensionRow['unit'], f: Format): string {
  if (unit === 'mm') return sizeNumber(value, f);
  if (unit === 'rad') return f.angle(value).replace(/\.?0+°$/, '°');
  return Number.isInteger(value) ? String(value) : decimals(value, 4).replace(/0+$/, '');
}

/** The words of a note; `undefined` where it names a size that the part has not. */
export function sizedText(note: Sized, rows: readonly DimensionRow[], f: Format): string | undefined {
  const sizes = typeof note.of === 'object' ? note.of : [note.of];
  const values: string[] = [];
  for (const size of sizes) {
    if (typeof size === 'number') values.push(sizeNumber(size, f));
    else {
      const row = rows.find((r) => r.symbol === size);
      if (!row) return undefined;
      values.push(sizeValue(row.part, row.unit, f));
    }
  }
  const pieces = (note.form ?? '{}').split('{}');
  return pieces.reduce((text, piece, i) => `${text}${values[i - 1] ?? ''}${piece}`);
}

export const dataValue = ({ value, unit }: DataNote, f: Format): string =>
  typeof value === 'number' ? sizeValue(value, unit ?? 'mm', f) : value;

/** Symbols that notes name. */
export const symbolsOf = ({ of }: Sized): readonly string[] =>
  (typeof of === 'object' ? of : [of]).filter((s) => typeof s === 'string');
