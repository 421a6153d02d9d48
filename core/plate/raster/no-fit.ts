import { type BitMap, bitMap, setRun } from './bits.js';
import type { Mask } from './mask.js';

/** The offsets at which two masks meet: bit (col, row) stands for an offset of (col − left, row − front) cells. */
export interface NoFit {
  readonly map: BitMap;
  readonly left: number;
  readonly front: number;
}

/**
 * The offsets in whole cells, of `fine` mask cells each, at which `moving` meets `lying`: those at which a cell of the
 * one, moved, is a cell of the other. It is the Minkowski sum of the one with the other turned over.
 */
export function noFit(lying: Mask, moving: Mask, fine: number): NoFit {
  const left = Math.floor((moving.w - 1) / fine);
  const front = Math.floor((moving.h - 1) / fine);
  const cols = left + Math.floor((lying.w - 1) / fine) + 1;
  const rows = front + Math.floor((lying.h - 1) / fine) + 1;
  const map = bitMap(cols, rows);
  const a = lying.runs;
  const b = moving.runs;
  const aStarts = lying.starts;
  const bStarts = moving.starts;
  const set = (row: number, from: number, to: number): void => {
    // Of the offsets in mask cells only those of whole cells count.
    const first = Math.ceil(from / fine) + left;
    const last = Math.floor(to / fine) + left;
    if (last >= first) setRun(map.words, row, first, last);
  };
  for (let r = 0; r < rows; r++) {
    const row = r * map.stride;
    const dy = (r - front) * fine;
    // Runs of neighbouring rows mostly overlap: they are joined before they are set.
    let from = 1;
    let to = 0;
    const end = Math.min(lying.h, moving.h + dy);
    for (let ra = Math.max(0, dy); ra < end; ra++) {
      const b0 = bStarts[ra - dy]!;
      const b1 = bStarts[ra - dy + 1]!;
      for (let i = aStarts[ra]!, iEnd = aStarts[ra + 1]!; i < iEnd; i++) {
        for (let j = b0; j < b1; j++) {
          const first = a[2 * i]! - b[2 * j + 1]!;
          const last = a[2 * i + 1]! - b[2 * j]!;
          if (first <= to + 1 && last >= from - 1 && from <= to) {
            if (first < from) from = first;
            if (last > to) to = last;
            continue;
          }
          if (from <= to) set(row, from, to);
          from = first;
          to = last;
        }
      }
    }
    if (from <= to) set(row, from, to);
  }
  return { map, left, front };
}
