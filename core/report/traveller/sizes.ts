import type { DimensionRow, PartSummary } from '../../job/summary.js';
import { decimals, type Format } from '../format.js';
import { type Html, html } from '../html.js';
import { capital, symbol } from './context.js';

/** A dimension's value in its own unit; lengths without their unit, which the heading gives. */
export function dimensionValue(row: DimensionRow, value: number, f: Format): string {
  if (row.unit === 'mm') return f.lengthNumber(value);
  if (row.unit === 'rad') return f.angle(value);
  return Number.isInteger(value) ? String(value) : decimals(value, 3);
}

/** Whether the printer has a correction of its own for this part. */
export const isCorrected = (p: PartSummary): boolean =>
  p.printerCorrection.xy !== 1 || p.printerCorrection.z !== 1;

/**
 * What the print itself should measure: the file's size without the printer's correction, which is there to
 * cancel the printer's error.
 */
export function printedSize(row: DimensionRow, p: PartSummary): number {
  if (row.printed !== undefined) return row.printed;
  const { xy, z } = p.printerCorrection;
  if (row.axis === 'none') return row.pattern;
  return row.pattern / (row.axis === 'xy' ? xy : z);
}

/** Name, symbol and how it is checked, as the first cell of a row of sizes. */
export const dimensionHead = (row: DimensionRow): Html =>
  html`<th scope="row">${capital(row.name)} <i class="symbol">${symbol(row.symbol)}</i><span class="method">${row.method}</span></th>`;
