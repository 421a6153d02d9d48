import { along, distanceOf, dot, lengthOf, minus } from '../../shape/vector.js';
import type { Mesh, Vec3 } from '../../solid/types.js';
import { pointOf } from '../health/boundary-loops.js';
import { type MeshEdges, meshEdges, nextHalf, triangleOf, usesOf } from '../health/mesh-edges.js';
import { counted, near } from '../health/remark.js';
import { joiningReach } from './reach.js';
import { remark, type Step } from './step.js';

/** Looking further would take too long: a mesh with so many open edges is not cracked but in pieces. */
const mostLooks = 2e7;

/**
 * Closes cracks without width, where corners of one side lie on a longer edge of the other: that edge's triangle is
 * split at them. Only where every part of a split edge thereby finds its neighbour.
 */
export function stitchCracks(mesh: Mesh): Step {
  const edges = meshEdges(mesh.triangles);
  const splits = findSplits(mesh, edges, joiningReach(mesh));
  let size = -1;
  while (splits.size > 0 && splits.size !== size) {
    size = splits.size;
    const trial = meshEdges(splitEdges(mesh, splits));
    for (const [half, between] of splits) {
      const [a, b] = [mesh.triangles[half]!, mesh.triangles[nextHalf(half)]!];
      const chain = [a, ...between, b];
      const isClosed = chain.every(
        (v, i) => i === 0 || usesOf(trial, Math.max(0, trial.find(chain[i - 1]!, v))) === 2,
      );
      if (!isClosed) splits.delete(half);
    }
  }
  if (splits.size === 0) return { mesh, done: null };
  const [first] = splits.values();
  const at = pointOf(mesh, first![0]!);
  return {
    mesh: { positions: mesh.positions, triangles: splitEdges(mesh, splits) },
    done: remark(
      'cracks-stitched',
      splits.size,
      `${counted(splits.size, 'crack', 'cracks')} without width, where corners lay on the middle of an edge, ${splits.size === 1 ? 'was' : 'were'} stitched, the first ${near(at)}.`,
      at,
    ),
  };
}

/** For open half-edges the open corners that lie on them, in order. */
function findSplits(mesh: Mesh, edges: MeshEdges, reach: number): Map<number, number[]> {
  const t = mesh.triangles;
  const open: number[] = [];
  for (let half = 0; half < t.length; half++) if (usesOf(edges, edges.edgeOf[half]!) === 1) open.push(half);
  const corners = [...new Set(open.flatMap((half) => [t[half]!, t[nextHalf(half)]!]))];
  const sorted = [0, 1, 2].map((k) => {
    const list = corners.map((v) => ({ v, key: mesh.positions[3 * v + k]! }));
    return list.sort((a, b) => a.key - b.key || a.v - b.v);
  });
  const splits = new Map<number, number[]>();
  let looks = 0;
  for (const half of open) {
    const [a, b] = [t[half]!, t[nextHalf(half)]!];
    const [from, to] = [pointOf(mesh, a), pointOf(mesh, b)];
    const sides = minus(to, from).map(Math.abs);
    // Along the axis in which the edge is shortest, the fewest corners come into question.
    const k = sides.indexOf(Math.min(...sides));
    const list = sorted[k]!;
    const [least, most] = [Math.min(from[k]!, to[k]!) - reach, Math.max(from[k]!, to[k]!) + reach];
    const found: { v: number; share: number }[] = [];
    for (let i = firstFrom(list, least); i < list.length && list[i]!.key <= most; i++) {
      if (++looks > mostLooks) return new Map();
      const { v } = list[i]!;
      if (v === a || v === b) continue;
      const share = shareAlong(from, to, pointOf(mesh, v), reach);
      if (share !== null) found.push({ v, share });
    }
    // A corner opposite is no corner between: the triangle would collapse.
    if (found.length > 0 && !found.some(({ v }) => v === t[nextHalf(nextHalf(half))]))
      splits.set(
        half,
        found.sort((x, y) => x.share - y.share).map(({ v }) => v),
      );
  }
  return splits;
}

function firstFrom(list: readonly { readonly key: number }[], least: number): number {
  let [low, high] = [0, list.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if (list[middle]!.key < least) low = middle + 1;
    else high = middle;
  }
  return low;
}

/** Where along a line a point lies on it, clear of its ends; null where it does not. */
function shareAlong(from: Vec3, to: Vec3, point: Vec3, reach: number): number | null {
  const line = minus(to, from);
  const length = lengthOf(line);
  const share = dot(minus(point, from), line) / (length * length);
  if (!(share * length > reach && (1 - share) * length > reach)) return null;
  return distanceOf(point, along(from, line, share)) <= reach ? share : null;
}

/** The triangles with those whose edges are split cut into fans; one triangle may have several such edges. */
function splitEdges(mesh: Mesh, splits: ReadonlyMap<number, readonly number[]>): Uint32Array {
  const t = mesh.triangles;
  const touched = new Set([...splits.keys()].map(triangleOf));
  const made: number[] = [];
  for (let f = 0; f < t.length / 3; f++) {
    if (!touched.has(f)) {
      made.push(t[3 * f]!, t[3 * f + 1]!, t[3 * f + 2]!);
      continue;
    }
    made.push(...cutTriangle([0, 1, 2].map((k) => [t[3 * f + k]!, ...(splits.get(3 * f + k) ?? [])])));
  }
  return Uint32Array.from(made);
}

/** A triangle whose sides, each without its last corner, have corners between, as triangles with area. */
function cutTriangle(sides: readonly (readonly number[])[]): number[] {
  // The fullest side comes first: its corners are seen from the one opposite; what stays of the others are fans too.
  const k = [0, 1, 2].sort((i, j) => sides[j]!.length - sides[i]!.length || i - j)[0]!;
  const [first, second, third] = [sides[k]!, sides[(k + 1) % 3]!, sides[(k + 2) % 3]!];
  const [a, b, c] = [first[0]!, second[0]!, third[0]!];
  const made: number[] = [];
  const base = [...first, b];
  const toC = [...second.slice(1)];
  const fromC = [...third.slice(1)];
  // Fan about c over the inner part of the base; at its ends, fans about the base's corners take the other sides.
  const ends = base.length > 2 ? { from: base[1]!, to: base.at(-2)! } : null;
  if (!ends) return [a, b, c];
  for (let i = 1; i + 2 < base.length; i++) made.push(base[i]!, base[i + 1]!, c);
  const right = [b, ...toC, c];
  for (let i = 0; i + 1 < right.length; i++) made.push(ends.to, right[i]!, right[i + 1]!);
  const left = [c, ...fromC, a];
  for (let i = 0; i + 1 < left.length; i++) made.push(ends.from, left[i]!, left[i + 1]!);
  return made;
}
