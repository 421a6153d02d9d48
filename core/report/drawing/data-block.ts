import type { Vec2 } from '../../solid/types.js';
import {
  type Block,
  type Mark,
  makeBlock,
  makeText,
  noArea,
  piecesWidth,
  symbolPieces,
  type TextMark,
  tableSize,
} from './sheet-marks.js';
import { textWidth, wrapWidth } from './text-width.js';

/** A row with its value in the reader's unit. */
export interface DataRow {
  readonly symbol: string;
  readonly name: string;
  readonly value: string;
  /** The value is that of the size with this symbol. */
  readonly isSize: boolean;
}

const pad = 1.2;
const lead = 3.7;
/** Space above and below a row's lines. */
const rowAir = 1.1;
const widestName = 42;
const widestValue = 34;
/** Between columns of rows standing side by side. */
const gutter = 3;

/**
 * The data block as a table, its top left corner at the origin, its rows in `columns` columns one beside the other.
 */
export function dataBlock(title: string, rows: readonly DataRow[], columns: number): Block {
  if (rows.length === 0) return { marks: [], texts: [], area: { ...noArea, x0: 0, y0: 0, x1: 0, y1: 0 } };
  const cells = rows.map((row) => ({
    row,
    name: wrapWidth(row.name, widestName, tableSize),
    value: wrapWidth(row.value, widestValue, tableSize),
  }));
  const widest = (widths: readonly number[]): number => Math.max(0, ...widths);
  const symbolWidth = widest(rows.map((r) => piecesWidth(symbolPieces(r.symbol), tableSize)));
  const nameWidth = widest(cells.flatMap((c) => c.name.map((line) => textWidth(line, tableSize))));
  const valueWidth = widest(cells.flatMap((c) => c.value.map((line) => textWidth(line, tableSize))));
  const width = nameWidth + symbolWidth + valueWidth + 6 * pad;
  const heights = cells.map((c) => Math.max(c.name.length, c.value.length) * lead + rowAir);
  const perColumn = splitEvenly(heights, columns);

  const marks: Mark[] = [];
  const texts: TextMark[] = [makeText(title, [0, 3.1], { size: 3.2, bold: true })];
  let next = 0;
  perColumn.forEach((count, k) => {
    const x = k * (width + gutter);
    let y = 4.6;
    const line = (from: Vec2, to: Vec2): void => {
      marks.push({ style: 'thin', points: [from, to] });
    };
    line([x, y], [x + width, y]);
    for (let i = next; i < next + count; i++) {
      const { row, name, value } = cells[i] as (typeof cells)[number];
      const baseline = y + rowAir / 2 + 2.8;
      name.forEach((text, n) => {
        texts.push(makeText(text, [x + pad, baseline + n * lead], { size: tableSize }));
      });
      if (row.symbol !== '')
        texts.push(
          makeText(symbolPieces(row.symbol), [x + 3 * pad + nameWidth, baseline], { size: tableSize }),
        );
      value.forEach((text, n) => {
        texts.push(
          makeText(text, [x + width - pad, baseline + n * lead], {
            size: tableSize,
            anchor: 'end',
            ...(row.isSize && n === 0 ? { symbol: row.symbol } : {}),
          }),
        );
      });
      y += heights[i] as number;
      line([x, y], [x + width, y]);
    }
    for (const at of [0, width]) line([x + at, 4.6], [x + at, y]);
    next += count;
  });
  return makeBlock(marks, texts);
}

/** How many rows go in each column, so that the tallest is as low as can be. */
function splitEvenly(heights: readonly number[], columns: number): readonly number[] {
  const total = heights.reduce((a, b) => a + b, 0);
  for (let limit = total / columns; ; limit += 0.5) {
    const counts = [0];
    let filled = 0;
    for (const h of heights) {
      if (filled + h > limit + 1e-9 && (counts.at(-1) as number) > 0) {
        counts.push(0);
        filled = 0;
      }
      counts[counts.length - 1] = (counts.at(-1) as number) + 1;
      filled += h;
    }
    if (counts.length <= columns) return counts;
  }
}
