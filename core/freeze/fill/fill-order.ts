import { cellRole } from '../cast-fields.js';
import { type Cavity, isMetal, neighbours, passes } from './cavity.js';
import { LevelQueue } from './level-queue.js';

/** The order in which metal takes a mould's cells. */
export interface FillOrder {
  /** Cells in the order in which they fill: the cup's, the sprue's and runners', then all others that metal reaches. */
  readonly cells: Int32Array;
  /** How many of them are the cup's, and the cup's and the sprue's. */
  readonly cup: number;
  readonly gating: number;
}

/**
 * The order of filling, O(cells): sprue and runners from the cup down; from there on always the lowest cell next to
 * metal, of one layer's the one that came first. So metal falls into a basin, fills it level, and spills over its sill
 * into the next. All gates feed one queue. `cupFloor`: z over which metal is the cup's, mm.
 */
export function fillOrder(cavity: Cavity, cupFloor: number): FillOrder {
  const { grid, role } = cavity;
  const [nx, ny, nz] = grid.counts;
  const layer = nx * ny;
  const seen = new Uint8Array(grid.size);
  const cells = new Int32Array(grid.size);
  const next = new Int32Array(6);
  let count = 0;

  // From the cup the highest first: the same queue on its head.
  const down = new LevelQueue(nz, grid.size);
  let floor = nz;
  const middle = (k: number): number => (grid.edges[2][k]! + grid.edges[2][k + 1]!) / 2;
  // A cup thinner than a layer is the highest layer there is.
  for (let any = false; floor > 0 && !(any && middle(floor - 1) <= cupFloor); ) {
    floor--;
    for (let c = floor * layer; c < (floor + 1) * layer; c++)
      if (role[c] === cellRole.gating && isMetal(cavity, c)) {
        any = true;
        seen[c] = 1;
        down.push(c, nz - 1 - floor);
      }
  }
  let cup = 0;
  for (let c = down.pop(); c >= 0; c = down.pop()) {
    if (c >= floor * layer) cup++;
    cells[count++] = c;
    const n = neighbours(grid, c, next);
    for (let m = 0; m < n; m++) {
      const to = next[m]!;
      if (seen[to] || role[to] !== cellRole.gating || !passes(cavity, c, to)) continue;
      seen[to] = 1;
      down.push(to, nz - 1 - Math.floor(to / layer));
    }
  }

  const gating = count;
  const up = new LevelQueue(nz, grid.size);
  const spread = (c: number): void => {
    const n = neighbours(grid, c, next);
    for (let m = 0; m < n; m++) {
      const to = next[m]!;
      if (seen[to] || !passes(cavity, c, to)) continue;
      seen[to] = 1;
      up.push(to, Math.floor(to / layer));
    }
  };
  for (let n = 0; n < gating; n++) spread(cells[n]!);
  for (let c = up.pop(); c >= 0; c = up.pop()) {
    cells[count++] = c;
    spread(c);
  }
  return { cells: cells.slice(0, count), cup, gating };
}
