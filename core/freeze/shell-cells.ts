import { leastShare } from './cast-fields.js';
import { type Grid, middlesOf } from './grid.js';

/**
 * 1 for cells of metal and for those within `thickness` mm of it: a shell. Squared distances between the cells' middles,
 * one axis after the other (A. Meijster, J. Roerdink and W. Hesselink, 2000), looking no farther than the thickness.
 */
export function withinShell(grid: Grid, share: Float32Array, thickness: number): Uint8Array {
  const { counts, edges, size } = grid;
  const strides = [1, counts[0], counts[0] * counts[1]] as const;
  let squared = Float32Array.from(share, (s) => (s >= leastShare ? 0 : Number.POSITIVE_INFINITY));
  for (const axis of [0, 1, 2] as const) {
    const at = middlesOf(edges[axis]);
    const [n, stride] = [counts[axis], strides[axis]];
    const next = squared.slice();
    for (let c = 0; c < size; c++) {
      const i = Math.floor(c / stride) % n;
      for (const way of [-1, 1])
        for (let j = i + way; j >= 0 && j < n; j += way) {
          const gap = at[j]! - at[i]!;
          if (Math.abs(gap) > thickness) break;
          const far = squared[c + (j - i) * stride]! + gap * gap;
          if (far < next[c]!) next[c] = far;
        }
    }
    squared = next;
  }
  return Uint8Array.from(squared, (d) => (d <= thickness * thickness ? 1 : 0));
}
