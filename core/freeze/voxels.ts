import { passColumns } from '../solid/columns.js';
import type { Mesh } from '../solid/types.js';
import type { Grid } from './grid.js';

const crumb = 1e-9;

/**
 * How much of each cell a closed mesh fills, 0 to 1: exact along z, by `samples` × `samples` uprights a cell in plan. A
 * wall thinner than a cell is not lost: it fills its share.
 */
export function fillShares(mesh: Mesh, grid: Grid, samples = 3): Float32Array {
  const [nx, ny, nz] = grid.counts;
  const [ex, ey, ez] = grid.edges;
  const spread = (edges: Float64Array): Float64Array =>
    Float64Array.from({ length: (edges.length - 1) * samples }, (_, n) => {
      const i = Math.floor(n / samples);
      return edges[i]! + (edges[i + 1]! - edges[i]!) * (((n % samples) + 0.5) / samples);
    });
  const { starts, heights } = passColumns(mesh, spread(ex), spread(ey));
  const share = new Float64Array(grid.size);
  const each = 1 / samples ** 2;
  for (let q = 0; q < ny * samples; q++)
    for (let p = 0; p < nx * samples; p++) {
      const upright = p + nx * samples * q;
      const column = Math.floor(p / samples) + nx * Math.floor(q / samples);
      for (let n = starts[upright]!; n + 1 < starts[upright + 1]!; n += 2) {
        const [from, to] = [heights[n]!, heights[n + 1]!];
        for (let k = cellBelow(ez, from); k < nz && ez[k]! < to; k++) {
          const overlap = Math.min(to, ez[k + 1]!) - Math.max(from, ez[k]!);
          if (overlap > 0) {
            const cell = column + nx * ny * k;
            share[cell] = share[cell]! + (each * overlap) / (ez[k + 1]! - ez[k]!);
          }
        }
      }
    }
  // Rounding leaves crumbs where a face lies on the cells' own edge.
  for (let c = 0; c < share.length; c++) {
    if (share[c]! < crumb) share[c] = 0;
    else if (share[c]! > 1 - crumb) share[c] = 1;
  }
  return Float32Array.from(share);
}

/** The cell whose edges hold a height, or the first. */
function cellBelow(edges: Float64Array, height: number): number {
  let [low, high] = [0, edges.length - 1];
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (edges[middle]! <= height) low = middle;
    else high = middle;
  }
  return low;
}
