import type { Mesh } from '../../core/solid/types.js';
import { type Flange, flangeScrews } from '../../generators/hardware/flange.js';
import { seatOf } from '../../generators/hardware/screw-field.js';

/** How many corners of a mesh, poured underside up, stand past the base's face straight over a screw's head. */
export function overHeads({ positions: p }: Mesh, flange: Flange): number {
  const radius = seatOf(flange.screw).mouthDiameter / 2;
  const screws = flangeScrews(flange);
  let count = 0;
  for (let i = 0; i < p.length; i += 3) {
    const [x, y, z] = [p[i]!, p[i + 1]!, p[i + 2]!];
    if (-z > flange.thickness + 0.5 && screws.some(([a, b]) => Math.hypot(x - a, y - b) < radius)) count++;
  }
  return count;
}
