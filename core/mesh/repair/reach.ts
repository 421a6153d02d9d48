import { measureBounds } from '../../solid/mesh-bounds.js';
import type { Mesh } from '../../solid/types.js';
import { diagonalOf } from '../health/shells.js';

/**
 * How far apart, mm, corners may lie that were surely meant as one: a hundred-thousandth of the box's diagonal, or eight
 * steps of float32 at the coordinates' size where that is more. A micrometre on a part of 100 mm.
 */
export function joiningReach(mesh: Mesh): number {
  const box = measureBounds(mesh);
  if (!box) return 0;
  const largest = Math.max(...box.min.map(Math.abs), ...box.max.map(Math.abs));
  return Math.max(1e-5 * diagonalOf(box), largest / 2 ** 20);
}
