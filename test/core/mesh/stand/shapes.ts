/** Shapes with known answers, and turns that share no code with what is tested. */
import fc from 'fast-check';
import type { Mesh, Vec3 } from '../../../../core/solid/types.js';

export type Matrix = readonly [Vec3, Vec3, Vec3];

/** A turn from four numbers, as a unit quaternion. */
export const turnFrom = ([a, b, c, d]: readonly [number, number, number, number]): Matrix => {
  const n = Math.hypot(a, b, c, d);
  const [w, x, y, z] = [a / n, b / n, c / n, d / n];
  return [
    [1 - 2 * (y * y + z * z), 2 * (x * y - w * z), 2 * (x * z + w * y)],
    [2 * (x * y + w * z), 1 - 2 * (x * x + z * z), 2 * (y * z - w * x)],
    [2 * (x * z - w * y), 2 * (y * z + w * x), 1 - 2 * (x * x + y * y)],
  ];
};

const part = fc.double({ min: -1, max: 1, noNaN: true });
export const anyTurn: fc.Arbitrary<Matrix> = fc
  .tuple(part, part, part, part)
  .filter((q) => Math.hypot(...q) > 0.1)
  .map(turnFrom);

export const apply = (m: Matrix, p: Vec3): Vec3 =>
  m.map((r) => r[0] * p[0] + r[1] * p[1] + r[2] * p[2]) as unknown as Vec3;

export const turned = (mesh: Mesh, m: Matrix): Mesh => {
  const positions = new Float32Array(mesh.positions.length);
  for (let i = 0; i < positions.length; i += 3)
    positions.set(apply(m, [mesh.positions[i]!, mesh.positions[i + 1]!, mesh.positions[i + 2]!]), i);
  return { positions, triangles: mesh.triangles };
};

export const angleBetween = (a: Vec3, b: Vec3): number =>
  Math.acos(Math.max(-1, Math.min(1, a[0] * b[0] + a[1] * b[1] + a[2] * b[2])));

export const degree = Math.PI / 180;
