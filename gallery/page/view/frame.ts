import { cross, dot, unit } from '../../../core/shape/vector.js';
import type { Box, Vec3 } from '../../../core/solid/types.js';

/** Where the view is looked from by a word: the side of the piece that faces the reader. */
export type Side = '+x' | '-x' | '+y' | '-y' | '+z' | '-z' | 'iso';

/** Radians. Azimuth from +X towards +Y, elevation above the horizon, of the direction towards the reader. */
export interface Bearing {
  readonly azimuth: number;
  readonly elevation: number;
}

const quarter = Math.PI / 2;
/** Straight down leaves no way up: the camera stops short of it by this. */
export const steepest = quarter - 1e-4;

export const bearings: Readonly<Record<Side, Bearing>> = {
  '+x': { azimuth: 0, elevation: 0 },
  '-x': { azimuth: Math.PI, elevation: 0 },
  '+y': { azimuth: quarter, elevation: 0 },
  '-y': { azimuth: -quarter, elevation: 0 },
  '+z': { azimuth: -quarter, elevation: steepest },
  '-z': { azimuth: -quarter, elevation: -steepest },
  // As the pictures of the job are seen.
  iso: { azimuth: (-62 / 180) * Math.PI, elevation: (33 / 180) * Math.PI },
};

/** Unit vector from the piece to the reader. */
export function towardsReader({ azimuth, elevation }: Bearing): Vec3 {
  const level = Math.cos(elevation);
  return [level * Math.cos(azimuth), level * Math.sin(azimuth), Math.sin(elevation)];
}

export interface Framing {
  /** What the camera looks at, and how far it is from it, mm. */
  readonly target: Vec3;
  readonly distance: number;
}

/**
 * The nearest place from which a camera, its upright picture `tanX` and `tanY` wide and high (tangents of half the
 * angle), sees all the points (x, y, z each), in the middle of its picture. Exact: the picture's four sides are planes.
 */
export function frameAll(
  points: readonly ArrayLike<number>[],
  towards: Vec3,
  tanX: number,
  tanY: number,
): Framing {
  const side = cross([0, 0, 1], towards);
  const right: Vec3 = dot(side, side) > 0 ? unit(side) : [1, 0, 0];
  const up = cross(towards, right);
  // Each side's plane, pushed out to the outermost point: right + tan × depth is the same along it.
  let [xp, xm, yp, ym, z0, z1] = [-Infinity, Infinity, -Infinity, Infinity, Infinity, -Infinity];
  for (const p of points) {
    for (let i = 0; i + 2 < p.length; i += 3) {
      const x = right[0] * p[i]! + right[1] * p[i + 1]! + right[2] * p[i + 2]!;
      const y = up[0] * p[i]! + up[1] * p[i + 1]! + up[2] * p[i + 2]!;
      const z = towards[0] * p[i]! + towards[1] * p[i + 1]! + towards[2] * p[i + 2]!;
      if (x + tanX * z > xp) xp = x + tanX * z;
      if (x - tanX * z < xm) xm = x - tanX * z;
      if (y + tanY * z > yp) yp = y + tanY * z;
      if (y - tanY * z < ym) ym = y - tanY * z;
      if (z < z0) z0 = z;
      if (z > z1) z1 = z;
    }
  }
  if (z0 > z1) return { target: [0, 0, 0], distance: 100 };
  const depth = Math.max((xp - xm) / (2 * tanX), (yp - ym) / (2 * tanY), z1 + 1e-3);
  const [x, y, z] = [(xp + xm) / 2, (yp + ym) / 2, (z0 + z1) / 2];
  const target: Vec3 = [
    right[0] * x + up[0] * y + towards[0] * z,
    right[1] * x + up[1] * y + towards[1] * z,
    right[2] * x + up[2] * y + towards[2] * z,
  ];
  return { target, distance: depth - z };
}

/** Whether a camera that suited `before` still suits `after`: it stands about the same place, about as large. */
export function stillFits(before: Box, after: Box): boolean {
  const [a, b] = [halfDiagonal(before), halfDiagonal(after)];
  if (!(a > 0 && b > 0)) return false;
  const shift = Math.hypot(...([0, 1, 2] as const).map((k) => middle(after, k) - middle(before, k)));
  return b < 1.5 * a && b > a / 1.8 && shift < 0.5 * a;
}

export const middle = (box: Box, k: 0 | 1 | 2): number => (box.min[k] + box.max[k]) / 2;

/** Half a box's diagonal, mm. */
export const halfDiagonal = ({ min, max }: Box): number =>
  Math.hypot(max[0] - min[0], max[1] - min[1], max[2] - min[2]) / 2;

/** The shortest way round from one direction to another, radians. */
export const turnBetween = (from: number, to: number): number => {
  const turn = (to - from) % (2 * Math.PI);
  return turn > Math.PI ? turn - 2 * Math.PI : turn < -Math.PI ? turn + 2 * Math.PI : turn;
};
