import { maths } from '../../maths/maths.js';
import { DisjointSets } from '../../solid/disjoint-sets.js';
import type { Mesh } from '../../solid/types.js';
import { smoothNormals } from '../render/smooth-normals.js';

/** The edges of a mesh that a drawing may show. */
export interface MeshEdges {
  /** Pairs of vertices: edges of the shape itself, seen from anywhere. */
  readonly creases: readonly (readonly [number, number])[];
  /** Pairs of vertices with the two faces beside them: seen where one face looks to the eye and the other away. */
  readonly smooth: readonly (readonly [number, number, number, number])[];
  /** Unit normals, x, y, z a triangle. */
  readonly normals: Float32Array;
}

/** Sharper than this is an edge whatever its size, rad. */
const surelySharp = (50 / 180) * Math.PI;
/** Triangles that bend less than this lie in one plane, rad. */
const flat = 5e-4;
/** Facets of a curve err from it by at most the mesh tolerance; a little more is given. */
const reserve = 1.5;

/**
 * Tells the edges of the shape from those between facets of a curved surface. A bend by θ between facets of width
 * w is what a curve sampled with a chord error of w θ / 8 would show: an edge is part of the shape where that is
 * more than the mesh was made to.
 * @param tolerance chord tolerance of the mesh, mm
 */
export function findMeshEdges(mesh: Mesh, tolerance: number): MeshEdges {
  const { faces: normals, twins } = smoothNormals(mesh);
  const t = mesh.triangles;
  const count = t.length / 3;
  const faces = new DisjointSets(count);
  const faceOf = (triangle: number): number => faces.find(triangle);
  const bends = new Float32Array(t.length);
  for (let h = 0; h < t.length; h++) {
    const twin = twins[h]!;
    if (twin < h) continue;
    const f = h - (h % 3);
    const g = twin - (twin % 3);
    const cos =
      normals[f]! * normals[g]! + normals[f + 1]! * normals[g + 1]! + normals[f + 2]! * normals[g + 2]!;
    bends[h] = maths.acos(Math.max(-1, Math.min(1, cos)));
    if (bends[h]! < flat) faces.join(g / 3, f / 3);
  }
  const corners = cornersOfFaces(mesh, faceOf);
  const creases: [number, number][] = [];
  const smooth: [number, number, number, number][] = [];
  for (let h = 0; h < t.length; h++) {
    const twin = twins[h]!;
    const [a, b] = [t[h]!, t[h % 3 === 2 ? h - 2 : h + 1]!];
    if (twin < 0) {
      creases.push([a, b]);
      continue;
    }
    const bend = bends[h]!;
    if (twin < h || bend < flat) continue;
    const [f, g] = [Math.floor(h / 3), Math.floor(twin / 3)];
    const least = (8 * reserve * tolerance) / bend;
    const isWide = (face: number): boolean => isWider(mesh, corners(faceOf(face)), a, b, least);
    if (bend > surelySharp || (isWide(f) && isWide(g))) {
      creases.push([a, b]);
    } else smooth.push([a, b, f, g]);
  }
  return { creases, smooth, normals };
}

/** The vertices of each plane face, gathered once. */
function cornersOfFaces({ triangles: t }: Mesh, faceOf: (triangle: number) => number) {
  const lists = new Map<number, number[]>();
  for (let i = 0; i < t.length / 3; i++) {
    const face = faceOf(i);
    const list = lists.get(face);
    if (list) list.push(t[3 * i]!, t[3 * i + 1]!, t[3 * i + 2]!);
    else lists.set(face, [t[3 * i]!, t[3 * i + 1]!, t[3 * i + 2]!]);
  }
  return (face: number): readonly number[] => lists.get(face) ?? [];
}

/** Whether any of some vertices lies farther than `least` from the line through two others, mm. */
function isWider(
  { positions: p }: Mesh,
  vertices: readonly number[],
  a: number,
  b: number,
  least: number,
): boolean {
  const [ax, ay, az] = [p[3 * a]!, p[3 * a + 1]!, p[3 * a + 2]!];
  const [dx, dy, dz] = [p[3 * b]! - ax, p[3 * b + 1]! - ay, p[3 * b + 2]! - az];
  const limit = least * least * (dx * dx + dy * dy + dz * dz);
  for (const v of vertices) {
    const [x, y, z] = [p[3 * v]! - ax, p[3 * v + 1]! - ay, p[3 * v + 2]! - az];
    const [cx, cy, cz] = [y * dz - z * dy, z * dx - x * dz, x * dy - y * dx];
    if (cx * cx + cy * cy + cz * cz > limit) return true;
  }
  return false;
}
