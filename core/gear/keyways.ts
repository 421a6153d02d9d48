/** Parallel keyways in bores, looked up by the bore; lengths mm. */

export interface Keyway {
  /** b, of key and keyway. */
  readonly width: number;
  /** h of the key. */
  readonly height: number;
  /** t₁, depth in the shaft. */
  readonly shaftDepth: number;
  /** t₂, depth in the hub, from the bore's crown: over-depth D + t₂. */
  readonly hubDepth: number;
}

type Row = readonly [
  over: number,
  upTo: number,
  width: number,
  height: number,
  shaftDepth: number,
  hubDepth: number,
];

/** ISO/R 773:1969 (DIN 6885-1), as a hardware reference page and a gear-unit catalogue page quote it. */
const metric: readonly Row[] = [
  [6, 8, 2, 2, 1.2, 1],
  [8, 10, 3, 3, 1.8, 1.4],
  [10, 12, 4, 4, 2.5, 1.8],
  [12, 17, 5, 5, 3, 2.3],
  [17, 22, 6, 6, 3.5, 2.8],
  [22, 30, 8, 7, 4, 3.3],
  [30, 38, 10, 8, 5, 3.3],
  [38, 44, 12, 8, 5, 3.3],
  [44, 50, 14, 9, 5.5, 3.8],
  [50, 58, 16, 10, 6, 4.3],
  [58, 65, 18, 11, 7, 4.4],
  [65, 75, 20, 12, 7.5, 4.9],
  [75, 85, 22, 14, 9, 5.4],
  [85, 95, 25, 14, 9, 5.4],
];

/** ANSI B17.1-1967, square keys: shaft over, up to, key width, all in inches (from memory). */
const inch: readonly (readonly [over: number, upTo: number, width: number])[] = [
  [5 / 16, 7 / 16, 3 / 32],
  [7 / 16, 9 / 16, 1 / 8],
  [9 / 16, 7 / 8, 3 / 16],
  [7 / 8, 1.25, 1 / 4],
  [1.25, 1.375, 5 / 16],
  [1.375, 1.75, 3 / 8],
  [1.75, 2.25, 1 / 2],
  [2.25, 2.75, 5 / 8],
  [2.75, 3.25, 3 / 4],
];

const mmPerInch = 25.4;

/**
 * The standard's keyway for a bore, mm; undefined where the table has none. Bores "over" a limit, up to and including
 * the next, as both standards list them. Square inch keys stand half in the shaft and half in the hub.
 */
export function keywayFor(bore: number, standard: 'metric' | 'inch'): Keyway | undefined {
  if (standard === 'metric') {
    const row = metric.find(([over, upTo]) => bore > over && bore <= upTo);
    return row && { width: row[2], height: row[3], shaftDepth: row[4], hubDepth: row[5] };
  }
  // A size typed in inches comes back from mm with rounding at its last place.
  const size = Math.round((bore / mmPerInch) * 1e6) / 1e6;
  const row = inch.find(([over, upTo]) => size > over && size <= upTo);
  if (!row) return undefined;
  const width = row[2] * mmPerInch;
  return { width, height: width, shaftDepth: width / 2, hubDepth: width / 2 };
}
