import { cellVolume, type Grid } from './grid.js';

/** A place that freezes after all metal next to it. */
export interface HotSpot {
  /** Middle of its last cell, mm. */
  readonly at: readonly [number, number, number];
  /** s */
  readonly solidAt: number;
  /** Metal that was still liquid about it when it lost its last way to a place that froze later, mm³. */
  readonly volume: number;
  /** Cell. */
  readonly cell: number;
}

/**
 * The places that freeze last among what is next to them, latest first: a join tree over the metal's cells in falling
 * order of their freezing times (H. Carr, J. Snoeyink and U. Axen, 2003). A place's volume is what was liquid about it
 * when it was cut off from every later one.
 */
export function findHotSpots(
  grid: Grid,
  share: Float32Array,
  solidAt: Float32Array,
  leastShare = 0.02,
): readonly HotSpot[] {
  const [nx, ny, nz] = grid.counts;
  const cells: number[] = [];
  for (let c = 0; c < grid.size; c++) if (share[c]! >= leastShare) cells.push(c);
  cells.sort((a, b) => solidAt[b]! - solidAt[a]! || a - b);
  const parent = new Int32Array(grid.size).fill(-1);
  const volume = new Float64Array(grid.size);
  const find = (c: number): number => {
    let root = c;
    while (parent[root]! !== root) root = parent[root]!;
    for (let at = c; parent[at]! !== root; ) [at, parent[at]] = [parent[at]!, root] as [number, number];
    return root;
  };
  const closed = new Map<number, number>();
  for (const c of cells) {
    parent[c] = c;
    volume[c] = share[c]! * cellVolume(grid, c);
    const [i, j, k] = [c % nx, Math.floor(c / nx) % ny, Math.floor(c / (nx * ny))];
    for (const [di, dj, dk] of faces) {
      const [p, q, r] = [i + di, j + dj, k + dk];
      if (p < 0 || q < 0 || r < 0 || p >= nx || q >= ny || r >= nz) continue;
      const next = p + nx * (q + ny * r);
      if (parent[next]! < 0) continue;
      const [a, b] = [find(c), find(next)];
      if (a === b) continue;
      // The root of each piece is its latest cell: the earlier of the two is cut off here.
      const [late, early] =
        solidAt[a]! > solidAt[b]! || (solidAt[a]! === solidAt[b]! && a < b) ? [a, b] : [b, a];
      if (early !== c) closed.set(early, volume[early]!);
      parent[early] = late;
      volume[late] = volume[late]! + volume[early]!;
    }
  }
  const whole = cells.filter((c) => parent[c] === c);
  const spots = [...closed, ...whole.map((c) => [c, volume[c]!] as const)];
  return spots
    .map(([cell, size]) => ({ at: middleOf(grid, cell), solidAt: solidAt[cell]!, volume: size, cell }))
    .sort((a, b) => b.solidAt - a.solidAt);
}

const faces = [
  [1, 0, 0],
  [-1, 0, 0],
  [0, 1, 0],
  [0, -1, 0],
  [0, 0, 1],
  [0, 0, -1],
] as const;

const middleOf = ({ counts: [nx, ny], edges }: Grid, c: number): readonly [number, number, number] => {
  const at = [c % nx, Math.floor(c / nx) % ny, Math.floor(c / (nx * ny))] as const;
  return [0, 1, 2].map(
    (k) => (edges[k as 0]![at[k]!]! + edges[k as 0]![at[k]! + 1]!) / 2,
  ) as unknown as readonly [number, number, number];
};
