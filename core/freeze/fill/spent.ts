import { type CastFields, cellRole } from '../cast-fields.js';
import { neighbours } from '../cell-walk.js';
import { type Cavity, isMetal, passes } from './cavity.js';
import type { FillTimes } from './fill-times.js';
import { stopTimes } from './stop-times.js';

/**
 * Of the heat that the first metal to reach each cell can lose before it stops, the share it has lost on its way:
 * spent(cell) = spent(from) + (filledAt(cell) − filledAt(from))/stop(from).
 *
 * A cell over one that was full before is reached from there: metal that rises with its level is the metal that came in
 * below. (In a fin along the whole height of a block, with a level flow of one speed over the depth, metal at x from its
 * tip has been in the fin for t (1 − x/L): at the tip it is what came in first.) Any other cell is reached from the one
 * of the cells beside it, full before, that brings the freshest metal. So a fin on a block's top, or a flange on its
 * side, draws from inside the block and is not charged with the block's time, and little hangs on the order within a
 * layer. stop: see `stopTimes`.
 *
 * In a channel of one section that is M. C. Flemings' fluidity length, x = v t_stop (Solidification Processing, 1974).
 * Metal that goes on flowing through a place, and mixing in a pool, keep it fresher than this: it errs to the safe side.
 * Infinite where no metal comes, 0 without metal.
 */
export function spentHeat(
  cavity: Cavity & Pick<CastFields, 'stopsAt'>,
  { cells, filledAt }: Pick<FillTimes, 'cells' | 'filledAt'>,
): Float32Array {
  const { grid, role } = cavity;
  const layer = grid.counts[0] * grid.counts[1];
  const spent = new Float32Array(grid.size);
  for (let c = 0; c < grid.size; c++) if (isMetal(cavity, c)) spent[c] = Number.POSITIVE_INFINITY;
  const stop = stopTimes(cavity);
  const next = new Int32Array(6);
  const done = new Uint8Array(grid.size);
  for (let n = 0; n < cells.length; n++) {
    const c = cells[n]!;
    let least = Number.POSITIVE_INFINITY;
    let from = -1;
    const reach = (b: number): void => {
      const through = spent[b]! + (filledAt[c]! - filledAt[b]!) / stop[b]!;
      if (through < least) {
        least = through;
        from = b;
      }
    };
    const below = c - layer;
    if (below >= 0 && done[below] && role[below] !== cellRole.gating && passes(cavity, below, c))
      reach(below);
    else {
      const count = neighbours(grid, c, next);
      for (let m = 0; m < count; m++) {
        const b = next[m]!;
        if (done[b] && passes(cavity, b, c)) reach(b);
      }
    }
    // Where nothing is known of a cell, as of a crumb, it stops when what came before it does.
    if (!(stop[c]! > 0)) stop[c] = from < 0 ? Number.POSITIVE_INFINITY : stop[from]!;
    spent[c] = from < 0 ? 0 : least;
    done[c] = 1;
  }
  return spent;
}
