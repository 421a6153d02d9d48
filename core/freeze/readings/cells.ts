import { type CastFields, cellRole, leastShare } from '../cast-fields.js';
import { CellSizes, neighbours, standApart } from '../cell-walk.js';
import type { Grid } from '../grid.js';

/** Whether a cell holds metal whose freezing was watched. */
export const holdsMetal = ({ share, present, role, solidAt }: CastFields, c: number): boolean =>
  share[c]! >= leastShare && present[c] !== 0 && role[c] !== cellRole.mould && solidAt[c]! > 0;

/** The cells with metal, rising. */
export function metalCells(fields: CastFields): Int32Array {
  let count = 0;
  for (let c = 0; c < fields.grid.size; c++) if (holdsMetal(fields, c)) count++;
  const cells = new Int32Array(count);
  for (let c = 0, n = 0; n < count; c++) if (holdsMetal(fields, c)) cells[n++] = c;
  return cells;
}

/**
 * Walks from cell to cell of fields and tells how much metal each holds. A class for what it keeps: millions of cells
 * ask.
 */
export class CellWalk {
  /** The cells that metal passes to from the one last asked for, the first few of them. */
  readonly beside = new Int32Array(6);
  readonly #grid: Grid;
  readonly #role: Uint8Array;
  readonly #sizes: CellSizes;

  constructor(fields: CastFields) {
    this.#grid = fields.grid;
    this.#role = fields.role;
    this.#sizes = new CellSizes(fields);
  }

  /** mm³ of metal in a cell. */
  metal(c: number): number {
    return this.#sizes.metal(c);
  }

  /** Writes the cells that share a face with `c` into `beside`, but for those it stands apart from; how many. */
  look(c: number): number {
    const { beside } = this;
    const role = this.#role;
    const count = neighbours(this.#grid, c, beside);
    const own = role[c]!;
    if (own !== cellRole.gating && own !== cellRole.vent) return count;
    let n = 0;
    for (let b = 0; b < count; b++)
      if (!standApart(own, role[beside[b]!]!)) {
        beside[n] = beside[b]!;
        n++;
      }
    return n;
  }
}
