/** The block of mould about a gated pattern, divided into cells. */
import { measureBounds } from '../solid/mesh-bounds.js';
import type { Box, Mesh, Vec2 } from '../solid/types.js';
import { type Grid, gridOf, middlesOf, stretchedEdges } from './grid.js';
import type { FreezeLevel } from './plans.js';

/** What the pattern stands in, mm; its cup's level with the mould's top. */
export type MouldKind =
  | {
      readonly kind: 'flask';
      readonly insideDiameter: number;
      readonly floor: number;
      /** The flask's in plan; the middle of the gated pattern's box where left out. */
      readonly axis?: Vec2;
    }
  | {
      readonly kind: 'shell';
      readonly thickness: number;
      /** mm² of its outside. */
      readonly outerArea: number;
    };

/** Mould about the castings that is divided as finely as they are, in steps. */
const fineMargin = 2;

/** Cells of sprue and cup may be this much longer than the castings'. */
const gatingCells = 2;

/** mm of air about a shell. */
const aboutShell = 1;

export interface BlockInput {
  readonly gated: Mesh;
  /** The patterns without gating. */
  readonly standing: Mesh;
  readonly mould: MouldKind;
}

/** The cells of a mould: cubes of `step` mm about the castings, longer ones in the gating and out to the wall. */
export function blockGrid({ gated, standing, mould }: BlockInput, step: number): Grid {
  const whole = measureBounds(gated) as Box;
  const part = measureBounds(standing) as Box;
  const radius = mould.kind === 'flask' ? mould.insideDiameter / 2 : 0;
  const out = mould.kind === 'shell' ? mould.thickness + aboutShell : 0;
  const plan = (axis: 0 | 1): Float64Array => {
    const own = mould.kind === 'flask' ? mould.axis?.[axis] : undefined;
    const middle = own ?? (whole.min[axis] + whole.max[axis]) / 2;
    const ends =
      mould.kind === 'flask'
        ? ([middle - radius, middle + radius] as const)
        : ([whole.min[axis] - out, whole.max[axis] + out] as const);
    return stretchedEdges(
      ends,
      [
        Math.max(ends[0], part.min[axis] - fineMargin * step),
        Math.min(ends[1], part.max[axis] + fineMargin * step),
      ],
      step,
      {
        range: [whole.min[axis] - out, whole.max[axis] + out],
        longest: gatingCells * step,
      },
    );
  };
  const top = whole.max[2];
  const floor = mould.kind === 'flask' ? mould.floor : out;
  const upright = stretchedEdges(
    [whole.min[2] - floor, top],
    [whole.min[2] - Math.min(floor, fineMargin * step), Math.min(top, part.max[2] + fineMargin * step)],
    step,
    { range: [whole.min[2] - out, top], longest: gatingCells * step },
  );
  return gridOf(plan(0), plan(1), upright);
}

/** 1 for cells whose middle lies in a flask's cylinder. */
export function insideCylinder(grid: Grid): Uint8Array {
  const [nx, ny] = grid.counts;
  const [ex, ey] = grid.edges;
  const centre = [(ex[0]! + ex[nx]!) / 2, (ey[0]! + ey[ny]!) / 2] as const;
  const radius = Math.max(ex[nx]! - ex[0]!, ey[ny]! - ey[0]!) / 2;
  const [xs, ys] = [middlesOf(ex), middlesOf(ey)];
  const present = new Uint8Array(grid.size);
  for (let c = 0; c < grid.size; c++) {
    const [x, y] = [xs[c % nx]! - centre[0], ys[Math.floor(c / nx) % ny]! - centre[1]];
    present[c] = x * x + y * y <= radius * radius ? 1 : 0;
  }
  return present;
}

/** Cells in all that a level may have, and edges it goes between, mm. */
const levels = {
  coarse: { cells: 180_000, least: 0.8, most: 6 },
  fine: { cells: 6_000_000, least: 0.3, most: 3 },
} as const;

/** Fine cells are at most this, mm, whatever their number, up to twice the usual. */
const fineEdge = 0.5;
const mostFine = 2;

/** Edge of the cells about the castings, mm: the least for which the block has no more cells than its level may have. */
export function cellEdge(input: BlockInput, level: Exclude<FreezeLevel, 'off'>): number {
  const { cells, least, most } = levels[level];
  const edgeFor = (count: number): number => {
    let [low, high]: [number, number] = [least, most];
    if (blockGrid(input, low).size <= count) return low;
    while (high - low > 0.01) {
      const middle = (low + high) / 2;
      if (blockGrid(input, middle).size <= count) high = middle;
      else low = middle;
    }
    return high;
  };
  const edge = edgeFor(cells);
  return level === 'fine' && edge > fineEdge ? Math.max(fineEdge, edgeFor(mostFine * cells)) : edge;
}
