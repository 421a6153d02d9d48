import type { CastFields } from '../cast-fields.js';
import { type Cavity, isMetal, neighbours, passes } from './cavity.js';
import type { FillTimes } from './fill-times.js';

/** From this share on a cell's own time tells of its metal; what is less is mostly mould. */
const ownShare = 0.5;

/**
 * Of the heat that the first metal to reach each cell can lose before it stops, the share it has lost on its way:
 * spent(cell) = spent(from) + (filledAt(cell) − filledAt(from))/stop(from), the least over all cells beside it that were
 * full before. Taking the least, and not whichever came first, frees it from the order within a layer and lets a fin on a
 * thick block draw from the block's inside rather than from the skin at its wall. stop(from) is the time until the metal
 * there flows no more; of a cell that is mostly mould, the mean of it and its neighbours weighted by their metal, as it
 * says little itself of the metal that runs past it.
 *
 * In a channel of one section that is M. C. Flemings' fluidity length, x = v t_stop (Solidification Processing, 1974).
 * Metal that goes on flowing through a place keeps it fresher than this: it errs to the safe side. Infinite where no
 * metal comes, 0 without metal.
 */
export function spentHeat(
  cavity: Cavity & Pick<CastFields, 'stopsAt'>,
  { cells, filledAt }: Pick<FillTimes, 'cells' | 'filledAt'>,
): Float32Array {
  const { grid, share, stopsAt } = cavity;
  const spent = new Float32Array(grid.size);
  for (let c = 0; c < grid.size; c++) if (isMetal(cavity, c)) spent[c] = Number.POSITIVE_INFINITY;
  const stop = new Float32Array(grid.size);
  const next = new Int32Array(6);
  const done = new Uint8Array(grid.size);
  for (let n = 0; n < cells.length; n++) {
    const c = cells[n]!;
    const count = neighbours(grid, c, next);
    const own = share[c]! >= ownShare && stopsAt[c]! > 0;
    let weight = stopsAt[c]! > 0 ? share[c]! : 0;
    let sum = weight * stopsAt[c]!;
    let least = Number.POSITIVE_INFINITY;
    let from = -1;
    for (let m = 0; m < count; m++) {
      const b = next[m]!;
      if (!own && stopsAt[b]! > 0 && passes(cavity, c, b)) {
        weight += share[b]!;
        sum += share[b]! * stopsAt[b]!;
      }
      if (!done[b] || !passes(cavity, b, c)) continue;
      const through = spent[b]! + (filledAt[c]! - filledAt[b]!) / stop[b]!;
      if (through < least) {
        least = through;
        from = b;
      }
    }
    // Where nothing is known of it, as in a crumb, it stops when what came before it does.
    stop[c] = weight > 0 ? sum / weight : from < 0 ? Number.POSITIVE_INFINITY : stop[from]!;
    spent[c] = from < 0 ? 0 : least;
    done[c] = 1;
  }
  return spent;
}
