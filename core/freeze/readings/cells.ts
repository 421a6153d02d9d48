import type { Vec3 } from '../../solid/types.js';
import { type CastFields, cellRole, leastShare } from '../cast-fields.js';
import type { Grid } from '../grid.js';

/** Middle of a cell, mm. */
export const cellMiddle = ({ counts: [nx, ny], edges }: Grid, c: number): Vec3 => {
  const at = [c % nx, Math.floor(c / nx) % ny, Math.floor(c / (nx * ny))] as const;
  const middle = (k: 0 | 1 | 2): number => (edges[k][at[k]]! + edges[k][at[k] + 1]!) / 2;
  return [middle(0), middle(1), middle(2)];
};

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

/** Writes the cells that share a face with `c` into `into`; how many there are. Into one array: millions of cells ask. */
export function neighbours({ counts }: Grid, c: number, into: Int32Array): number {
  const nx = counts[0];
  const layer = nx * counts[1];
  const k = Math.floor(c / layer);
  const inLayer = c - k * layer;
  const j = Math.floor(inLayer / nx);
  const i = inLayer - j * nx;
  let n = 0;
  if (i > 0) into[n++] = c - 1;
  if (i + 1 < nx) into[n++] = c + 1;
  if (j > 0) into[n++] = c - nx;
  if (j + 1 < counts[1]) into[n++] = c + nx;
  if (k > 0) into[n++] = c - layer;
  if (k + 1 < counts[2]) into[n++] = c + layer;
  return n;
}

/** Sprue and vents stand apart: where they share a coarse cell's side there is mould between. */
export const standApart = (a: number, b: number): boolean =>
  (a === cellRole.gating && b === cellRole.vent) || (a === cellRole.vent && b === cellRole.gating);

/**
 * Walks from cell to cell of fields and tells how much metal each holds. A class for what it keeps: millions of cells
 * ask.
 */
export class CellWalk {
  /** The cells that metal passes to from the one last asked for, the first few of them. */
  readonly beside = new Int32Array(6);
  readonly #grid: Grid;
  readonly #role: Uint8Array;
  readonly #share: Float32Array;
  readonly #areas: Float64Array;
  readonly #heights: Float64Array;

  constructor({ grid, role, share }: CastFields) {
    const [ex, ey, ez] = grid.edges;
    const [nx, ny, nz] = grid.counts;
    this.#grid = grid;
    this.#role = role;
    this.#share = share;
    this.#areas = new Float64Array(nx * ny);
    for (let j = 0; j < ny; j++)
      for (let i = 0; i < nx; i++) this.#areas[i + nx * j] = (ex[i + 1]! - ex[i]!) * (ey[j + 1]! - ey[j]!);
    this.#heights = Float64Array.from({ length: nz }, (_, k) => ez[k + 1]! - ez[k]!);
  }

  /** mm³ of metal in a cell. */
  metal(c: number): number {
    const layer = this.#areas.length;
    const k = Math.floor(c / layer);
    return this.#share[c]! * this.#areas[c - k * layer]! * this.#heights[k]!;
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
