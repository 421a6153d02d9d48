import { type CastFields, leastShare } from '../../freeze/cast-fields.js';

/** A field anywhere in space, mm; NaN where no metal is near. */
export type FieldSampler = (x: number, y: number, z: number) => number;

/** Cells that metal is looked for in, either way, where none of the eight cells about a point has any. */
const search = 2;

/**
 * A field between the middles of the metal's cells, each with the weight of its metal: mould does not count, so that the
 * field goes on to the surface and a little beyond. Far from all metal it is NaN.
 *
 * Remembers the cell it was last asked about: ask along rows.
 */
export function sampleMetal(
  { grid, share, present }: Pick<CastFields, 'grid' | 'share' | 'present'>,
  values: Float32Array,
): FieldSampler {
  const [nx, ny, nz] = grid.counts;
  const middles = grid.edges.map((e) =>
    Float64Array.from({ length: e.length - 1 }, (_, i) => (e[i]! + e[i + 1]!) / 2),
  );
  const last = [0, 0, 0];
  /** The middle at or under a coordinate, the first at least. */
  const under = (axis: 0 | 1 | 2, v: number): number => {
    const m = middles[axis]!;
    let i = last[axis]!;
    while (i > 0 && m[i]! > v) i--;
    while (i + 1 < m.length && m[i + 1]! <= v) i++;
    last[axis] = i;
    return i;
  };
  const part = (axis: 0 | 1 | 2, i: number, v: number): number => {
    const m = middles[axis]!;
    return i + 1 < m.length ? Math.max(0, Math.min(1, (v - m[i]!) / (m[i + 1]! - m[i]!))) : 0;
  };
  const isMetal = (c: number): boolean => share[c]! >= leastShare && present[c] !== 0;

  const nearest = (x: number, y: number, z: number, i: number, j: number, k: number): number => {
    let [best, found] = [Number.POSITIVE_INFINITY, Number.NaN];
    for (let r = Math.max(0, k - search); r <= Math.min(nz - 1, k + 1 + search); r++)
      for (let q = Math.max(0, j - search); q <= Math.min(ny - 1, j + 1 + search); q++)
        for (let p = Math.max(0, i - search); p <= Math.min(nx - 1, i + 1 + search); p++) {
          const c = p + nx * (q + ny * r);
          if (!isMetal(c)) continue;
          const d = (middles[0]![p]! - x) ** 2 + (middles[1]![q]! - y) ** 2 + (middles[2]![r]! - z) ** 2;
          if (d < best) [best, found] = [d, values[c]!];
        }
    return found;
  };

  return (x, y, z) => {
    const i = under(0, x);
    const j = under(1, y);
    const k = under(2, z);
    const u = part(0, i, x);
    const v = part(1, j, y);
    const w = part(2, k, z);
    let sum = 0;
    let weights = 0;
    for (let corner = 0; corner < 8; corner++) {
      const di = corner & 1;
      const dj = (corner >> 1) & 1;
      const dk = corner >> 2;
      const weight = (di === 1 ? u : 1 - u) * (dj === 1 ? v : 1 - v) * (dk === 1 ? w : 1 - w);
      if (weight === 0) continue;
      const c = i + di + nx * (j + dj + ny * (k + dk));
      if (!isMetal(c)) continue;
      // Squared: a cell with little metal has the mould's heat more than the metal's.
      const metal = weight * share[c]! * share[c]!;
      sum += metal * values[c]!;
      weights += metal;
    }
    return weights > 1e-4 ? sum / weights : nearest(x, y, z, i, j, k);
  };
}

/** A field with what is endless in it held at `most`. */
export const heldAt = (values: Float32Array, most: number): Float32Array =>
  values.map((v) => Math.min(v, most));
