import { type CastFields, cellRole } from './cast-fields.js';
import type { Grid } from './grid.js';

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

/** How much metal cells hold. A class for what it keeps: millions of cells ask. */
export class CellSizes {
  readonly #areas: Float64Array;
  readonly #heights: Float64Array;
  readonly #share: Float32Array;

  constructor({ grid: { counts, edges }, share }: Pick<CastFields, 'grid' | 'share'>) {
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
