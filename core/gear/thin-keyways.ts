import type { Keyway } from './keyways.js';

/**
 * Thin parallel keys, ISO 2491:1974: shaft over, up to and including, key width b, height h (from memory). Heights
 * shrink and so do the depths; widths are those of ISO/R 773 from 5 mm on.
 */
const thin: readonly (readonly [over: number, upTo: number, width: number, height: number])[] = [
  [12, 17, 5, 3],
  [17, 22, 6, 4],
  [22, 30, 8, 5],
  [30, 38, 10, 6],
  [38, 44, 12, 6],
  [44, 50, 14, 6],
  [50, 58, 16, 7],
  [58, 65, 18, 7],
  [65, 75, 20, 8],
  [75, 85, 22, 9],
  [85, 95, 25, 9],
  [95, 110, 28, 10],
];

/** Depths in shaft t₁ and hub t₂ by key height, the same in ISO/R 773 and ISO 2491 (from memory), mm. */
const depths: ReadonlyMap<number, readonly [shaft: number, hub: number]> = new Map([
  [3, [1.8, 1.4]],
  [4, [2.5, 1.8]],
  [5, [3, 2.3]],
  [6, [3.5, 2.8]],
  [7, [4, 3.3]],
  [8, [5, 3.3]],
  [9, [5.5, 3.8]],
  [10, [6, 4.3]],
]);

/** The thin keyway of ISO 2491 for a bore, mm, where a full one would weaken a thin hub; undefined outside 12 to 110. */
export function thinKeywayFor(bore: number): Keyway | undefined {
  const row = thin.find(([over, upTo]) => bore > over && bore <= upTo);
  const depth = row && depths.get(row[3]);
  return row && depth && { width: row[2], height: row[3], shaftDepth: depth[0], hubDepth: depth[1] };
}
