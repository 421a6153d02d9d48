import type { DimensionRow } from '../../job/summary.js';
import type { Vec2 } from '../../solid/types.js';
import type { Format } from '../format.js';
import { arrangeViews } from './arrange-views.js';
import type { DataRow } from './data-block.js';
import type { DrawnPart, DrawnView } from './drawn-part.js';
import type { Block } from './sheet-marks.js';
import { dataValue, sizeValue, symbolsOf } from './size-text.js';
import { viewBlock } from './view-block.js';

/** ISO 5455:1979, as far as hardware needs. */
export const scales = [10, 5, 2, 1, 1 / 2, 1 / 5, 1 / 10, 1 / 20, 1 / 50, 1 / 100] as const;

export const formatScale = (scale: number): string =>
  scale >= 1 ? `${scale}:1` : `1:${Math.round(1 / scale)}`;

/** All views with their dimensions at a scale, each scale worked out once. */
export function viewsAtScale(
  drawn: DrawnPart,
  rows: readonly DimensionRow[],
  f: Format,
): (scale: number) => Block {
  const made = new Map<number, Block>();
  return (scale) => {
    const block =
      made.get(scale) ??
      arrangeViews(
        drawn.views,
        drawn.views.map((view) => viewBlock(view, scale, rows, f)),
      );
    made.set(scale, block);
    return block;
  };
}

/** Width and height that the bare shapes take side by side, mm of the part: enough to rule most scales out. */
export function bareSize({ views }: DrawnPart): Vec2 {
  const total = (cell: (v: DrawnView) => number, size: 0 | 1): number =>
    [...new Set(views.map(cell))].reduce(
      (sum, at) => sum + Math.max(...views.filter((v) => cell(v) === at).map((v) => v.size[size])),
      0,
    );
  return [total((v) => v.cell.column, 0), total((v) => v.cell.row, 1)];
}

/** The part's own data as rows of the data block. */
export const ownRows = (drawn: DrawnPart, f: Format): readonly DataRow[] =>
  drawn.data.map((note) => ({
    symbol: note.symbol ?? '',
    name: note.name,
    value: dataValue(note, f),
    isSize: false,
  }));

/** The sizes that no view shows. */
export function unshownRows(drawn: DrawnPart, rows: readonly DimensionRow[], f: Format): readonly DataRow[] {
  const known = new Set(rows.map((row) => row.symbol));
  const shown = new Set(
    drawn.views
      .flatMap((v) => v.dimensions.map(symbolsOf).filter((symbols) => symbols.every((s) => known.has(s))))
      .flat(),
  );
  return rows
    .filter((row) => !shown.has(row.symbol))
    .map((row) => ({
      symbol: row.symbol,
      name: row.name,
      value: sizeValue(row.part, row.unit, f),
      isSize: true,
    }));
}
