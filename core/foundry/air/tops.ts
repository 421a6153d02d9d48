import { maths } from '../../maths/maths.js';
import type { Mesh, Vec3 } from '../../solid/types.js';
import { type Cavity, planArea } from './cavity.js';

/** Tops that differ by less are one flat, mm: noise of a mesh. */
const flat = 0.01;

export const pointOf = ({ positions: p }: Mesh, v: number): Vec3 => [p[3 * v]!, p[3 * v + 1]!, p[3 * v + 2]!];

/**
 * Height component of the angle-weighted normal: at a local top its sign tells which side of the surface is straight
 * above (J. A. Bærentzen and H. Aanæs, Signed Distance Computation Using the Angle Weighted Pseudonormal, 2005).
 */
export function upwardNormal(cavity: Cavity, v: number): number {
  const { mesh, heights, starts, corners, plan } = cavity;
  const t = mesh.triangles;
  let sum = 0;
  for (let i = starts[v]!; i < starts[v + 1]!; i++) {
    const corner = corners[i]!;
    const f = corner - (corner % 3);
    const [j, k] = [t[f + ((corner + 1 - f) % 3)]!, t[f + ((corner + 2 - f) % 3)]!];
    const side = (w: number): Vec3 => [
      plan[2 * w]! - plan[2 * v]!,
      plan[2 * w + 1]! - plan[2 * v + 1]!,
      heights[w]! - heights[v]!,
    ];
    const [a, b] = [side(j), side(k)];
    const n: Vec3 = [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]];
    const length = maths.hypot(...n);
    if (length === 0) continue;
    sum += (maths.atan2(length, a[0] * b[0] + a[1] * b[1] + a[2] * b[2]) * n[2]) / length;
  }
  return sum;
}

/** Triangles of the flat at the top, joined by corners, as nearly level as `drop` allows and facing up. */
export function topFlat(cavity: Cavity, peak: number, drop: number): readonly number[] {
  const { mesh, heights, starts, corners } = cavity;
  const t = mesh.triangles;
  const floor = heights[peak]! - drop;
  const seen = new Set<number>([peak]);
  const flats = new Set<number>();
  const queue = [peak];
  for (let v = queue.pop(); v !== undefined; v = queue.pop()) {
    for (let i = starts[v]!; i < starts[v + 1]!; i++) {
      const f = Math.floor(corners[i]! / 3);
      if (flats.has(f) || [0, 1, 2].some((k) => heights[t[3 * f + k]!]! < floor)) continue;
      if (planArea(cavity, f) <= 0) continue;
      flats.add(f);
      for (let k = 0; k < 3; k++) {
        const w = t[3 * f + k]!;
        if (!seen.has(w)) {
          seen.add(w);
          queue.push(w);
        }
      }
    }
  }
  return [...flats];
}

export function middleOfTop(cavity: Cavity, peak: number): Vec3 {
  const { mesh } = cavity;
  let area = 0;
  const sum = [0, 0, 0];
  for (const f of topFlat(cavity, peak, flat)) {
    const weight = planArea(cavity, f);
    area += weight;
    for (let k = 0; k < 3; k++)
      for (let c = 0; c < 3; c++)
        sum[c]! += (weight / 3) * mesh.positions[3 * mesh.triangles[3 * f + k]! + c]!;
  }
  return area > 0 ? [sum[0]! / area, sum[1]! / area, sum[2]! / area] : pointOf(mesh, peak);
}
