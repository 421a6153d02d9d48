/**
 * What stands in the way of heat where metal and mould share a cell. A cell's two halves are reckoned with its mean
 * conductivity by share (metal beside mould); here is what faces add to that, so that
 * - metal of a cell cut by the mould's face stays joined to the metal behind it, and the mould's part of the cell lies
 *   between it and the mould (the other way round where the mould conducts better and touches): in the sum metal and
 *   mould stand in series across the surface, side by side along it;
 * - a film between them counts once for each mm² of true surface: a slanted face crosses |nx| + |ny| + |nz| times its
 *   area of cells' faces (n the unit normal, by the shares about it).
 * Held against spheres and cylinders in moulds and under a film in test/core/freeze/{cooling,chvorinov}.test.ts.
 */
import { maths } from '../maths/maths.js';
import { middlesOf } from './grid.js';
import type { HeatProblem } from './heat-problem.js';

type Axis = 0 | 1 | 2;

/** Component of the normal under which metal and mould count as side by side along an axis. */
const slant = 0.2;

/** By axis: mm²·K/W at the face above each cell, towards the next one along the axis. 0 at the block's own end. */
export function faceResistances(
  problem: Pick<HeatProblem, 'grid' | 'share' | 'metal' | 'mould' | 'contactResistance'>,
): readonly [Float32Array, Float32Array, Float32Array] {
  const { grid, share, metal, mould, contactResistance } = problem;
  const { counts, edges } = grid;
  const strides = [1, counts[0], counts[0] * counts[1]] as const;
  const middles = edges.map(middlesOf);
  const place = (c: number, axis: Axis): number => Math.floor(c / strides[axis]) % counts[axis];
  /** Change of share per mm along an axis, over the neighbours on both sides. */
  const slope = (c: number, axis: Axis): number => {
    const i = place(c, axis);
    const [low, high] = [i > 0 ? 1 : 0, i + 1 < counts[axis] ? 1 : 0];
    if (low + high === 0) return 0;
    const rise = share[c + high * strides[axis]]! - share[c - low * strides[axis]]!;
    return rise / (middles[axis]![i + high]! - middles[axis]![i - low]!);
  };
  /** The fullest cell of the 27 about one: a wall thinner than a cell has its whole film all the same. */
  const fullest = (c: number): number => {
    let most = 0;
    const [i, j, k] = [place(c, 0), place(c, 1), place(c, 2)];
    for (let r = Math.max(0, k - 1); r <= Math.min(counts[2] - 1, k + 1); r++)
      for (let q = Math.max(0, j - 1); q <= Math.min(counts[1] - 1, j + 1); q++)
        for (let p = Math.max(0, i - 1); p <= Math.min(counts[0] - 1, i + 1); p++)
          most = Math.max(most, share[p + strides[1] * q + strides[2] * r]!);
    return most;
  };
  const [kMetal, kMould] = [metal.conductivity.solid, mould.conductivity];
  /** Of a cut cell: in series less side by side, mm²·K/W. */
  const surplus = (s: number, length: number): number =>
    length * (s / kMetal + (1 - s) / kMould - 1 / (s * kMetal + (1 - s) * kMould));
  /** Of that, the part at the face towards `to`: where there is less of what conducts better. */
  const better = kMetal >= kMould || contactResistance > 0 ? 1 : -1;
  const part = (own: number, to: number, back: number): number => {
    const [down, other] = [Math.max(0, better * (own - to)), Math.max(0, better * (own - back))];
    return down + other > 0 ? down / (down + other) : 0.5;
  };
  /** How much of the film lies between a cell of that share and the mould: more than its share, for it goes round metal. */
  const behind = (s: number): number => s * (2 - s);
  const along = (axis: Axis): Float32Array => {
    const [n, stride] = [counts[axis], strides[axis]];
    const out = new Float32Array(grid.size);
    for (let c = 0; c + stride < grid.size; c++) {
      const [s, t] = [share[c]!, share[c + stride]!];
      if (s === t && (s === 0 || s === 1)) continue;
      const i = place(c, axis);
      if (i + 1 >= n) continue;
      const d = c + stride;
      const normal = ([0, 1, 2] as const).map((a) => Math.abs(slope(c, a) + slope(d, a)) / 2);
      const whole = maths.hypot(...normal);
      const across = whole === 0 ? 0 : Math.min(1, normal[axis]! / whole / slant);
      const sizes = [
        edges[axis][i + 1]! - edges[axis][i]!,
        edges[axis][i + 2]! - edges[axis][i + 1]!,
      ] as const;
      const before = i > 0 ? share[c - stride]! : s;
      const after = i + 2 < n ? share[d + stride]! : t;
      const cut = part(s, t, before) * surplus(s, sizes[0]) + part(t, s, after) * surplus(t, sizes[1]);
      const taxicab = whole === 0 ? 1 : (normal[0]! + normal[1]! + normal[2]!) / whole;
      const film =
        contactResistance > 0 && s !== t
          ? (contactResistance * taxicab * Math.abs(behind(t) - behind(s))) / behind(fullest(s > t ? c : d))
          : 0;
      out[c] = across * cut + film;
    }
    return out;
  };
  return [along(0), along(1), along(2)];
}
