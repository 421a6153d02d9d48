import { maths } from '../maths/maths.js';
import type { Vec2, Vec3 } from './types.js';

/** The plane of a closed polygon in space, with how well the polygon keeps to it. */
export interface FacePlane {
  readonly origin: Vec3;
  /** Unit; the polygon runs counter-clockwise seen from its tip. */
  readonly normal: Vec3;
  /** Unit, in the plane; u × v is the normal. */
  readonly u: Vec3;
  readonly v: Vec3;
  /** Greatest distance of a point from the plane, mm. */
  readonly deviation: number;
  /** Greatest distance of a point from the origin, mm. */
  readonly extent: number;
}

/** The mean plane of a polygon by Newell's sum (Sutherland, Sproull and Schumacker, 1974), or null if it has no area. */
export function facePlane(points: readonly Vec3[]): FacePlane | null {
  const n = points.length;
  const origin: Vec3 = [0, 1, 2].map((k) => points.reduce((s, p) => s + p[k]!, 0) / n) as unknown as Vec3;
  const sum = [0, 0, 0];
  for (let i = 0; i < n; i++) {
    const [ax, ay, az] = minus(points[i]!, origin);
    const [bx, by, bz] = minus(points[(i + 1) % n]!, origin);
    sum[0]! += ay * bz - az * by;
    sum[1]! += az * bx - ax * bz;
    sum[2]! += ax * by - ay * bx;
  }
  const extent = Math.max(...points.map((p) => maths.hypot(...minus(p, origin))));
  const length = maths.hypot(...sum);
  if (!(length > 1e-12 * extent * extent)) return null;
  const normal: Vec3 = [sum[0]! / length, sum[1]! / length, sum[2]! / length];
  const [u, v] = planeAxes(normal);
  const deviation = Math.max(...points.map((p) => Math.abs(dot(minus(p, origin), normal))));
  return { origin, normal, u, v, deviation, extent };
}

/** The polygon in the plane's own coordinates. */
export function flatten(points: readonly Vec3[], plane: FacePlane): Vec2[] {
  return points.map((p) => {
    const d = minus(p, plane.origin);
    return [dot(d, plane.u), dot(d, plane.v)];
  });
}

function planeAxes(n: Vec3): readonly [Vec3, Vec3] {
  // Horizontal planes keep x and y as they are, without rounding.
  if (n[0] === 0 && n[1] === 0)
    return [
      [1, 0, 0],
      [0, Math.sign(n[2]), 0],
    ];
  const a: Vec3 = Math.abs(n[2]) < 0.9 ? [0, 0, 1] : [1, 0, 0];
  const c = cross(a, n);
  const length = maths.hypot(...c);
  const u: Vec3 = [c[0] / length, c[1] / length, c[2] / length];
  return [u, cross(n, u)];
}

const minus = (a: Vec3, b: Vec3): Vec3 => [a[0] - b[0], a[1] - b[1], a[2] - b[2]];
const dot = (a: Vec3, b: Vec3): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
const cross = (a: Vec3, b: Vec3): Vec3 => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
];
