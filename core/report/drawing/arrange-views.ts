import type { Vec2 } from '../../solid/types.js';
import type { DrawnView } from './drawn-part.js';
import { type Area, type Block, joinBlocks, shiftBlock } from './sheet-marks.js';

/** Clear between two views, mm. */
const between = 9;

/**
 * Stands the views beside the main one, in line with it: columns share the axis across, rows the axis upward.
 */
export function arrangeViews(views: readonly DrawnView[], blocks: readonly Block[]): Block {
  const columns = offsets(
    views.map((v) => v.cell.column),
    blocks.map(({ area }) => [area.x0, area.x1]),
  );
  const rows = offsets(
    views.map((v) => v.cell.row),
    blocks.map(({ area }) => [area.y0, area.y1]),
  );
  return joinBlocks(
    blocks.map((block, i): Block => {
      const { cell } = views[i] as DrawnView;
      return shiftBlock(block, [columns.get(cell.column) ?? 0, rows.get(cell.row) ?? 0]);
    }),
  );
}

/** Where the origin of each column or row comes to lie, so that they follow one another without touching. */
function offsets(cells: readonly number[], spans: readonly Vec2[]): ReadonlyMap<number, number> {
  const at = new Map<number, number>();
  let end: number | undefined;
  for (const cell of [...new Set(cells)].sort((a, b) => a - b)) {
    const own = spans.filter((_, i) => cells[i] === cell);
    const low = Math.min(...own.map(([a]) => a));
    const high = Math.max(...own.map(([, b]) => b));
    const origin = end === undefined ? 0 : end + between - low;
    at.set(cell, origin);
    end = origin + high;
  }
  return at;
}

export const widthOf = (a: Area): number => a.x1 - a.x0;
export const heightOf = (a: Area): number => a.y1 - a.y0;

/** The block moved so that its area is centred in a room, or stands at its top left. */
export function standIn(block: Block, room: Area, how: 'centre' | 'top left' = 'centre'): Block {
  const { area } = block;
  if (area.x0 > area.x1) return block;
  const by: Vec2 =
    how === 'centre'
      ? [(room.x0 + room.x1 - area.x0 - area.x1) / 2, (room.y0 + room.y1 - area.y0 - area.y1) / 2]
      : [room.x0 - area.x0, room.y0 - area.y0];
  return shiftBlock(block, by);
}
