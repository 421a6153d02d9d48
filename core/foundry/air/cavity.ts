import { cross, unit } from '../../shape/vector.js';
import type { Mesh, Vec3 } from '../../solid/types.js';

/** The mesh of a cavity with the heights by which metal rises in it. */
export interface Cavity {
  readonly mesh: Mesh;
  /** Of each vertex along the pour direction, mm. */
  readonly heights: Float64Array;
  /** Corner k belongs to vertex v for starts[v] ≤ i < starts[v + 1], k = corners[i]. */
  readonly starts: Uint32Array;
  readonly corners: Uint32Array;
  /** Two numbers a vertex: where it stands in the level plane, mm. */
  readonly plan: Float64Array;
}

/**
 * A closed, manifold, indexed mesh (as the kernel gives it) seen along `up`, +Z when left out: the gated pattern is the
 * cavity that metal fills.
 */
export function readCavity(mesh: Mesh, up: Vec3 = [0, 0, 1]): Cavity {
  const { positions: p, triangles: t } = mesh;
  const count = p.length / 3;
  const w = unit(up);
  const upright = w[2] === 1;
  const u: Vec3 = upright ? [1, 0, 0] : unit(cross(Math.abs(w[0]) < 0.7 ? [1, 0, 0] : [0, 1, 0], w));
  const v = upright ? ([0, 1, 0] as const) : cross(w, u);
  const heights = new Float64Array(count);
  const plan = new Float64Array(2 * count);
  for (let i = 0; i < count; i++) {
    const [x, y, z] = [p[3 * i]!, p[3 * i + 1]!, p[3 * i + 2]!];
    heights[i] = upright ? z : w[0] * x + w[1] * y + w[2] * z;
    plan[2 * i] = u[0] * x + u[1] * y + u[2] * z;
    plan[2 * i + 1] = v[0] * x + v[1] * y + v[2] * z;
  }
  const starts = new Uint32Array(count + 1);
  for (let k = 0; k < t.length; k++) starts[t[k]! + 1]!++;
  for (let i = 0; i < count; i++) starts[i + 1]! += starts[i]!;
  const next = starts.slice(0, count);
  const corners = new Uint32Array(t.length);
  for (let k = 0; k < t.length; k++) corners[next[t[k]!]!++] = k;
  return { mesh, heights, starts, corners, plan };
}

/** Twice the area of a triangle as seen from above, mm²; negative where it faces down. */
export function planArea({ mesh, plan }: Cavity, triangle: number): number {
  const t = mesh.triangles;
  const [a, b, c] = [2 * t[3 * triangle]!, 2 * t[3 * triangle + 1]!, 2 * t[3 * triangle + 2]!];
  return (
    (plan[b]! - plan[a]!) * (plan[c + 1]! - plan[a + 1]!) -
    (plan[c]! - plan[a]!) * (plan[b + 1]! - plan[a + 1]!)
  );
}

/**
 * What a triangle adds to the volume of the cavity above `level`, mm³: the flux of (0, 0, z − level) through its part
 * above, so that the level cut itself adds nothing (divergence theorem). Exact.
 */
export function volumeUnder(cavity: Cavity, triangle: number, level: number): number {
  const { mesh, heights } = cavity;
  const t = mesh.triangles;
  let a = heights[t[3 * triangle]!]! - level;
  let b = heights[t[3 * triangle + 1]!]! - level;
  let c = heights[t[3 * triangle + 2]!]! - level;
  if (a < b) [a, b] = [b, a];
  if (b < c) [b, c] = [c, b];
  if (a < b) [a, b] = [b, a];
  if (a <= 0) return 0;
  // Mean over the whole triangle of the height above the level, nothing below it.
  let mean: number;
  if (c >= 0) mean = (a + b + c) / 3;
  else if (b >= 0) mean = (a + b + c) / 3 - (c / 3) * ((c * c) / ((a - c) * (b - c)));
  else mean = (a / 3) * ((a * a) / ((a - b) * (a - c)));
  return (planArea(cavity, triangle) / 2) * mean;
}

/** A corner of the surface first met straight above vertex `v`, the highest of its triangle; −1 where there is none. */
export function surfaceAbove(cavity: Cavity, v: number): number {
  const { mesh, heights, plan } = cavity;
  const t = mesh.triangles;
  const [x, y, z] = [plan[2 * v]!, plan[2 * v + 1]!, heights[v]!];
  let nearest = Number.POSITIVE_INFINITY;
  let found = -1;
  for (let f = 0; f < t.length; f += 3) {
    const [i, j, k] = [t[f]!, t[f + 1]!, t[f + 2]!];
    const [zi, zj, zk] = [heights[i]!, heights[j]!, heights[k]!];
    if (zi <= z && zj <= z && zk <= z) continue;
    const [xi, xj, xk] = [plan[2 * i]! - x, plan[2 * j]! - x, plan[2 * k]! - x];
    if ((xi < 0 && xj < 0 && xk < 0) || (xi > 0 && xj > 0 && xk > 0)) continue;
    const [yi, yj, yk] = [plan[2 * i + 1]! - y, plan[2 * j + 1]! - y, plan[2 * k + 1]! - y];
    if ((yi < 0 && yj < 0 && yk < 0) || (yi > 0 && yj > 0 && yk > 0)) continue;
    const [a, b, c] = [xj * yk - xk * yj, xk * yi - xi * yk, xi * yj - xj * yi];
    const sum = a + b + c;
    if (sum === 0) continue;
    const slack = -1e-9 * Math.abs(sum);
    if (a * Math.sign(sum) < slack || b * Math.sign(sum) < slack || c * Math.sign(sum) < slack) continue;
    const at = (a * zi + b * zj + c * zk) / sum;
    if (at > z + 1e-9 && at < nearest) {
      nearest = at;
      found = zi >= zj && zi >= zk ? i : zj >= zk ? j : k;
    }
  }
  return found;
}
