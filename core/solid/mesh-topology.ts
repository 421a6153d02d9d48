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
  const vertexCount = mesh.positions.length / 3;
  const edges = new EdgeTable(t.length);
  for (let f = 0; f < t.length; f += 3) {
    if (isCollapsed(t, f)) continue;
    for (let k = 0; k < 3; k++) edges.add(t, f + k);
  }

  let openEdges = 0;
  let misorientedEdges = 0;
  let badEdges = 0;
  const corners = new DisjointSets(t.length);
  const faces = new DisjointSets(t.length / 3);
  for (let e = 0; e < edges.count; e++) {
    const forward = edges.forward[e]!;
    const backward = edges.backward[e]!;
    if ((forward + backward) % 2 === 1) openEdges++;
    else if (forward !== backward) misorientedEdges++;
    if (forward !== 1 || backward !== 1) badEdges += forward + backward;
  }
  for (let f = 0; f < t.length; f += 3) {
    if (isCollapsed(t, f)) continue;
    for (let k = 0; k < 3; k++) {
      const half = f + k;
      const e = edges.edgeOf[half]!;
      const first = edges.firstHalf[e]!;
      if (first === half) continue;
      faces.join(Math.floor(first / 3), Math.floor(half / 3));
      if (edges.forward[e] !== 1 || edges.backward[e] !== 1) continue;
      // The two corners at each end of a good edge belong to one fan.
      corners.join(half, nextCorner(first));
      corners.join(nextCorner(half), first);
    }
  }

  const shellOf = new Int32Array(t.length / 3).fill(-1);
  const shells = new Map<number, number>();
  const used = new Uint8Array(vertexCount);
  let usedVertices = 0;
  let fans = 0;
  let faceCount = 0;
  for (let f = 0; f < t.length; f += 3) {
    if (isCollapsed(t, f)) continue;
    faceCount++;
    const root = faces.find(f / 3);
    let shell = shells.get(root);
    if (shell === undefined) {
      shell = shells.size;
      shells.set(root, shell);
    }
    shellOf[f / 3] = shell;
    for (let k = 0; k < 3; k++) {
      if (corners.find(f + k) === f + k) fans++;
      if (used[t[f + k]!] === 0) {
        used[t[f + k]!] = 1;
        usedVertices++;
      }
    }
  }
  const components = shells.size;
  // Euler's formula with a vertex for each fan: V − E + F = 2 (components − genus).
  const genus = badEdges > 0 ? null : components - (fans - edges.count + faceCount) / 2;
  return {
    openEdges,
    misorientedEdges,
    badEdges,
    // Round a bad edge a fan falls apart without a pinch; count only when the edges are good.
    pinchedVertices: badEdges > 0 ? 0 : fans - usedVertices,
    components,
    shellOf,
    genus,
  };
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

/** The corner after this one in its triangle. */
const nextCorner = (corner: number): number => (corner % 3 === 2 ? corner - 2 : corner + 1);

/** Undirected edges by open addressing, with how often each direction is used. A half-edge is named by its corner. */
class EdgeTable {
  count = 0;
  readonly forward: Uint32Array;
  readonly backward: Uint32Array;
  readonly firstHalf: Uint32Array;
  /** Edge of each half-edge. */
  readonly edgeOf: Uint32Array;
  readonly #low: Uint32Array;
  readonly #high: Uint32Array;
  readonly #slots: Int32Array;

  constructor(halfEdges: number) {
    let size = 16;
    while (size < 2 * halfEdges) size *= 2;
    this.#slots = new Int32Array(size).fill(-1);
    this.forward = new Uint32Array(halfEdges);
    this.backward = new Uint32Array(halfEdges);
    this.firstHalf = new Uint32Array(halfEdges);
    this.edgeOf = new Uint32Array(halfEdges);
    this.#low = new Uint32Array(halfEdges);
    this.#high = new Uint32Array(halfEdges);
  }

  add(t: Uint32Array, half: number): void {
    const from = t[half]!;
    const to = t[nextCorner(half)]!;
    // biome-ignore lint/complexity/useMathMinMax: plain comparison, in the hottest loop
    const low = from < to ? from : to;
    const high = from + to - low;
    const mask = this.#slots.length - 1;
    let h = Math.imul(low, 0x9e3779b1) ^ Math.imul(high, 0x85ebca6b);
    h ^= h >>> 15;
    h = Math.imul(h, 0x2c1b3c6d);
    let slot = (h ^ (h >>> 13)) & mask;
    let e = this.#slots[slot]!;
    while (e >= 0 && (this.#low[e] !== low || this.#high[e] !== high)) {
      slot = (slot + 1) & mask;
      e = this.#slots[slot]!;
    }
    if (e < 0) {
      e = this.count++;
      this.#slots[slot] = e;
      this.#low[e] = low;
      this.#high[e] = high;
      this.firstHalf[e] = half;
    }
    this.edgeOf[half] = e;
    if (from === low) this.forward[e]!++;
    else this.backward[e]!++;
  }
}
