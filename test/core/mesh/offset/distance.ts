import { BufferAttribute, BufferGeometry, Vector3 } from 'three';
import { MeshBVH } from 'three-mesh-bvh';
import type { Mesh } from '../../../../core/solid/types.js';

/** Greatest distance, mm, from corners, middles of edges and of triangles of one mesh to another, at some radii about Z. */
export function farthest(from: Mesh, to: Mesh, isAsked: (radius: number) => boolean = () => true): number {
  const geometry = new BufferGeometry();
  geometry.setAttribute('position', new BufferAttribute(to.positions.slice(), 3));
  geometry.setIndex(new BufferAttribute(to.triangles.slice(), 1));
  const tree = new MeshBVH(geometry);
  const { positions: p, triangles: t } = from;
  let most = 0;
  const q = new Vector3();
  for (let f = 0; f < t.length; f += 3)
    for (const weights of [
      [1, 0, 0],
      [0.5, 0.5, 0],
      [1 / 3, 1 / 3, 1 / 3],
    ]) {
      const at = [0, 1, 2].map((k) => weights.reduce((sum, w, i) => sum + w * p[3 * t[f + i]! + k]!, 0));
      q.set(at[0]!, at[1]!, at[2]!);
      if (!isAsked(Math.hypot(q.x, q.y))) continue;
      most = Math.max(most, tree.closestPointToPoint(q)?.distance ?? Number.POSITIVE_INFINITY);
    }
  return most;
}
