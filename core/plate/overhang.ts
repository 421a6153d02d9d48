import { maths } from '../maths/maths.js';
import type { Mesh } from '../solid/types.js';

/** The part of a pattern's surface that a printer cannot lay on air. */
export interface Overhang {
  /** mm², seen from below. */
  readonly area: number;
  /** Lowest and highest point of it, mm; both 0 where there is none. */
  readonly from: number;
  readonly to: number;
}

/** Surfaces flatter than this above the horizontal need support, rad (common practice, no source). */
export const leastUnsupportedSlope = Math.PI / 4;
/** The first layers rest on the bed, mm. */
const bedBand = 0.05;
/** Half a degree of slack for the facets of a surface drawn at exactly the limit. */
const slack = Math.PI / 360;

/** Measures the down-facing surface flatter than 45° that does not lie on the bed (the mesh's lowest plane). */
export function measureOverhang({ positions, triangles }: Mesh): Overhang {
  let bed = Number.POSITIVE_INFINITY;
  for (let i = 2; i < positions.length; i += 3) bed = Math.min(bed, positions[i] as number);
  const limit = maths.cos(leastUnsupportedSlope - slack);
  let area = 0;
  let from = Number.POSITIVE_INFINITY;
  let to = Number.NEGATIVE_INFINITY;
  for (let t = 0; t < triangles.length; t += 3) {
    const corner = (k: number, axis: number): number =>
      positions[3 * (triangles[t + k] as number) + axis] as number;
    const [ux, uy, uz] = [
      corner(1, 0) - corner(0, 0),
      corner(1, 1) - corner(0, 1),
      corner(1, 2) - corner(0, 2),
    ];
    const [vx, vy, vz] = [
      corner(2, 0) - corner(0, 0),
      corner(2, 1) - corner(0, 1),
      corner(2, 2) - corner(0, 2),
    ];
    const [nx, ny, nz] = [uy * vz - uz * vy, uz * vx - ux * vz, ux * vy - uy * vx];
    if (-nz <= limit * maths.hypot(nx, ny, nz)) continue;
    const low = Math.min(corner(0, 2), corner(1, 2), corner(2, 2));
    const high = Math.max(corner(0, 2), corner(1, 2), corner(2, 2));
    if (high <= bed + bedBand) continue;
    area += -nz / 2;
    from = Math.min(from, low);
    to = Math.max(to, high);
  }
  return area === 0 ? { area: 0, from: 0, to: 0 } : { area, from: from - bed, to: to - bed };
}
