import type { Halves } from './halves.js';
import { nextHalf, previousHalf } from './halves.js';

/** Triangles lower than this, mm, have no sure normal: float32 moves their corners by up to a hundredth of it. */
const sureHeight = 1e-3;

/** Unit normals, three a triangle. A sliver takes the normal of the neighbour over its longest edge. */
export function faceNormals(p: Float64Array, { t, opposite }: Halves): Float64Array {
  const count = t.length / 3;
  const normals = new Float64Array(3 * count);
  const longest = new Int32Array(count).fill(-1);
  for (let f = 0; f < count; f++) {
    const [a, b, c] = [3 * t[3 * f]!, 3 * t[3 * f + 1]!, 3 * t[3 * f + 2]!];
    const [ux, uy, uz] = [p[b]! - p[a]!, p[b + 1]! - p[a + 1]!, p[b + 2]! - p[a + 2]!];
    const [vx, vy, vz] = [p[c]! - p[a]!, p[c + 1]! - p[a + 1]!, p[c + 2]! - p[a + 2]!];
    const [nx, ny, nz] = [uy * vz - uz * vy, uz * vx - ux * vz, ux * vy - uy * vx];
    const twice = Math.sqrt(nx * nx + ny * ny + nz * nz);
    const sides = [
      ux * ux + uy * uy + uz * uz,
      (vx - ux) * (vx - ux) + (vy - uy) * (vy - uy) + (vz - uz) * (vz - uz),
      vx * vx + vy * vy + vz * vz,
    ] as const;
    const most = Math.max(...sides);
    if (!(twice >= sureHeight * Math.sqrt(most))) longest[f] = 3 * f + sides.indexOf(most);
    const scale = twice > 0 ? 1 / twice : 0;
    normals[3 * f] = nx * scale;
    normals[3 * f + 1] = ny * scale;
    normals[3 * f + 2] = nz * scale;
  }
  for (let f = 0; f < count; f++) {
    if (longest[f]! < 0) continue;
    // Slivers lean on slivers; a few steps lead to a sure triangle.
    let at = f;
    for (let step = 0; step < 12 && longest[at]! >= 0; step++) at = Math.floor(opposite[longest[at]!]! / 3);
    if (longest[at]! < 0) normals.copyWithin(3 * f, 3 * at, 3 * at + 3);
  }
  return normals;
}

/** The angle of a triangle at the corner that a half-edge begins at, rad. */
export function cornerAngle(p: Float64Array, t: Uint32Array, h: number): number {
  const [a, b, c] = [3 * t[h]!, 3 * t[nextHalf(h)]!, 3 * t[previousHalf(h)]!];
  const [ux, uy, uz] = [p[b]! - p[a]!, p[b + 1]! - p[a + 1]!, p[b + 2]! - p[a + 2]!];
  const [vx, vy, vz] = [p[c]! - p[a]!, p[c + 1]! - p[a + 1]!, p[c + 2]! - p[a + 2]!];
  const lengths = Math.sqrt((ux * ux + uy * uy + uz * uz) * (vx * vx + vy * vy + vz * vz));
  const cosine = lengths > 0 ? Math.min(1, Math.max(-1, (ux * vx + uy * vy + uz * vz) / lengths)) : 1;
  // A polynomial for arccos within 7e-5 rad (Abramowitz and Stegun 4.4.45): a weight needs no more.
  const x = Math.abs(cosine);
  const angle = Math.sqrt(1 - x) * (1.5707288 + x * (-0.2121144 + x * (0.074261 - x * 0.0187293)));
  return cosine < 0 ? Math.PI - angle : angle;
}
