import { cross, dot } from '../../shape/vector.js';
import type { MassProperties, Mesh, Vec3 } from '../../solid/types.js';

/**
 * The principal axes of a part, right-handed, that of the least inertia first; each points to where its surface reaches
 * farther (third moment of the vertices), so that they turn with the part. Cyclic Jacobi rotations.
 */
export function inertiaAxes(
  { positions: p }: Mesh,
  { inertia, centroid }: MassProperties,
): readonly [Vec3, Vec3, Vec3] {
  const [xx, yy, zz, xy, yz, zx] = inertia;
  const a = [
    [xx, xy, zx],
    [xy, yy, yz],
    [zx, yz, zz],
  ];
  const v = [
    [1, 0, 0],
    [0, 1, 0],
    [0, 0, 1],
  ];
  for (let sweep = 0; sweep < 30; sweep++)
    for (const [i, j] of [
      [0, 1],
      [0, 2],
      [1, 2],
    ] as const) {
      const off = a[i]![j]!;
      if (Math.abs(off) < 1e-14 * (Math.abs(a[i]![i]!) + Math.abs(a[j]![j]!))) continue;
      const theta = (a[j]![j]! - a[i]![i]!) / (2 * off);
      const t = (theta < 0 ? -1 : 1) / (Math.abs(theta) + Math.sqrt(theta * theta + 1));
      const c = 1 / Math.sqrt(t * t + 1);
      const s = t * c;
      for (let k = 0; k < 3; k++) {
        const [ki, kj] = [a[k]![i]!, a[k]![j]!];
        a[k]![i] = c * ki - s * kj;
        a[k]![j] = s * ki + c * kj;
      }
      for (let k = 0; k < 3; k++) {
        const [ik, jk] = [a[i]![k]!, a[j]![k]!];
        a[i]![k] = c * ik - s * jk;
        a[j]![k] = s * ik + c * jk;
      }
      for (let k = 0; k < 3; k++) {
        const [ki, kj] = [v[k]![i]!, v[k]![j]!];
        v[k]![i] = c * ki - s * kj;
        v[k]![j] = s * ki + c * kj;
      }
    }
  const column = (i: number): Vec3 => [v[0]![i]!, v[1]![i]!, v[2]![i]!];
  const order = [0, 1, 2].sort((i, j) => a[i]![i]! - a[j]![j]!);
  const pointed = (axis: Vec3): Vec3 => {
    let third = 0;
    for (let i = 0; i < p.length; i += 3) {
      const h = dot(axis, [p[i]! - centroid[0], p[i + 1]! - centroid[1], p[i + 2]! - centroid[2]]);
      third += h * h * h;
    }
    return third < 0 ? [-axis[0], -axis[1], -axis[2]] : axis;
  };
  const first = pointed(column(order[0]!));
  const second = pointed(column(order[1]!));
  return [first, second, cross(first, second)];
}
