import { cellRole } from '../cast-fields.js';
import { CellSizes, neighbours } from '../cell-walk.js';
import { type Cavity, isMetal, passes } from './cavity.js';
import { LevelQueue } from './level-queue.js';

/** The order in which metal takes a mould's cells. */
export interface FillOrder {
  /** Cells in the order in which they fill: the cup's, the sprue's and runners', then all others that metal reaches. */
  readonly cells: Int32Array;
  /** How many of them are the cup's, and the cup's and the sprue's. */
  readonly cup: number;
  readonly gating: number;
}

/** What hangs together without the gating: a casting with its vents. */
interface Piece {
  readonly queue: LevelQueue;
  /** Sides of cells through which metal comes into it. */
  sides: number;
  /** mm³ so far. */
  volume: number;
}

/**
 * The order of filling, O(cells): sprue and runners from the cup down; from there on in every casting the lowest cell
 * next to metal, of one layer's the one that came first. So metal falls into a basin, fills it level, and spills over its
 * sill into the next. All gates of a casting feed one queue; castings fill side by side, each as fast as its gates are
 * wide. `cupFloor`: z over which metal is the cup's, mm.
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
  const after = new Int32Array(grid.size);
  const down = new LevelQueue(nz, after);
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
  const sizes = new CellSizes(cavity);
  const pieces: Piece[] = [];
  const label = labelPieces(cavity, cells.subarray(0, gating), seen, () =>
    pieces.push({ queue: new LevelQueue(nz, after), sides: 0, volume: 0 }),
  );
  const spread = (c: number, start: boolean): void => {
    const n = neighbours(grid, c, next);
    for (let m = 0; m < n; m++) {
      const to = next[m]!;
      if (label[to]! < 0 || !passes(cavity, c, to)) continue;
      const piece = pieces[label[to]!]!;
      if (start) piece.sides++;
      if (seen[to]) continue;
      seen[to] = 1;
      piece.queue.push(to, Math.floor(to / layer));
    }
  };
  for (let n = 0; n < gating; n++) spread(cells[n]!, true);
  let open = pieces;
  while (open.length > 0) {
    let piece = open[0]!;
    for (const other of open) if (other.volume * piece.sides < piece.volume * other.sides) piece = other;
    const c = piece.queue.pop();
    if (c < 0) {
      open = open.filter((other) => other !== piece);
      continue;
    }
    piece.volume += sizes.metal(c);
    cells[count++] = c;
    spread(c, false);
  }
  return { cells: cells.slice(0, count), cup, gating };
}

/** By cell: which piece beside the gating it belongs to, −1 for none; `found` is called for each of them. */
function labelPieces(cavity: Cavity, gating: Int32Array, seen: Uint8Array, found: () => number): Int16Array {
  const { grid } = cavity;
  const label = new Int16Array(grid.size).fill(-1);
  const list = new Int32Array(grid.size);
  const [beside, next] = [new Int32Array(6), new Int32Array(6)];
  for (const g of gating) {
    const count = neighbours(grid, g, beside);
    for (let m = 0; m < count; m++) {
      const first = beside[m]!;
      if (seen[first] || label[first]! >= 0 || !passes(cavity, g, first)) continue;
      const piece = found() - 1;
      let [taken, known] = [0, 1];
      list[0] = first;
      label[first] = piece;
      while (taken < known) {
        const c = list[taken++]!;
        const n = neighbours(grid, c, next);
        for (let i = 0; i < n; i++) {
          const to = next[i]!;
          if (seen[to] || label[to]! >= 0 || !passes(cavity, c, to)) continue;
          label[to] = piece;
          list[known++] = to;
        }
      }
    }
  }
  return label;
}
