import { type MeshEdges, nextHalf, oppositeHalf, usesOf } from './mesh-edges.js';

/** Vertices where fans of triangles touch at a point only. Those on edges without exactly two triangles do not count. */
export function findPinches(
  t: Uint32Array,
  edges: MeshEdges,
  vertices: number,
): { readonly count: number; readonly first: number } {
  const isBad = new Uint8Array(vertices);
  const corners = new Uint32Array(vertices);
  const start = new Int32Array(vertices).fill(-1);
  for (let half = 0; half < t.length; half++) {
    const v = t[half]!;
    corners[v]!++;
    if (start[v]! < 0) start[v] = half;
    if (usesOf(edges, edges.edgeOf[half]!) !== 2) {
      isBad[v] = 1;
      isBad[t[nextHalf(half)]!] = 1;
    }
  }
  let count = 0;
  let first = -1;
  for (let v = 0; v < vertices; v++) {
    if (isBad[v] || corners[v] === 0) continue;
    if (fanSize(t, edges, start[v]!, v, corners[v]!) === corners[v]) continue;
    count++;
    if (first < 0) first = v;
  }
  return { count, first };
}

/** Triangles met going once round a vertex. */
function fanSize(t: Uint32Array, edges: MeshEdges, start: number, v: number, most: number): number {
  let half = start;
  for (let size = 1; ; size++) {
    // `half` ends at v or leaves it: on to the same triangle's other edge at v, and over that.
    const next = nextHalf(half);
    const other = t[half] === v ? nextHalf(next) : next;
    half = oppositeHalf(edges, other);
    if (edges.edgeOf[half] === edges.edgeOf[start] || size > most) return size;
  }
}
