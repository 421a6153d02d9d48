import { dropCollapsed, isCollapsed } from '../../solid/mesh-topology.js';
import type { ExactMesh, Mesh } from '../../solid/types.js';
import { weldMesh } from '../../solid/weld.js';

/** A mesh as it will be carried: float32, equal corners joined, without the triangles that thereby lost one. */
export interface RoundedMesh {
  readonly mesh: Mesh;
  /** Vertices that were joined to others. */
  readonly joined: number;
  /** Triangles left out. */
  readonly collapsed: number;
}

export function roundMesh({ positions, triangles }: ExactMesh | Mesh): RoundedMesh {
  const welded = weldMesh({ positions: Float32Array.from(positions), triangles });
  let collapsed = 0;
  for (let f = 0; f < triangles.length; f += 3) if (isCollapsed(welded.triangles, f)) collapsed++;
  const mesh = collapsed > 0 ? dropCollapsed(welded) : welded;
  return { mesh, joined: (positions.length - welded.positions.length) / 3, collapsed };
}
