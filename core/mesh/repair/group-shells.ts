import { DisjointSets } from '../../solid/disjoint-sets.js';
import { type MeshEdges, triangleOf, usesOf } from '../health/mesh-edges.js';
import { findPatches, type Patches } from '../health/patches.js';

export interface GroupedShells extends Pick<Patches, 'twistedAt'> {
  readonly shellOf: Int32Array;
  readonly count: number;
  /** Pairs of shells that have an edge in common, with a half-edge of it. */
  readonly touching: readonly { readonly shells: readonly [number, number]; readonly half: number }[];
}

/**
 * Shells of a mesh whose triangles run one way: patches, joined on over edges of four or more triangles where as many run
 * along the edge as against it. How those are paired does not matter: what is inside follows from the triangles alone.
 * A patch goes on in itself where it can, else the lowest numbers go together, so that pairs are the same all along.
 */
export function groupShells(t: Uint32Array, edges: MeshEdges): GroupedShells {
  const { patchOf, count, twistedAt } = findPatches(t, edges);
  const sets = new DisjointSets(count);
  const shared: number[] = [];
  for (let e = 0; e < edges.count; e++) if (usesOf(edges, e) > 2) shared.push(e);
  for (const e of shared)
    for (const [a, b] of pairPatches(t, edges, e, patchOf)) sets.join(Math.min(a, b), Math.max(a, b));
  const numbers = new Map<number, number>();
  const shellOf = patchOf.map((patch) => {
    const r = sets.find(patch);
    if (!numbers.has(r)) numbers.set(r, numbers.size);
    return numbers.get(r)!;
  });
  const touching = new Map<string, { shells: [number, number]; half: number }>();
  for (const e of shared) {
    const halves = [...edges.halves.subarray(edges.starts[e]!, edges.starts[e + 1]!)];
    const shells = [...new Set(halves.map((half) => shellOf[triangleOf(half)]!))].sort((a, b) => a - b);
    for (let i = 0; i < shells.length; i++)
      for (let j = i + 1; j < shells.length; j++)
        touching.set(`${shells[i]},${shells[j]}`, { shells: [shells[i]!, shells[j]!], half: halves[0]! });
  }
  return { shellOf, count: numbers.size, twistedAt, touching: [...touching.values()] };
}

/** The patches that go on into each other over an edge; none where more run one way along it than the other. */
function pairPatches(
  t: Uint32Array,
  edges: MeshEdges,
  e: number,
  patchOf: Int32Array,
): (readonly [number, number])[] {
  const halves = [...edges.halves.subarray(edges.starts[e]!, edges.starts[e + 1]!)];
  const from = t[halves[0]!]!;
  const patches = (way: boolean): number[] =>
    halves
      .filter((half) => (t[half] === from) === way)
      .map((half) => patchOf[triangleOf(half)]!)
      .sort((a, b) => a - b);
  const [along, against] = [patches(true), patches(false)];
  if (along.length !== against.length) return [];
  const rest = along.filter((patch) => {
    const at = against.indexOf(patch);
    if (at >= 0) against.splice(at, 1);
    return at < 0;
  });
  return rest.map((patch, i) => [patch, against[i]!]);
}
