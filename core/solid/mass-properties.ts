import { measureBounds } from './mesh-bounds.js';
import type { MassProperties, Mesh, Vec3 } from './types.js';

/**
 * Volume, area, centroid and inertia tensor (density 1) of a closed, outward-facing mesh, by the divergence
 * theorem: the solid is the signed sum of the tetrahedra from one point to each triangle, whose integrals are
 * polynomials in the corners (Tonon, "Explicit exact formulas for the 3-D tetrahedron inertia tensor", 2004).
 * Pure, in double precision, about the bounding box centre so that a far-off solid loses no digits.
 */
export function measureMesh(mesh: Mesh): MassProperties {
  const { positions: p, triangles: t } = mesh;
  const [ox, oy, oz] = boxCentre(mesh);
  let area2 = 0;
  let vol6 = 0;
  // Times 24: ∫x, ∫y, ∫z. Times 120: ∫xx, ∫yy, ∫zz, ∫xy, ∫yz, ∫zx.
  let [fx, fy, fz] = [0, 0, 0];
  let [sxx, syy, szz, sxy, syz, szx] = [0, 0, 0, 0, 0, 0];
  // Plain variables throughout: this is also run before it is compiled, when arrays and calls cost most.
  for (let i = 0; i < t.length; i += 3) {
    const a = 3 * t[i]!;
    const b = 3 * t[i + 1]!;
    const c = 3 * t[i + 2]!;
    const ax = p[a]! - ox;
    const ay = p[a + 1]! - oy;
    const az = p[a + 2]! - oz;
    const bx = p[b]! - ox;
    const by = p[b + 1]! - oy;
    const bz = p[b + 2]! - oz;
    const cx = p[c]! - ox;
    const cy = p[c + 1]! - oy;
    const cz = p[c + 2]! - oz;
    const nx = (by - ay) * (cz - az) - (bz - az) * (cy - ay);
    const ny = (bz - az) * (cx - ax) - (bx - ax) * (cz - az);
    const nz = (bx - ax) * (cy - ay) - (by - ay) * (cx - ax);
    area2 += Math.sqrt(nx * nx + ny * ny + nz * nz);
    const det = ax * nx + ay * ny + az * nz;
    vol6 += det;
    const sx = ax + bx + cx;
    const sy = ay + by + cy;
    const sz = az + bz + cz;
    fx += det * sx;
    fy += det * sy;
    fz += det * sz;
    // ∫ x_j x_k over a tetrahedron with one corner at the origin = det/120 (Σ s_j s_k + Σ corner products)
    sxx += det * (sx * sx + ax * ax + bx * bx + cx * cx);
    syy += det * (sy * sy + ay * ay + by * by + cy * cy);
    szz += det * (sz * sz + az * az + bz * bz + cz * cz);
    sxy += det * (sx * sy + ax * ay + bx * by + cx * cy);
    syz += det * (sy * sz + ay * az + by * bz + cy * cz);
    szx += det * (sz * sx + az * ax + bz * bx + cz * cx);
  }
  const volume = vol6 / 6;
  const [gx, gy, gz] = vol6 === 0 ? [0, 0, 0] : [fx / (4 * vol6), fy / (4 * vol6), fz / (4 * vol6)];
  const xx = sxx / 120 - volume * gx * gx;
  const yy = syy / 120 - volume * gy * gy;
  const zz = szz / 120 - volume * gz * gz;
  const xy = sxy / 120 - volume * gx * gy;
  const yz = syz / 120 - volume * gy * gz;
  const zx = szx / 120 - volume * gz * gx;
  return {
    volume,
    area: area2 / 2,
    centroid: [gx + ox, gy + oy, gz + oz],
    inertia: [yy + zz, zz + xx, xx + yy, 0 - xy, 0 - yz, 0 - zx],
  };
}

function boxCentre(mesh: Mesh): Vec3 {
  const box = measureBounds(mesh);
  if (!box) return [0, 0, 0];
  const { min, max } = box;
  return [(min[0] + max[0]) / 2, (min[1] + max[1]) / 2, (min[2] + max[2]) / 2];
}
