import type { MassProperties, Mesh } from './types.js';

/**
 * Volume, area, centroid and inertia tensor (density 1) of a closed, outward-facing mesh, by the divergence
 * theorem: the solid is the signed sum of the tetrahedra from one point to each triangle, whose integrals are
 * polynomials in the corners (Tonon, "Explicit exact formulas for the 3-D tetrahedron inertia tensor", 2004).
 * Pure, in double precision, about the bounding box centre so that a far-off solid loses no digits.
 */
export function measureMesh(mesh: Mesh): MassProperties {
  const { positions: p, triangles: t } = mesh;
  const o = boxCentre(p);
  let area2 = 0;
  let vol6 = 0;
  const first = [0, 0, 0];
  // ∫xx, ∫yy, ∫zz, ∫xy, ∫yz, ∫zx
  const second = [0, 0, 0, 0, 0, 0];
  for (let i = 0; i < t.length; i += 3) {
    const [a, b, c] = [3 * t[i]!, 3 * t[i + 1]!, 3 * t[i + 2]!];
    const [ax, ay, az] = [p[a]! - o[0], p[a + 1]! - o[1], p[a + 2]! - o[2]];
    const [bx, by, bz] = [p[b]! - o[0], p[b + 1]! - o[1], p[b + 2]! - o[2]];
    const [cx, cy, cz] = [p[c]! - o[0], p[c + 1]! - o[1], p[c + 2]! - o[2]];
    const [ux, uy, uz, vx, vy, vz] = [bx - ax, by - ay, bz - az, cx - ax, cy - ay, cz - az];
    const [nx, ny, nz] = [uy * vz - uz * vy, uz * vx - ux * vz, ux * vy - uy * vx];
    area2 += Math.sqrt(nx * nx + ny * ny + nz * nz);
    const det = ax * nx + ay * ny + az * nz;
    vol6 += det;
    const [sx, sy, sz] = [ax + bx + cx, ay + by + cy, az + bz + cz];
    first[0]! += det * sx;
    first[1]! += det * sy;
    first[2]! += det * sz;
    // ∫ x_j x_k over a tetrahedron with one corner at the origin = det/120 (Σ s_j s_k + Σ corner products)
    second[0]! += det * (sx * sx + ax * ax + bx * bx + cx * cx);
    second[1]! += det * (sy * sy + ay * ay + by * by + cy * cy);
    second[2]! += det * (sz * sz + az * az + bz * bz + cz * cz);
    second[3]! += det * (sx * sy + ax * ay + bx * by + cx * cy);
    second[4]! += det * (sy * sz + ay * az + by * bz + cy * cz);
    second[5]! += det * (sz * sx + az * ax + bz * bx + cz * cx);
  }
  const volume = vol6 / 6;
  const [gx, gy, gz] =
    vol6 === 0 ? [0, 0, 0] : [first[0]! / (4 * vol6), first[1]! / (4 * vol6), first[2]! / (4 * vol6)];
  const xx = second[0]! / 120 - volume * gx * gx;
  const yy = second[1]! / 120 - volume * gy * gy;
  const zz = second[2]! / 120 - volume * gz * gz;
  const xy = second[3]! / 120 - volume * gx * gy;
  const yz = second[4]! / 120 - volume * gy * gz;
  const zx = second[5]! / 120 - volume * gz * gx;
  return {
    volume,
    area: area2 / 2,
    centroid: [gx + o[0], gy + o[1], gz + o[2]],
    inertia: [yy + zz, zz + xx, xx + yy, 0 - xy, 0 - yz, 0 - zx],
  };
}

function boxCentre(p: Float32Array): readonly [number, number, number] {
  if (p.length === 0) return [0, 0, 0];
  const min = [Infinity, Infinity, Infinity];
  const max = [-Infinity, -Infinity, -Infinity];
  for (let i = 0; i < p.length; i++) {
    const k = i % 3;
    if (p[i]! < min[k]!) min[k] = p[i]!;
    if (p[i]! > max[k]!) max[k] = p[i]!;
  }
  return [(min[0]! + max[0]!) / 2, (min[1]! + max[1]!) / 2, (min[2]! + max[2]!) / 2];
}
