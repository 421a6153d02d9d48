import { DisjointSets } from './disjoint-sets.js';
import type { Mesh } from './types.js';

/** How the triangles of a welded mesh hang together. */
export interface Topology {
  /** Edges that only one triangle uses (or an odd number). */
  readonly openEdges: number;
  /** Edges whose triangles run along it in the same direction. */
  readonly misorientedEdges: number;
  /** Directed edges without exactly one opposite. */
  readonly badEdges: number;
  /** Vertices where separate fans of triangles meet at a point. */
  readonly pinchedVertices: number;
  /** Shells: sets of triangles joined by edges. */
  readonly components: number;
  /** Shell of each triangle, 0 up; −1 for a triangle left out. */
  readonly shellOf: Int32Array;
  /** Handles, summed over the shells; null where bad edges leave it without meaning. */
  readonly genus: number | null;
}

/**
 * Topology of a mesh whose equal positions are already one vertex. Triangles with a repeated corner are left
 * out: they have no surface.
 */
export function measureTopology(mesh: Mesh): Topology {
  const { triangles: t } = mesh;
  const edges = new EdgeTable(t.length);
  let faceCount = 0;
  for (let f = 0; f < t.length; f += 3) {
    if (isCollapsed(t, f)) continue;
    faceCount++;
    edges.add(t[f]!, t[f + 1]!, f);
    edges.add(t[f + 1]!, t[f + 2]!, f + 1);
    edges.add(t[f + 2]!, t[f]!, f + 2);
  }

  let openEdges = 0;
  let misorientedEdges = 0;
  let badEdges = 0;
  for (let e = 0; e < edges.count; e++) {
    const forward = edges.forward[e]!;
    const backward = edges.backward[e]!;
    if ((forward + backward) % 2 === 1) openEdges++;
    else if (forward !== backward) misorientedEdges++;
    if (forward !== 1 || backward !== 1) badEdges += forward + backward;
  }

  const { components, shellOf } = findShells(t, edges);
  // Round a bad edge a fan falls apart without a pinch; count only when the edges are good.
  const { fans, vertices } =
    badEdges > 0 ? { fans: 0, vertices: 0 } : countFans(t, edges, mesh.positions.length / 3);
  // Euler's formula with a vertex for each fan: V − E + F = 2 (components − genus).
  const genus = badEdges > 0 ? null : components - (fans - edges.count + faceCount) / 2;
  return {
    openEdges,
    misorientedEdges,
    badEdges,
    pinchedVertices: fans - vertices,
    components,
    shellOf,
    genus,
  };
}

function findShells(
  t: Uint32Array,
  { edgeOf, firstHalf }: EdgeTable,
): Pick<Topology, 'components' | 'shellOf'> {
  const faces = new DisjointSets(t.length / 3);
  for (let f = 0, face = 0; f < t.length; f += 3, face++) {
    if (isCollapsed(t, f)) continue;
    for (let half = f; half < f + 3; half++) {
      const first = firstHalf[edgeOf[half]!]!;
      if (first !== half) faces.join(Math.floor(first / 3), face);
    }
  }
  const shellOf = new Int32Array(t.length / 3).fill(-1);
  let components = 0;
  /** Shell of the face that stands for a set. */
  const shells = new Int32Array(t.length / 3).fill(-1);
  for (let f = 0, face = 0; f < t.length; f += 3, face++) {
    if (isCollapsed(t, f)) continue;
    const root = faces.find(face);
    if (shells[root] === -1) shells[root] = components++;
    shellOf[face] = shells[root]!;
  }
  return { components, shellOf };
}

/** Fans of triangles round vertices, and vertices that have any. Every edge is good. */
function countFans(
  t: Uint32Array,
  edges: EdgeTable,
  vertexCount: number,
): { readonly fans: number; readonly vertices: number } {
  const isCounted = new Uint8Array(t.length);
  const isUsed = new Uint8Array(vertexCount);
  let fans = 0;
  let vertices = 0;
  for (let f = 0; f < t.length; f += 3) {
    if (isCollapsed(t, f)) continue;
    for (let corner = f; corner < f + 3; corner++) {
      if (isCounted[corner] === 1) continue;
      fans++;
      if (isUsed[t[corner]!] === 0) {
        isUsed[t[corner]!] = 1;
        vertices++;
      }
      // Round the vertex from edge to edge; the half-edge before a corner ends there.
      for (let at = corner; isCounted[at] === 0; at = edges.oppositeOf(at % 3 === 0 ? at + 2 : at - 1))
        isCounted[at] = 1;
    }
  }
  return { fans, vertices };
}

/** Whether the triangle starting at corner `f` names a vertex twice. */
export function isCollapsed(t: Uint32Array, f: number): boolean {
  return t[f] === t[f + 1] || t[f + 1] === t[f + 2] || t[f + 2] === t[f];
}

/** The mesh without its triangles that name a vertex twice. */
export function dropCollapsed({ positions, triangles }: Mesh): Mesh {
  const kept = new Uint32Array(triangles.length);
  let size = 0;
  for (let f = 0; f < triangles.length; f += 3) {
    if (isCollapsed(triangles, f)) continue;
    kept[size] = triangles[f]!;
    kept[size + 1] = triangles[f + 1]!;
    kept[size + 2] = triangles[f + 2]!;
    size += 3;
  }
  return { positions, triangles: kept.slice(0, size) };
}

/** Undirected edges, with how often each direction is used. A half-edge is named by the corner it starts from. */
class EdgeTable {
  count = 0;
  readonly forward: Uint32Array;
  readonly backward: Uint32Array;
  readonly firstHalf: Uint32Array;
  /** Edge of each half-edge. */
  readonly edgeOf: Uint32Array;
  readonly #lastHalf: Uint32Array;
  readonly #low: Uint32Array;
  readonly #high: Uint32Array;
  /** The last edge of each chain, or −1, and of each edge the one before it in its chain. */
  readonly #chains: Int32Array;
  readonly #before: Int32Array;

  constructor(halfEdges: number) {
    let size = 16;
    while (size < halfEdges) size *= 2;
    this.#chains = new Int32Array(size).fill(-1);
    this.#before = new Int32Array(halfEdges);
    this.forward = new Uint32Array(halfEdges);
    this.backward = new Uint32Array(halfEdges);
    this.firstHalf = new Uint32Array(halfEdges);
    this.#lastHalf = new Uint32Array(halfEdges);
    this.edgeOf = new Uint32Array(halfEdges);
    this.#low = new Uint32Array(halfEdges);
    this.#high = new Uint32Array(halfEdges);
  }

  add(from: number, to: number, half: number): void {
    // biome-ignore lint/complexity/useMathMinMax: plain comparison, in the hottest loop
    const low = from < to ? from : to;
    const high = from + to - low;
    // Neighbours are mostly numbered near each other, and so are their chains.
    const chain = (Math.imul(low, spread) + high) & (this.#chains.length - 1);
    let e = this.#chains[chain]!;
    while (e >= 0 && (this.#low[e] !== low || this.#high[e] !== high)) e = this.#before[e]!;
    if (e < 0) {
      e = this.count++;
      this.#before[e] = this.#chains[chain]!;
      this.#chains[chain] = e;
      this.#low[e] = low;
      this.#high[e] = high;
      this.firstHalf[e] = half;
    }
    this.edgeOf[half] = e;
    this.#lastHalf[e] = half;
    if (from === low) this.forward[e]!++;
    else this.backward[e]!++;
  }

  /** The other half of a good edge. */
  oppositeOf(half: number): number {
    const e = this.edgeOf[half]!;
    return this.firstHalf[e]! + this.#lastHalf[e]! - half;
  }
}

/** Edges from one vertex to several others that have numbers in a row do not share chains with the next vertex's. */
const spread = 7;
