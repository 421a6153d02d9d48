import type { CastFields } from '../cast-fields.js';
import { neighbours } from '../cell-walk.js';
import { type Cavity, isMetal, passes } from './cavity.js';

/** How far a cell's own time tells of its metal: what is half mould or more shares its heat with that at once. */
const trust = (share: number): number => Math.max(0, 2 * share - 1);

/** How far in from the mould's face a crumb of metal looks for cells that can be trusted, in cells. */
const rounds = 2;

/**
 * s by cell until metal there flows no more: of a full cell its own time; the more mould it has, the more that of the
 * cells beside it by how far they can be trusted, up to two cells off; of a wall so thin that there are none, the mean of
 * it and its neighbours by their metal. 0: unknown.
 */
export function stopTimes(cavity: Cavity & Pick<CastFields, 'stopsAt'>): Float32Array {
  const { grid, share, stopsAt } = cavity;
  const stop = new Float32Array(grid.size);
  const next = new Int32Array(6);
  /** Part cells not told yet, with what they are told in this round. */
  let open: number[] = [];
  for (let c = 0; c < grid.size; c++) {
    if (!isMetal(cavity, c)) continue;
    const own = trust(share[c]!);
    if (own === 1) stop[c] = stopsAt[c]!;
    else open.push(c);
  }
  const mean = (c: number, weight: (b: number) => number, time: ArrayLike<number>): number => {
    let [sum, of] = [0, 0];
    const count = neighbours(grid, c, next);
    for (let m = 0; m < count; m++) {
      const b = next[m]!;
      if (!passes(cavity, b, c)) continue;
      sum += weight(b);
      of += weight(b) * time[b]!;
    }
    return sum > 0 ? of / sum : 0;
  };
  for (let round = 0; round < rounds; round++) {
    const told = open.map((c) => {
      const own = trust(share[c]!);
      // First by what neighbours know themselves, then by what they have been told.
      const beside =
        round === 0
          ? mean(c, (b) => trust(share[b]!), stopsAt)
          : mean(c, (b) => (stop[b]! > 0 ? share[b]! : 0), stop);
      return beside > 0 ? own * stopsAt[c]! + (1 - own) * beside : own > 0 ? stopsAt[c]! : 0;
    });
    for (const [n, c] of open.entries()) stop[c] = told[n]!;
    open = open.filter((c) => stop[c] === 0);
  }
  const told = open.map((c) => {
    const [metal, own] = [mean(c, (b) => (stop[b] === 0 ? share[b]! : 0), stopsAt), stopsAt[c]!];
    return metal > 0 ? (metal + own) / 2 : own;
  });
  for (const [n, c] of open.entries()) stop[c] = told[n]!;
  return stop;
}
