import type { Vec3 } from '../../solid/types.js';
import { eigenOf } from './small-matrix.js';

/** A plane through points that are added one by one: least squares by their moments. */
export class PlaneFit {
  count = 0;
  normal: Vec3;
  offset = 0;
  /** Of a strip that is as thin as the points lie, mm. */
  width = 0;
  readonly #origin: Vec3;
  readonly #m = new Float64Array(9);

  /** @param normal outward, near enough to tell the plane's sides. */
  constructor(origin: Vec3, normal: Vec3) {
    this.#origin = origin;
    this.normal = normal;
    this.offset = normal[0] * origin[0] + normal[1] * origin[1] + normal[2] * origin[2];
  }

  add(px: number, py: number, pz: number): void {
    const x = px - this.#origin[0];
    const y = py - this.#origin[1];
    const z = pz - this.#origin[2];
    const m = this.#m;
    this.count++;
    m[0]! += x;
    m[1]! += y;
    m[2]! += z;
    m[3]! += x * x;
    m[4]! += y * y;
    m[5]! += z * z;
    m[6]! += x * y;
    m[7]! += y * z;
    m[8]! += z * x;
  }

  /** Takes the plane nearest to the points so far; points on one line leave it as it is. */
  refit(): void {
    const { count: n } = this;
    if (n < 3) return;
    const m = this.#m;
    const [cx, cy, cz] = [m[0]! / n, m[1]! / n, m[2]! / n];
    const { values, vectors } = eigenOf([
      m[3]! / n - cx * cx,
      m[4]! / n - cy * cy,
      m[5]! / n - cz * cz,
      m[6]! / n - cx * cy,
      m[7]! / n - cy * cz,
      m[8]! / n - cz * cx,
    ]);
    if (!(values[1] > 1e-6 * values[0])) return;
    const [x, y, z] = vectors[2];
    // The variance over a width w is w²/12.
    this.width = Math.sqrt(12 * values[1]);
    const sign = x * this.normal[0] + y * this.normal[1] + z * this.normal[2] < 0 ? -1 : 1;
    // + 0 makes −0 into 0
    this.normal = [sign * x + 0, sign * y + 0, sign * z + 0];
    this.offset =
      this.normal[0] * (cx + this.#origin[0]) +
      this.normal[1] * (cy + this.#origin[1]) +
      this.normal[2] * (cz + this.#origin[2]);
  }

  /** mm over the plane. */
  height(x: number, y: number, z: number): number {
    return x * this.normal[0] + y * this.normal[1] + z * this.normal[2] - this.offset;
  }
}

/** The plane nearest to points, three numbers each. */
export function planeThrough(points: Float64Array, normal: Vec3): PlaneFit {
  const plane = new PlaneFit([points[0] ?? 0, points[1] ?? 0, points[2] ?? 0], normal);
  for (let i = 0; i < points.length; i += 3) plane.add(points[i]!, points[i + 1]!, points[i + 2]!);
  plane.refit();
  return plane;
}
