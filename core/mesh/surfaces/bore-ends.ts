import { RayTree } from '../../shape/ray-tree.js';
import { along, dot, plus, times } from '../../shape/vector.js';
import type { Mesh, Vec3 } from '../../solid/types.js';
import { across } from './cylinder-fit.js';
import type { Cylinder } from './surface.js';

const rays = 6;

/**
 * Whether a hole is open at both ends: from its middle, rays just within its wall run out past each end, where a floor or
 * a drill's cone would stop them. `null` where both ends are shut or the middle is not free.
 */
export class BoreEnds {
  readonly #tree: RayTree;

  constructor(mesh: Mesh, size: number) {
    this.#tree = new RayTree(mesh, Math.max(size, 1e-9));
  }

  isThrough({ point, direction, radius }: Cylinder, [from, to]: readonly [number, number]): boolean | null {
    const [u, v] = across(direction);
    const middle = along(point, direction, (from + to) / 2 - dot(point, direction));
    const half = (to - from) / 2;
    const blocked = [1, -1].map((sign) => {
      let stopped = 0;
      for (let i = 0; i < rays; i++) {
        const [c, s] = sixths[i]!;
        const aside: Vec3 = plus(times(u, 0.9 * radius * c), times(v, 0.9 * radius * s));
        const hit = this.#tree.first(plus(middle, aside), times(direction, sign), half + 1.2 * radius, -1);
        if (hit) stopped++;
      }
      return stopped > rays / 2;
    });
    if (blocked[0] && blocked[1]) return null;
    return !blocked[0] && !blocked[1];
  }
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
