import { maths } from '../maths/maths.js';
import type { Mesh, Vec3 } from './types.js';

/**
 * Times a closed mesh winds round a point off its surface: 1 inside, 0 outside, −1 inside a cavity's shell.
 * The sum of the triangles' solid angles (Van Oosterom and Strackee, "The solid angle of a plane triangle",
 * 1983) over 4π. Pure; `from` and `to` limit it to a run of triangles.
 */
export function windingNumber(mesh: Mesh, point: Vec3, from = 0, to = mesh.triangles.length / 3): number {
  const { positions: p, triangles: t } = mesh;
  const [x, y, z] = point;
  let sum = 0;
  for (let i = 3 * from; i < 3 * to; i += 3) {
    const a = 3 * t[i]!;
    const b = 3 * t[i + 1]!;
    const c = 3 * t[i + 2]!;
    const ax = p[a]! - x;
    const ay = p[a + 1]! - y;
    const az = p[a + 2]! - z;
    const bx = p[b]! - x;
    const by = p[b + 1]! - y;
    const bz = p[b + 2]! - z;
    const cx = p[c]! - x;
    const cy = p[c + 1]! - y;
    const cz = p[c + 2]! - z;
    const la = Math.sqrt(ax * ax + ay * ay + az * az);
    const lb = Math.sqrt(bx * bx + by * by + bz * bz);
    const lc = Math.sqrt(cx * cx + cy * cy + cz * cz);
    const det = ax * (by * cz - bz * cy) + ay * (bz * cx - bx * cz) + az * (bx * cy - by * cx);
    const dots =
      la * lb * lc +
      (ax * bx + ay * by + az * bz) * lc +
      (bx * cx + by * cy + bz * cz) * la +
      (cx * ax + cy * ay + cz * az) * lb;
    sum += 2 * maths.atan2(det, dots);
  }
  return sum / (4 * Math.PI);
}
