import { facePlane } from '../../solid/plane.js';
import type { Mesh, Vec3 } from '../../solid/types.js';
import { type MeshEdges, nextHalf, oppositeHalf, triangleOf, usesOf } from './mesh-edges.js';

/** Open edges one after the other about a hole, or about a sheet. */
export interface BoundaryLoop {
  /** Vertices in order, along the triangles' own direction where they run one way. */
  readonly vertices: readonly number[];
  /** Comes back to its start; no vertex is there twice. */
  readonly isSimple: boolean;
  /** A triangle beside it. */
  readonly triangle: number;
}

/** A hole in the surface, as a person would look for it. */
export interface MeshHole {
  readonly edges: number;
  /** Middle of its corners, mm. */
  readonly at: Vec3;
  /** Diagonal of its box, mm. */
  readonly across: number;
  /** All corners within a hundredth of its extent of one plane. */
  readonly flat: boolean;
}

/**
 * The loops that open edges make, walked round the fans of triangles at their corners. Holes that meet in a corner come
 * as one by that, and are parted there.
 */
export function boundaryLoops(t: Uint32Array, edges: MeshEdges): BoundaryLoop[] {
  const seen = new Uint8Array(edges.count);
  const loops: BoundaryLoop[] = [];
  for (let start = 0; start < t.length; start++) {
    if (usesOf(edges, edges.edgeOf[start]!) !== 1 || seen[edges.edgeOf[start]!]) continue;
    // The corner that each open edge begins at on this way round.
    const way: { vertex: number; half: number }[] = [];
    let half = start;
    let tail = t[start]!;
    for (let next = start; next >= 0 && !seen[edges.edgeOf[next]!]; ) {
      half = next;
      seen[edges.edgeOf[half]!] = 1;
      way.push({ vertex: tail, half });
      tail = t[half] === tail ? t[nextHalf(half)]! : t[half]!;
      next = nextOpen(t, edges, half, tail);
    }
    if (tail === way[0]!.vertex) loops.push(...partLoops(way));
    else loops.push({ vertices: way.map((w) => w.vertex), isSimple: false, triangle: triangleOf(start) });
  }
  return loops;
}

/** A closed way parted wherever it comes to a corner again. */
function partLoops(way: readonly { readonly vertex: number; readonly half: number }[]): BoundaryLoop[] {
  const loops: BoundaryLoop[] = [];
  const open: { vertex: number; half: number }[] = [];
  const placeOf = new Map<number, number>();
  const close = (from: number): void => {
    const part = open.splice(from);
    for (const { vertex } of part) placeOf.delete(vertex);
    loops.push({
      vertices: part.map((w) => w.vertex),
      isSimple: part.length > 2,
      triangle: triangleOf(part[0]!.half),
    });
  };
  for (const step of way) {
    const before = placeOf.get(step.vertex);
    if (before !== undefined) close(before);
    placeOf.set(step.vertex, open.length);
    open.push(step);
  }
  close(0);
  return loops;
}

/** From an open edge round the fan at `head`, one of its ends, to the fan's other open edge; −1 for none. */
function nextOpen(t: Uint32Array, edges: MeshEdges, open: number, head: number): number {
  let half = open;
  for (let steps = 0; steps < t.length; steps++) {
    const other = otherHalfAt(t, half, head);
    const uses = usesOf(edges, edges.edgeOf[other]!);
    if (uses === 1) return other;
    if (uses > 2) return -1;
    half = oppositeHalf(edges, other);
  }
  return -1;
}

/** The half-edge of the same triangle that also ends at the vertex. */
function otherHalfAt(t: Uint32Array, half: number, vertex: number): number {
  const next = nextHalf(half);
  return t[next] === vertex ? next : nextHalf(next);
}

export function measureHole(mesh: Mesh, { vertices }: Pick<BoundaryLoop, 'vertices'>): MeshHole {
  const points = vertices.map((v) => pointOf(mesh, v));
  const plane = points.length > 2 ? facePlane(points) : null;
  const min = [0, 1, 2].map((k) => points.reduce((least, p) => Math.min(least, p[k]!), Infinity));
  const max = [0, 1, 2].map((k) => points.reduce((most, p) => Math.max(most, p[k]!), -Infinity));
  const sides = max.map((v, k) => v - min[k]!);
  const mean = (k: number): number => points.reduce((sum, p) => sum + p[k]!, 0) / points.length;
  return {
    edges: points.length,
    at: [mean(0), mean(1), mean(2)],
    across: Math.sqrt(sides.reduce((sum, s) => sum + s * s, 0)),
    flat: plane !== null && plane.deviation <= 0.01 * plane.extent,
  };
}

export function pointOf({ positions: p }: Pick<Mesh, 'positions'>, vertex: number): Vec3 {
  return [p[3 * vertex]!, p[3 * vertex + 1]!, p[3 * vertex + 2]!];
}

/** The middle of a triangle, mm. */
export function middleOf(mesh: Mesh, triangle: number): Vec3 {
  const [a, b, c] = [0, 1, 2].map((k) => pointOf(mesh, mesh.triangles[3 * triangle + k]!));
  return [(a![0] + b![0] + c![0]) / 3, (a![1] + b![1] + c![1]) / 3, (a![2] + b![2] + c![2]) / 3];
}

/** The middle of a half-edge, mm. */
export function middleOfHalf(mesh: Mesh, half: number): Vec3 {
  const [a, b] = [pointOf(mesh, mesh.triangles[half]!), pointOf(mesh, mesh.triangles[nextHalf(half)]!)];
  return [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2, (a[2] + b[2]) / 2];
}
