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
  const count = mesh.positions.length / 3;
  const t = mesh.triangles;
  const starts = new Uint32Array(count + 1);
  for (let k = 0; k < t.length; k++) starts[t[k]! + 1]!++;
  for (let i = 0; i < count; i++) starts[i + 1]! += starts[i]!;
  const next = starts.slice(0, count);
  const corners = new Uint32Array(t.length);
  for (let k = 0; k < t.length; k++) corners[next[t[k]!]!++] = k;
  return { mesh, starts, corners, ...seenAlong(mesh, up) };
}

/** The same cavity seen along another direction. */
export const turnCavity = (cavity: Cavity, up: Vec3): Cavity => ({
  ...cavity,
  ...seenAlong(cavity.mesh, up),
});

/** The same cavity upside down: what was below is above. */
export const overturn = (cavity: Cavity): Cavity => ({ ...cavity, heights: cavity.heights.map((h) => -h) });

function seenAlong({ positions: p }: Mesh, up: Vec3): Pick<Cavity, 'heights' | 'plan'> {
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
  return { heights, plan };
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
  const [i, j, k] = [t[3 * triangle]!, t[3 * triangle + 1]!, t[3 * triangle + 2]!];
  const mean = meanAbove(heights[i]! - level, heights[j]! - level, heights[k]! - level);
  return mean === 0 ? 0 : (planArea(cavity, triangle) / 2) * mean;
}

/**
 * What a triangle adds to the volume of a piece of the cavity that is cut off at `level` above, mm³: the flux of
 * (0, 0, z − reference) through its part below, and through what its cut adds to the area of the level's cut. Any one
 * reference for all triangles of the piece, which may be cut off at several levels. Exact.
 */
export function cutBelow(cavity: Cavity, triangle: number, level: number, reference: number): number {
  const { mesh, heights, plan } = cavity;
  const at = [0, 1, 2].map((k) => mesh.triangles[3 * triangle + k]!) as [number, number, number];
  const [a, b, c] = at.map((v) => heights[v]! - level) as [number, number, number];
  const area = planArea(cavity, triangle) / 2;
  const whole = area * ((heights[at[0]]! + heights[at[1]]! + heights[at[2]]!) / 3 - reference);
  if (Math.max(a, b, c) <= 0) return whole;
  const over = level - reference;
  // Where the surface's edge comes down through the level, and where it goes up again.
  const ends = [0, 1, 2].map((k) => {
    const [from, to] = [at[k]!, at[(k + 1) % 3]!];
    const [h, g] = [heights[from]! - level, heights[to]! - level];
    if (h > 0 === g > 0) return null;
    const f = h / (h - g);
    const point = [0, 1].map((i) => plan[2 * from + i]! + f * (plan[2 * to + i]! - plan[2 * from + i]!));
    return { down: h > 0, x: point[0]!, y: point[1]! };
  });
  const down = ends.find((e) => e?.down);
  const up = ends.find((e) => e && !e.down);
  const cap = down && up ? (down.x * up.y - down.y * up.x) / 2 : 0;
  return whole - area * (meanAbove(a, b, c) + over * shareAbove(a, b, c)) + over * cap;
}

/** Share of a triangle that lies above nought; heights at its corners. */
function shareAbove(a: number, b: number, c: number): number {
  const [high, middle, low] = [a, b, c].sort((p, q) => q - p) as [number, number, number];
  if (high <= 0) return 0;
  if (low >= 0) return 1;
  if (middle >= 0) return 1 - (low * low) / ((high - low) * (middle - low));
  return (high * high) / ((high - middle) * (high - low));
}

/** Mean over a triangle of what its plane stands above nought, nothing where it is below; heights at its corners. */
function meanAbove(a: number, b: number, c: number): number {
  if (a < b) [a, b] = [b, a];
  if (b < c) [b, c] = [c, b];
  if (a < b) [a, b] = [b, a];
  if (a <= 0) return 0;
  if (c >= 0) return (a + b + c) / 3;
  if (b >= 0) return (a + b + c) / 3 - (c / 3) * ((c * c) / ((a - c) * (b - c)));
  return (a / 3) * ((a * a) / ((a - b) * (a - c)));
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
