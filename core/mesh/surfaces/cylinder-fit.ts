import { cross, dot, unit } from '../../shape/vector.js';
import type { Vec3 } from '../../solid/types.js';
import { NormalEquations } from './small-matrix.js';
import type { Cylinder } from './surface.js';

export interface Circle {
  readonly x: number;
  readonly y: number;
  readonly radius: number;
}

/** Two unit vectors square to a direction and to each other: u × v = direction. */
export function across(direction: Vec3): readonly [Vec3, Vec3] {
  const [x, y, z] = direction.map(Math.abs) as [number, number, number];
  const u = unit(cross(direction, x <= y && x <= z ? [1, 0, 0] : y <= z ? [0, 1, 0] : [0, 0, 1]));
  return [u, cross(direction, u)];
}

/** The circle through points by linear least squares of x² + y² + ax + by + c = 0 (Kåsa, 1976); null for a line. */
export function fitCircle(points: readonly (readonly [number, number])[]): Circle | null {
  const n = points.length;
  if (n < 3) return null;
  const cx = points.reduce((s, p) => s + p[0], 0) / n;
  const cy = points.reduce((s, p) => s + p[1], 0) / n;
  let [xx, yy, xy, xq, yq, q] = [0, 0, 0, 0, 0, 0];
  for (const [px, py] of points) {
    const x = px - cx;
    const y = py - cy;
    const s = x * x + y * y;
    xx += x * x;
    yy += y * y;
    xy += x * y;
    xq += x * s;
    yq += y * s;
    q += s;
  }
  const determinant = xx * yy - xy * xy;
  if (!(determinant > 1e-12 * (xx + yy) * (xx + yy))) return null;
  const x = (xq * yy - yq * xy) / (2 * determinant);
  const y = (yq * xx - xq * xy) / (2 * determinant);
  return { x: cx + x, y: cy + y, radius: Math.sqrt(x * x + y * y + q / n) };
}

/**
 * The cylinder nearest to points (three numbers each) from one that is near already: Gauss and Newton's steps on the
 * distances from it, for direction, place and radius. `null` where the steps lead nowhere.
 */
export function fitCylinder(points: Float64Array, start: Cylinder, steps: number): Cylinder | null {
  let { point, direction, radius } = start;
  const row = new Float64Array(5);
  for (let step = 0; step < steps; step++) {
    const [u, v] = across(direction);
    // From the middle of the points, so that turning and moving do not mix.
    let middle = 0;
    let scale = 1e-9;
    for (let i = 0; i < points.length; i += 3) middle += alongAxis(points, i, point, direction);
    middle /= Math.max(1, points.length / 3);
    point = [
      point[0] + middle * direction[0],
      point[1] + middle * direction[1],
      point[2] + middle * direction[2],
    ];
    for (let i = 0; i < points.length; i += 3)
      scale = Math.max(scale, Math.abs(alongAxis(points, i, point, direction)));
    const equations = new NormalEquations(5);
    for (let i = 0; i < points.length; i += 3) {
      const x = points[i]! - point[0];
      const y = points[i + 1]! - point[1];
      const z = points[i + 2]! - point[2];
      const a = x * u[0] + y * u[1] + z * u[2];
      const b = x * v[0] + y * v[1] + z * v[2];
      const h = (x * direction[0] + y * direction[1] + z * direction[2]) / scale;
      const rho = Math.sqrt(a * a + b * b);
      if (!(rho > 0)) continue;
      row[0] = a / rho;
      row[1] = b / rho;
      row[2] = (h * a) / rho;
      row[3] = (h * b) / rho;
      row[4] = 1;
      equations.add(row, rho - radius);
    }
    const x = equations.solve();
    const [du, dv] = [x[2]! / scale, x[3]! / scale];
    if (!x.every(Number.isFinite) || Math.abs(du) > 0.5 || Math.abs(dv) > 0.5) return null;
    point = [0, 1, 2].map((k) => point[k]! + x[0]! * u[k]! + x[1]! * v[k]!) as unknown as Vec3;
    direction = unit([0, 1, 2].map((k) => direction[k]! + du * u[k]! + dv * v[k]!) as unknown as Vec3);
    radius += x[4]!;
    if (!(radius > 0)) return null;
    if (Math.max(Math.abs(x[0]!), Math.abs(x[1]!), Math.abs(x[2]!), Math.abs(x[3]!), Math.abs(x[4]!)) < 1e-7)
      break;
  }
  return { point, direction, radius };
}

const alongAxis = (points: Float64Array, i: number, point: Vec3, d: Vec3): number =>
  (points[i]! - point[0]) * d[0] + (points[i + 1]! - point[1]) * d[1] + (points[i + 2]! - point[2]) * d[2];

/** Distance of a point from the axis, mm. */
export function axisDistance({ point, direction }: Cylinder, x: number, y: number, z: number): number {
  const a = x - point[0];
  const b = y - point[1];
  const c = z - point[2];
  const h = a * direction[0] + b * direction[1] + c * direction[2];
  return Math.sqrt(Math.max(0, a * a + b * b + c * c - h * h));
}

/** Sign of a normal against the way out from the axis at a point: 1 on a boss, −1 in a bore; as a cosine. */
export function outwardness({ point, direction }: Cylinder, at: Vec3, normal: Vec3): number {
  const w: Vec3 = [at[0] - point[0], at[1] - point[1], at[2] - point[2]];
  const h = dot(w, direction);
  return dot(unit([w[0] - h * direction[0], w[1] - h * direction[1], w[2] - h * direction[2]]), normal);
}
