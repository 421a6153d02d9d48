import { BufferAttribute, BufferGeometry, Vector3 } from 'three';
import { MeshBVH } from 'three-mesh-bvh';
import type { Mesh, Vec3 } from '../../core/solid/types.js';

const vertexOf = ({ positions: p }: Pick<Mesh, 'positions'>, v: number): Vec3 => [
  p[3 * v]!,
  p[3 * v + 1]!,
  p[3 * v + 2]!,
];

/** Greatest distance from an exact surface, of a mesh's vertices and of places on its triangles' edges and inside them, mm. */
export function strayFrom(
  mesh: { readonly positions: Float32Array | Float64Array; readonly triangles: Uint32Array },
  off: (x: number, y: number, z: number) => number,
): { readonly vertex: number; readonly face: number } {
  const at = (v: number): Vec3 => vertexOf(mesh as Mesh, v);
  let [vertex, face] = [0, 0];
  for (let v = 0; v < mesh.positions.length / 3; v++) vertex = Math.max(vertex, Math.abs(off(...at(v))));
  for (let f = 0; f < mesh.triangles.length; f += 3) {
    const corners = [0, 1, 2].map((k) => at(mesh.triangles[f + k]!));
    for (const weights of [
      [1 / 3, 1 / 3, 1 / 3],
      [0.5, 0.5, 0],
      [0, 0.5, 0.5],
      [0.5, 0, 0.5],
      [0.25, 0.75, 0],
      [0, 0.25, 0.75],
      [0.75, 0, 0.25],
    ]) {
      const [x, y, z] = [0, 1, 2].map((k) => weights.reduce((s, w, i) => s + w * corners[i]![k]!, 0));
      face = Math.max(face, Math.abs(off(x!, y!, z!)));
    }
  }
  return { vertex, face };
}

/** Least and greatest distance of the chosen vertices of one mesh from the surface of another, mm; by an independent tree. */
export function apart(
  from: Mesh,
  to: Mesh,
  choose: (at: Vec3) => boolean = () => true,
): { readonly least: number; readonly most: number } {
  const geometry = new BufferGeometry();
  geometry.setAttribute('position', new BufferAttribute(to.positions, 3));
  geometry.setIndex(new BufferAttribute(to.triangles.slice(), 1));
  const tree = new MeshBVH(geometry);
  let [least, most] = [Number.POSITIVE_INFINITY, 0];
  for (let v = 0; v < from.positions.length / 3; v++) {
    const at = vertexOf(from, v);
    if (!choose(at)) continue;
    const distance = tree.closestPointToPoint(new Vector3(...at))!.distance;
    least = Math.min(least, distance);
    most = Math.max(most, distance);
  }
  return { least, most };
}
