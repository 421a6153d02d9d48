import { type CastFields, cellRole } from '../cast-fields.js';
import type { Grid } from '../grid.js';

/** The cells that metal may fill. */
export type Cavity = Pick<CastFields, 'grid' | 'present' | 'share' | 'role'>;

/**
 * Least share of metal in a cell through which metal passes on: a wall a fifth of a cell thick that lies across two
 * cells keeps its way, a corner's crumb makes none. Common practice, no source.
 */
export const passShare = 0.005;

/** Crumbs that count as mould are none: one beside the cup's rim would be a casting by itself, as high as its level. */
export const isMetal = ({ present, share, role }: Cavity, c: number): boolean =>
  role[c] !== cellRole.mould && share[c]! > 0 && present[c]! !== 0;

/**
 * Whether metal passes from one cell to the next: the first must have enough of it to pass it on, and sprue and vents
 * are never joined.
 */
export const passes = (cavity: Cavity, from: number, to: number): boolean => {
  if (!isMetal(cavity, to) || cavity.share[from]! < passShare) return false;
  const [a, b] = [cavity.role[from]!, cavity.role[to]!];
  return !((a === cellRole.gating && b === cellRole.vent) || (a === cellRole.vent && b === cellRole.gating));
};

/**
 * Writes the cells that share a face with `cell` into `into` and returns how many. Into an array that is kept, since
 * millions of cells ask.
 */
export function neighbours({ counts: [nx, ny, nz] }: Grid, cell: number, into: Int32Array): number {
  const layer = nx * ny;
  const k = Math.floor(cell / layer);
  const inLayer = cell - k * layer;
  const j = Math.floor(inLayer / nx);
  const i = inLayer - j * nx;
  let n = 0;
  if (i > 0) into[n++] = cell - 1;
  if (i + 1 < nx) into[n++] = cell + 1;
  if (j > 0) into[n++] = cell - nx;
  if (j + 1 < ny) into[n++] = cell + nx;
  if (k > 0) into[n++] = cell - layer;
  if (k + 1 < nz) into[n++] = cell + layer;
  return n;
}

/** Volume of metal in a cell, mm³; and z of layers. */
export class CellSizes {
  readonly #areas: Float64Array;
  readonly #heights: Float64Array;
  readonly #share: Float32Array;

  constructor({ grid: { counts, edges }, share }: Cavity) {
    const [nx, ny, nz] = counts;
    const [ex, ey, ez] = edges;
    this.#areas = new Float64Array(nx * ny);
    for (let j = 0; j < ny; j++)
      for (let i = 0; i < nx; i++) this.#areas[i + nx * j] = (ex[i + 1]! - ex[i]!) * (ey[j + 1]! - ey[j]!);
    this.#heights = Float64Array.from({ length: nz }, (_, k) => ez[k + 1]! - ez[k]!);
    this.#share = share;
  }

  /** mm³ of metal in a cell. */
  metal(cell: number): number {
    const layer = this.#areas.length;
    const k = Math.floor(cell / layer);
    return this.#share[cell]! * this.#areas[cell - k * layer]! * this.#heights[k]!;
  }
}
