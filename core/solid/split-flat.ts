import { maths } from '../maths/maths.js';
import { isFlat } from './triangle-crossing.js';
import type { Mesh } from './types.js';

/**
 * Removes triangles whose three corners lie exactly on one line: the middle corner is given to the neighbour
 * across the longest edge, which it splits in two. The surface does not move and stays closed. A triangle
 * whose neighbour is flat too is left for another round; what cannot be split is left as it is.
 */
export function splitFlatTriangles(mesh: Mesh): Mesh {
  const p = Float64Array.from(mesh.positions);
  const t = mesh.triangles.slice();
  for (let round = 0; round < 8; round++) {
    const flat = flatTriangles(p, t);
    if (flat.length === 0) break;
    const halfEdges = indexHalfEdges(t);
    const touched = new Set<number>();
    for (const f of flat) split(p, t, f, halfEdges, touched);
    if (touched.size === 0) break;
  }
  return { positions: mesh.positions, triangles: t };
}

function flatTriangles(p: Float64Array, t: Uint32Array): number[] {
  const flat: number[] = [];
  for (let i = 0; i < t.length / 3; i++) if (isFlat({ p, t }, i)) flat.push(i);
  return flat;
}

/** Corner of each half-edge by its ends. */
function indexHalfEdges(t: Uint32Array): Map<string, number> {
  const index = new Map<string, number>();
  for (let f = 0; f < t.length; f += 3)
    for (let k = 0; k < 3; k++) index.set(`${t[f + k]},${t[f + ((k + 1) % 3)]}`, f + k);
  return index;
}

function split(
  p: Float64Array,
  t: Uint32Array,
  flat: number,
  halfEdges: ReadonlyMap<string, number>,
  touched: Set<number>,
): void {
  const k = longestEdge(p, t, flat);
  const [a, c, b] = [0, 1, 2].map((i) => t[3 * flat + ((k + i) % 3)]!) as [number, number, number];
  const opposite = halfEdges.get(`${c},${a}`);
  if (opposite === undefined) return;
  const neighbour = Math.floor(opposite / 3);
  const d = t[3 * neighbour + ((opposite + 2) % 3)]!;
  if (touched.has(flat) || touched.has(neighbour) || halfEdges.has(`${b},${d}`) || halfEdges.has(`${d},${b}`))
    return;
  // a c b (flat, b between) and c a d become a d b and d c b.
  t.set([a, d, b], 3 * flat);
  t.set([d, c, b], 3 * neighbour);
  touched.add(flat).add(neighbour);
}

function longestEdge(p: Float64Array, t: Uint32Array, f: number): number {
  const lengths = [0, 1, 2].map((k) => {
    const [u, v] = [3 * t[3 * f + k]!, 3 * t[3 * f + ((k + 1) % 3)]!];
    return maths.hypot(p[u]! - p[v]!, p[u + 1]! - p[v + 1]!, p[u + 2]! - p[v + 2]!);
  });
  return lengths.indexOf(Math.max(...lengths));
}
