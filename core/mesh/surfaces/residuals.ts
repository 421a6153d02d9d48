import { dot } from '../../shape/vector.js';
import type { Vec3 } from '../../solid/types.js';
import { across, axisDistance } from './cylinder-fit.js';
import type { PlaneFit } from './plane-fit.js';
import type { Sheet } from './sheet.js';
import { NormalEquations } from './small-matrix.js';
import type { Cylinder } from './surface.js';

/**
 * More than this share of the scatter explained by a bend of so many terms: the surface is no plane or cylinder. Chance
 * explains terms / count of it.
 */
const mostExplained = (terms: number, count: number): number => Math.min(0.5, 0.1 + (2 * terms) / count);

/**
 * Whether heights over a plane follow a bowl, a saddle or a wave rather than chance, as they do on a gently curved surface
 * that a plane was laid against.
 *
 * @param points three numbers each
 */
export function bendsFromPlane(
  points: Float64Array,
  { normal, offset }: Pick<PlaneFit, 'normal' | 'offset'>,
): boolean {
  const [u, v] = across(normal);
  const scale = spanOf(points) + 1e-9;
  const [x0, y0, z0] = [points[0]!, points[1]!, points[2]!];
  return isExplained(points, 10, (x, y, z, row) => {
    const a = ((x - x0) * u[0] + (y - y0) * u[1] + (z - z0) * u[2]) / scale;
    const b = ((x - x0) * v[0] + (y - y0) * v[1] + (z - z0) * v[2]) / scale;
    row.set([1, a, b, a * a, a * b, b * b, a * a * a, a * a * b, a * b * b, b * b * b]);
    return x * normal[0] + y * normal[1] + z * normal[2] - offset;
  });
}

/** The same for a cylinder: tapers, barrels and bent tubes; that a bore has worn oval is not held against it. */
export function bendsFromCylinder(points: Float64Array, cylinder: Cylinder): boolean {
  const { point, direction, radius } = cylinder;
  const [u, v] = across(direction);
  const scale = spanOf(points) + 1e-9;
  return isExplained(points, 13, (x, y, z, row) => {
    const at: Vec3 = [x - point[0], y - point[1], z - point[2]];
    const [a, b] = [dot(at, u) / radius, dot(at, v) / radius];
    const h = dot(at, direction) / scale;
    const [c2, s2] = [a * a - b * b, 2 * a * b];
    row.set([1, a, b, h, h * a, h * b, h * c2, h * s2, h * h, h * h * a, h * h * b, h * h * c2, h * h * s2]);
    return axisDistance(cylinder, x, y, z) - radius;
  });
}

/** Greatest side of the points' box, mm. */
function spanOf(points: Float64Array): number {
  const low = [Infinity, Infinity, Infinity];
  const high = [-Infinity, -Infinity, -Infinity];
  for (let i = 0; i < points.length; i++) {
    low[i % 3] = Math.min(low[i % 3]!, points[i]!);
    high[i % 3] = Math.max(high[i % 3]!, points[i]!);
  }
  return Math.max(...[0, 1, 2].map((k) => high[k]! - low[k]!));
}

/** Of the squared difference between neighbours over twice the variance: 1 for chance, towards 0 for what bends. */
const leastChance = 0.25;

/**
 * Whether neighbouring corners stray from the ideal surface independently of each other, as a scan's do; on a surface of
 * another shape they stray alike (the ratio of von Neumann, 1941, along the mesh's edges).
 */
export function scattersByChance(
  { corners, positions: p }: Sheet,
  triangles: readonly number[],
  measure: (x: number, y: number, z: number) => number,
): boolean {
  let [sum, squares, steps] = [0, 0, 0];
  const heights = [0, 0, 0];
  for (const f of triangles) {
    for (let k = 0; k < 3; k++) {
      const v = 3 * corners[3 * f + k]!;
      heights[k] = measure(p[v]!, p[v + 1]!, p[v + 2]!);
      sum += heights[k]!;
      squares += heights[k]! ** 2;
    }
    for (let k = 0; k < 3; k++) steps += (heights[k]! - heights[(k + 1) % 3]!) ** 2;
  }
  const variance = squares - (sum * sum) / (3 * triangles.length);
  return steps >= leastChance * 2 * variance;
}

function isExplained(
  points: Float64Array,
  terms: number,
  measure: (x: number, y: number, z: number, row: Float64Array) => number,
): boolean {
  const count = points.length / 3;
  if (count < 2 * terms) return true;
  const equations = new NormalEquations(terms);
  const row = new Float64Array(terms);
  let [sum, squares] = [0, 0];
  for (let i = 0; i < points.length; i += 3) {
    const height = measure(points[i]!, points[i + 1]!, points[i + 2]!, row);
    equations.add(row, height);
    sum += height;
    squares += height * height;
  }
  const scatter = squares - (sum * sum) / count;
  const x = equations.solve();
  let left = 0;
  for (let i = 0; i < points.length; i += 3) {
    const height = measure(points[i]!, points[i + 1]!, points[i + 2]!, row);
    left += (height - row.reduce((s, term, k) => s + term * x[k]!, 0)) ** 2;
  }
  return scatter - left > mostExplained(terms, count) * scatter;
}
