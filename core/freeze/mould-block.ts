import { measureBounds } from '../solid/mesh-bounds.js';
import type { Box, Mesh } from '../solid/types.js';
import { type Grid, gridOf, stretchedEdges } from './grid.js';

/** The upright cylinder of mould about a gated pattern, in the pattern's coordinates, mm. */
export interface MouldBlock {
  readonly centre: readonly [number, number];
  readonly radius: number;
  readonly bottom: number;
  /** Level of the cup and the vents, open to the air. */
  readonly top: number;
}

/** Mould about the pattern that is divided as finely as the pattern itself, in steps. */
const fineMargin = 2;

export interface BlockGrid {
  readonly grid: Grid;
  /** 1 for cells whose middle lies in the cylinder. */
  readonly present: Uint8Array;
}

/** The cells of a mould: cubes of `step` mm about the pattern, longer ones out to the wall; none outside it. */
export function blockGrid(gated: Mesh, block: MouldBlock, step: number): BlockGrid {
  const { min, max } = measureBounds(gated) as Box;
  const { centre, radius } = block;
  const plan = (axis: 0 | 1) =>
    stretchedEdges(
      [centre[axis] - radius, centre[axis] + radius],
      [
        Math.max(centre[axis] - radius, min[axis] - fineMargin * step),
        Math.min(centre[axis] + radius, max[axis] + fineMargin * step),
      ],
      step,
    );
  const grid = gridOf(
    plan(0),
    plan(1),
    stretchedEdges(
      [block.bottom, block.top],
      [Math.max(block.bottom, min[2] - fineMargin * step), block.top],
      step,
    ),
  );
  const [nx, ny] = grid.counts;
  const middle = (edges: Float64Array, i: number): number => (edges[i]! + edges[i + 1]!) / 2;
  const present = new Uint8Array(grid.size);
  for (let c = 0; c < grid.size; c++) {
    const x = middle(grid.edges[0], c % nx) - centre[0];
    const y = middle(grid.edges[1], Math.floor(c / nx) % ny) - centre[1];
    present[c] = Math.hypot(x, y) <= radius ? 1 : 0;
  }
  return { grid, present };
}
