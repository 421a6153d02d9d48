import { RayTree } from '../../shape/ray-tree.js';
import { along, dot, plus, times } from '../../shape/vector.js';
import type { Mesh, Vec3 } from '../../solid/types.js';
import { across } from './cylinder-fit.js';
import type { Cylinder } from './surface.js';

/**
 * Whether a hole is open at both ends: from its middle, rays just within its wall run out past each end, where a floor or
 * a drill's cone would stop them. `null` where both ends are shut.
 */
export function isThrough(
  mesh: Mesh,
  { point, direction, radius }: Cylinder,
  [from, to]: readonly [number, number],
): boolean | null {
  const [u, v] = across(direction);
  const middle = along(point, direction, (from + to) / 2 - dot(point, direction));
  const most = (to - from) / 2 + 1.2 * radius;
  const near = triangleNear(mesh, point, [u, v], radius);
  if (near.triangles.length === 0) return true;
  // Pieces are for long triangles among many; these are few.
  const tree = new RayTree(near, 1e6);
  const [up, down] = [1, -1].map((sign) => {
    const stopped = sixths.filter(([c, s]) => {
      const aside: Vec3 = plus(times(u, 0.9 * radius * c), times(v, 0.9 * radius * s));
      return tree.first(plus(middle, aside), times(direction, sign), most, -1) !== null;
    });
    return stopped.length > sixths.length / 2;
  });
  return up && down ? null : !up && !down;
}

/** The triangles that reach into the square about a line, `radius` to each side. */
function triangleNear(
  { positions: p, triangles: t }: Mesh,
  point: Vec3,
  axes: readonly [Vec3, Vec3],
  radius: number,
): Mesh {
  const kept: number[] = [];
  for (let f = 0; f < t.length; f += 3) {
    let reaches = true;
    for (const [x, y, z] of axes) {
      const middle = x * point[0] + y * point[1] + z * point[2];
      let [least, most] = [Infinity, -Infinity];
      for (let h = f; h < f + 3; h++) {
        const i = 3 * t[h]!;
        const at = p[i]! * x + p[i + 1]! * y + p[i + 2]! * z - middle;
        if (at < least) least = at;
        if (at > most) most = at;
      }
      reaches &&= least < radius && most > -radius;
    }
    if (reaches) kept.push(t[f]!, t[f + 1]!, t[f + 2]!);
  }
  return { positions: p, triangles: Uint32Array.from(kept) };
}

/** Directions a sixth of a turn apart, turned by 17°-odd so that no ray runs along an edge of an even mesh. */
const sixths = [0, 1, 2, 3, 4, 5].map((i) => {
  const [c, s] = [0.9553, 0.2957];
  const turn = [
    [1, 0],
    [0.5, 0.866],
    [-0.5, 0.866],
    [-1, 0],
    [-0.5, -0.866],
    [0.5, -0.866],
  ][i]!;
  return [c * turn[0]! - s * turn[1]!, s * turn[0]! + c * turn[1]!] as const;
});
