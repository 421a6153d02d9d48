import type { Manifold } from 'manifold-3d/manifold.js';
import type { Mesh } from './types.js';
import { weldMesh } from './weld.js';

/** The mesh of a manifold as float32 can carry it. */
export function cleanMesh(manifold: Manifold): Mesh {
  const { vertProperties, triVerts } = manifold.getMesh();
  return weldMesh({ positions: vertProperties, triangles: triVerts });
}
