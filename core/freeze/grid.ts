import type { Vec3 } from '../solid/types.js';

/** A block of cells, each axis divided by its own edges: fine about the pattern, coarser out in the mould. */
export interface Grid {
  /** Edges along each axis, mm, rising: one more than cells. */
  readonly edges: readonly [Float64Array, Float64Array, Float64Array];
  readonly counts: readonly [number, number, number];
  /** Cells in all; the index runs along x first, then y, then z. */
  readonly size: number;
}

/** A grid of given edges, mm. */
export const gridOf = (x: ArrayLike<number>, y: ArrayLike<number>, z: ArrayLike<number>): Grid => {
  const edges = [Float64Array.from(x), Float64Array.from(y), Float64Array.from(z)] as const;
  const counts = [x.length - 1, y.length - 1, z.length - 1] as const;
  return { edges, counts, size: counts[0] * counts[1] * counts[2] };
};

/** Edges of `count` equal cells. */
export const evenEdges = (from: number, to: number, count: number): Float64Array =>
  Float64Array.from({ length: count + 1 }, (_, i) => from + ((to - from) * i) / count);

/** How much longer each cell of the mould is than the one before it, going outward. */
const stretch = 1.3;

/** Up to where cells outside the fine range stay short, mm. */
export interface HeldShort {
  readonly range: readonly [number, number];
  /** mm */
  readonly longest: number;
}

/**
 * Edges of cells `step` long over `fine`, and of cells that grow outward from there to the ends of `whole`, the last one
 * cut to fit; none longer than `held.longest` while within `held.range`. mm.
 */
export function stretchedEdges(
  whole: readonly [number, number],
  fine: readonly [number, number],
  step: number,
  held?: HeldShort,
): Float64Array {
  const count = Math.max(1, Math.ceil((fine[1] - fine[0]) / step - 1e-9));
  const middle = [...evenEdges(fine[0], fine[1], count)];
  const length = (fine[1] - fine[0]) / count;
  const outward = (from: number, to: number, shortTo: number): number[] => {
    const reach = Math.abs(to - from);
    const short = held ? Math.max(0, Math.sign(to - from) * (shortTo - from)) : 0;
    if (reach < 1e-9) return [];
    const lengths: number[] = [];
    for (let [sum, next] = [0, length]; sum < reach - 1e-9; sum += next) {
      next *= stretch;
      if (held && sum < short) next = Math.min(next, Math.max(length, held.longest));
      lengths.push(next);
    }
    // All shrunk alike, so that the last ends at the wall.
    const all = lengths.reduce((a, b) => a + b, 0);
    let at = 0;
    return lengths.map((l, i) => {
      at += (l * reach) / all;
      return i + 1 === lengths.length ? to : from + Math.sign(to - from) * at;
    });
  };
  return Float64Array.from([
    ...outward(fine[0], whole[0], held?.range[0] ?? fine[0]).reverse(),
    ...middle,
    ...outward(fine[1], whole[1], held?.range[1] ?? fine[1]),
  ]);
}

/** Volume of a cell, mm³. */
export function cellVolume({ counts: [nx, ny], edges: [ex, ey, ez] }: Grid, cell: number): number {
  const [i, j, k] = [cell % nx, Math.floor(cell / nx) % ny, Math.floor(cell / (nx * ny))];
  return (ex[i + 1]! - ex[i]!) * (ey[j + 1]! - ey[j]!) * (ez[k + 1]! - ez[k]!);
}

/** Middles of the cells along an axis, mm. */
export const middlesOf = (edges: Float64Array): Float64Array =>
  Float64Array.from({ length: edges.length - 1 }, (_, i) => (edges[i]! + edges[i + 1]!) / 2);

/** Middle of a cell, mm. */
export const cellMiddle = ({ counts: [nx, ny], edges }: Grid, c: number): Vec3 => {
  const at = [c % nx, Math.floor(c / nx) % ny, Math.floor(c / (nx * ny))] as const;
  const middle = (k: 0 | 1 | 2): number => (edges[k][at[k]]! + edges[k][at[k] + 1]!) / 2;
  return [middle(0), middle(1), middle(2)];
};
