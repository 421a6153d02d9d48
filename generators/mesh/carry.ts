import { ClosestTree } from '../../core/shape/closest-tree.js';
import type { Mesh } from '../../core/solid/types.js';

/**
 * What is known of one mesh's triangles, on another mesh that lies close over it: each triangle has what the one
 * nearest to its middle has.
 */
export function carryFlags(from: Mesh, flags: Uint8Array, to: Mesh): Uint8Array {
  if (from === to) return flags;
  const carried = new Uint8Array(to.triangles.length / 3);
  if (!flags.includes(1)) return carried;
  const tree = new ClosestTree(from.positions, from.triangles);
  const { positions: p, triangles: t } = to;
  for (let f = 0; f < carried.length; f++) {
    const [a, b, c] = [3 * t[3 * f]!, 3 * t[3 * f + 1]!, 3 * t[3 * f + 2]!];
    const middle = (k: number): number => (p[a + k]! + p[b + k]! + p[c + k]!) / 3;
    carried[f] = flags[tree.closest(middle(0), middle(1), middle(2))]!;
  }
  return carried;
}
