import type { ExactMesh, Mesh } from './types.js';

/** Of every triangle the vector along its outward normal, three numbers, as long as twice its area, mm². */
export function faceVectors({ positions: p, triangles: t }: Mesh | ExactMesh): Float64Array {
  const vectors = new Float64Array(t.length);
  for (let f = 0; f < t.length; f += 3) {
    const a = 3 * t[f]!;
    const b = 3 * t[f + 1]!;
    const c = 3 * t[f + 2]!;
    const ux = p[b]! - p[a]!;
    const uy = p[b + 1]! - p[a + 1]!;
    const uz = p[b + 2]! - p[a + 2]!;
    const vx = p[c]! - p[a]!;
    const vy = p[c + 1]! - p[a + 1]!;
    const vz = p[c + 2]! - p[a + 2]!;
    vectors[f] = uy * vz - uz * vy;
    vectors[f + 1] = uz * vx - ux * vz;
    vectors[f + 2] = ux * vy - uy * vx;
  }
  return vectors;
}
