import { isInside, squaredToSegment } from '../distance.js';
import { boundsOf, type Paths } from '../outline.js';

/** How far points are from a region, mm, less than 0 inside it, on the corners of a grid of square cells. */
export interface Field {
  readonly x0: number;
  readonly y0: number;
  readonly cell: number;
  readonly cols: number;
  readonly rows: number;
  readonly values: Float32Array;
}

/** Cells along a field at most: it is to be quick, and what it is off is measured in the end. */
const mostCells = 120;
/** mm; a smaller cell is not needed. */
const leastCell = 0.75;

/** The field as far as `reach` mm about the region (holes clockwise). */
export function fieldOf(paths: Paths, reach: number): Field {
  const { minX, minY, maxX, maxY } = boundsOf(paths);
  const side = Math.max(maxX - minX, maxY - minY) + 2 * reach;
  const cell = Math.max(leastCell, side / mostCells);
  const cols = Math.ceil((maxX - minX + 2 * reach) / cell) + 2;
  const rows = Math.ceil((maxY - minY + 2 * reach) / cell) + 2;
  const [x0, y0] = [minX - reach - cell / 2, minY - reach - cell / 2];
  const values = new Float32Array(cols * rows);
  for (let r = 0; r < rows; r++) {
    for (let c = 0; c < cols; c++) {
      const [x, y] = [x0 + c * cell, y0 + r * cell];
      const away = Math.sqrt(squaredTo(paths, x, y));
      values[r * cols + c] = isInside(paths, x, y) ? -away : away;
    }
  }
  return { x0, y0, cell, cols, rows, values };
}

function squaredTo(paths: Paths, x: number, y: number): number {
  let least = Number.POSITIVE_INFINITY;
  for (const path of paths) {
    for (let i = 0, j = path.length - 2; i < path.length; j = i, i += 2) {
      least = Math.min(least, squaredToSegment(x, y, path[j]!, path[j + 1]!, path[i]!, path[i + 1]!));
    }
  }
  return least;
}
