import { maths } from '../../maths/maths.js';
import { cross, dot, lengthOf, minus } from '../../shape/vector.js';
import type { Mesh, Vec3 } from '../../solid/types.js';
import { middleOfHalf, pointOf } from './boundary-loops.js';
import { type MeshEdges, nextHalf, oppositeHalf, triangleOf } from './mesh-edges.js';

/** Edges at which metal runs out to nothing. */
export interface KnifeEdges {
  readonly edges: number;
  /** Of all together, mm. */
  readonly length: number;
  /** The sharpest: between its faces, radians. */
  readonly angle: number;
  /** Middle of the longest, mm. */
  readonly at: Vec3;
}

/** Sharper than this does not fill and burns in printing: common practice, no source. */
export const sharpestEdge = Math.PI / 9;

/** Triangles lower than this over the edge, mm, are crumbs of the meshing: their direction says nothing. */
const leastHeight = 0.02;

/** Outer edges sharper than `sharpest`, radians, of a mesh whose triangles run one way; null for none. */
export function findKnifeEdges(mesh: Mesh, edges: MeshEdges, sharpest = sharpestEdge): KnifeEdges | null {
  const t = mesh.triangles;
  const folded = -maths.cos(sharpest);
  let found: { edges: number; length: number; angle: number; at: Vec3 } | null = null;
  let longest = 0;
  for (let half = 0; half < t.length; half++) {
    const other = oppositeHalf(edges, half);
    if (other < half || t[half] === t[other]) continue;
    const a = pointOf(mesh, t[half]!);
    const edge = minus(pointOf(mesh, t[nextHalf(half)]!), a);
    const d = pointOf(mesh, t[nextHalf(nextHalf(other))]!);
    const normal = normalOf(mesh, triangleOf(half));
    const across = normalOf(mesh, triangleOf(other));
    const [size, otherSize, length] = [lengthOf(normal), lengthOf(across), lengthOf(edge)];
    const cosine = dot(normal, across) / (size * otherSize);
    if (!(cosine < folded) || Math.min(size, otherSize) < leastHeight * length) continue;
    // Outer: the other triangle leans back under this one.
    if (dot(normal, minus(d, a)) >= 0) continue;
    const angle = Math.PI - maths.acos(Math.max(-1, cosine));
    found ??= { edges: 0, length: 0, angle, at: middleOfHalf(mesh, half) };
    found.edges++;
    found.length += length;
    found.angle = Math.min(found.angle, angle);
    if (length > longest) {
      longest = length;
      found.at = middleOfHalf(mesh, half);
    }
  }
  return found;
}

/** Square to a triangle, twice its area long. */
function normalOf(mesh: Mesh, f: number): Vec3 {
  const [a, b, c] = [0, 1, 2].map((k) => pointOf(mesh, mesh.triangles[3 * f + k]!)) as [Vec3, Vec3, Vec3];
  return cross(minus(b, a), minus(c, a));
}
