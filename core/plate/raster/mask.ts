import { boundsOf, type Paths } from '../outline.js';
import { bitMap, setRun } from './bits.js';

/** The cells that a region touches, row by row as runs of columns. */
export interface Mask {
  /** Columns and rows. */
  readonly w: number;
  readonly h: number;
  /** First and last column of each run. */
  readonly runs: Int32Array;
  /** Row r has the runs from `starts[r]` up to `starts[r + 1]`. */
  readonly starts: Int32Array;
  /** Cells in it. */
  readonly count: number;
}

/** A region: outlines (holes clockwise) grown by `by` mm. */
export interface Grown {
  readonly paths: Paths;
  readonly by: number;
}

/** Slack in cells: a boundary that lies on a line between cells touches neither by rounding. */
const hair = 1e-6;

/**
 * Every cell of a grid with its corner at (x0, y0) and cells of `cell` mm that the regions share inner points with.
 * The grid begins where the regions do or before.
 */
export function maskOf(regions: readonly Grown[], x0: number, y0: number, cell: number): Mask {
  let [maxX, maxY] = [x0, y0];
  for (const { paths, by } of regions) {
    const b = boundsOf(paths);
    maxX = Math.max(maxX, b.maxX + by);
    maxY = Math.max(maxY, b.maxY + by);
  }
  const w = Math.max(1, Math.ceil((maxX - x0) / cell - hair));
  const h = Math.max(1, Math.ceil((maxY - y0) / cell - hair));
  const bits = bitMap(w, h);
  const paint = (row: number, from: number, to: number): void => {
    const first = Math.max(0, Math.floor((from - x0) / cell + hair));
    const last = Math.min(w - 1, Math.ceil((to - x0) / cell - hair) - 1);
    if (last >= first) setRun(bits.words, row * bits.stride, first, last);
  };
  for (const { paths, by } of regions) {
    fillInside(paths, x0, y0, cell, h, paint);
    for (const path of paths) {
      const n = path.length;
      for (let i = 0, j = n - 2; i < n; j = i, i += 2) {
        coverEdge([path[j]!, path[j + 1]!, path[i]!, path[i + 1]!], by, y0, cell, h, paint);
      }
    }
  }
  return maskOfBits(bits.words, bits.stride, w, h);
}

type Paint = (row: number, from: number, to: number) => void;

/** Cells that no boundary touches lie wholly inside or outside: the middle of the row tells. */
function fillInside(paths: Paths, _x0: number, y0: number, cell: number, h: number, paint: Paint): void {
  const crossings: { x: number; way: number }[][] = Array.from({ length: h }, () => []);
  for (const path of paths) {
    const n = path.length;
    for (let i = 0, j = n - 2; i < n; j = i, i += 2) {
      const [ax, ay, bx, by] = [path[j]!, path[j + 1]!, path[i]!, path[i + 1]!];
      if (ay === by) continue;
      const [low, high] = ay < by ? [ay, by] : [by, ay];
      const first = Math.max(0, Math.ceil((low - y0) / cell - 0.5));
      for (let r = first; r < h; r++) {
        const y = y0 + (r + 0.5) * cell;
        if (y >= high) break;
        if (y < low) continue;
        crossings[r]!.push({ x: ax + ((bx - ax) * (y - ay)) / (by - ay), way: ay < by ? 1 : -1 });
      }
    }
  }
  crossings.forEach((row, r) => {
    row.sort((a, b) => a.x - b.x);
    let winding = 0;
    for (let k = 0; k + 1 < row.length; k++) {
      winding += row[k]!.way;
      if (winding !== 0) paint(r, row[k]!.x, row[k + 1]!.x);
    }
  });
}

/** The cells that an edge touches, grown by `by` all round: two half discs and what lies between. */
function coverEdge(
  [ax, ay, bx, by]: readonly [number, number, number, number],
  r: number,
  y0: number,
  cell: number,
  h: number,
  paint: Paint,
): void {
  const length = Math.sqrt((bx - ax) * (bx - ax) + (by - ay) * (by - ay));
  const nx = length === 0 ? 0 : (-(by - ay) / length) * r;
  const ny = length === 0 ? 0 : ((bx - ax) / length) * r;
  const quad = [ax + nx, ay + ny, ax - nx, ay - ny, bx - nx, by - ny, bx + nx, by + ny];
  const first = Math.max(0, Math.floor((Math.min(ay, by) - r - y0) / cell + hair));
  const last = Math.min(h - 1, Math.ceil((Math.max(ay, by) + r - y0) / cell - hair) - 1);
  for (let row = first; row <= last; row++) {
    const low = y0 + (row + hair) * cell;
    const high = y0 + (row + 1 - hair) * cell;
    let from = Number.POSITIVE_INFINITY;
    let to = Number.NEGATIVE_INFINITY;
    for (let i = 0, j = 6; i < 8; j = i, i += 2) {
      const [px, py, qx, qy] = [quad[j]!, quad[j + 1]!, quad[i]!, quad[i + 1]!];
      if (Math.max(py, qy) < low || Math.min(py, qy) > high) continue;
      const slope = qy === py ? 0 : (qx - px) / (qy - py);
      const atP = py < low ? px + slope * (low - py) : py > high ? px + slope * (high - py) : px;
      const atQ = qy < low ? qx + slope * (low - qy) : qy > high ? qx + slope * (high - qy) : qx;
      from = Math.min(from, atP, atQ);
      to = Math.max(to, atP, atQ);
    }
    if (r > 0) {
      for (let end = 0; end < 2; end++) {
        const [x, y] = end === 0 ? [ax, ay] : [bx, by];
        const away = y < low ? low - y : y > high ? y - high : 0;
        if (away >= r) continue;
        const half = Math.sqrt(r * r - away * away);
        from = Math.min(from, x - half);
        to = Math.max(to, x + half);
      }
    }
    if (to >= from) paint(row, from, to);
  }
}

/** Bits row by row to runs. */
export function maskOfBits(words: Uint32Array, stride: number, w: number, h: number): Mask {
  const runs: number[] = [];
  const starts = new Int32Array(h + 1);
  let count = 0;
  for (let r = 0; r < h; r++) {
    starts[r] = runs.length / 2;
    let open = -1;
    for (let c = 0; c <= w; c++) {
      const on = c < w && ((words[r * stride + (c >>> 5)]! >>> (c & 31)) & 1) === 1;
      if (on && open < 0) open = c;
      else if (!on && open >= 0) {
        runs.push(open, c - 1);
        count += c - open;
        open = -1;
      }
    }
  }
  starts[h] = runs.length / 2;
  return { w, h, runs: Int32Array.from(runs), starts, count };
}
