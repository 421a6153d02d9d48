import { checkPositive, checkVec3 } from './check-input.js';
import type { Mesh, Vec3 } from './types.js';

/**
 * A mesh scaled about the origin, vertex by vertex: each coordinate times its factor in double precision,
 * rounded once to float32. This is how a pattern comes from its casting (growth × printer correction).
 *
 * @param factors x, y, z, each greater than 0 (a negative one would turn the mesh inside out).
 */
export function scaleMesh(mesh: Mesh, factors: Vec3): Mesh {
  checkVec3(factors, 'scale factor');
  for (const [i, factor] of factors.entries()) checkPositive(factor, `scale factor ${'xyz'[i]}`);
  const positions = mesh.positions.map((value, i) => value * factors[i % 3]!);
  return { positions, triangles: mesh.triangles.slice() };
}
