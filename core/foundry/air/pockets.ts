import type { Mesh, Vec3 } from '../../solid/types.js';
import { type Cavity, planArea, readCavity, surfaceAbove, volumeUnder } from './cavity.js';

/** Air that rising metal shuts in, mm and mm³. */
export interface AirPocket {
  /** Its highest place: the middle of the flat there, or the point. */
  readonly at: Vec3;
  /** Where metal closes its last way out. */
  readonly saddle: Vec3;
  /** From the saddle up to the highest place. */
  readonly depth: number;
  /** Of the cavity above the saddle. */
  readonly volume: number;
}

export interface PocketSearch {
  /** Largest first. */
  readonly pockets: readonly AirPocket[];
  /** Those below the threshold. */
  readonly ignored: { readonly count: number; readonly volume: number };
}

/** A search's pocket with the vertex of the mesh that is its top. */
export interface FoundPocket extends AirPocket {
  readonly peak: number;
}

/** Air below this volume dissolves in the mould's wall and is not told, mm³ (0.05 ml). Common practice, no source. */
export const leastPocket = 50;

/** Saddles within this height are reached at once, so that each tooth of a comb is a pocket of its own, mm. */
const sameHeight = 0.002;

/** Tops that differ by less are one flat, mm: noise of a mesh. */
const flat = 0.01;

export interface PocketOptions {
  /** Vertices at this z (mesh coordinates) or higher are open to the air, mm. */
  readonly openHeight: number;
  /** Pour direction; +Z when left out. */
  readonly up?: Vec3;
  /** mm³ */
  readonly least?: number;
}

/**
 * Every place where rising metal would trap air: the join tree of height on the solid. Air above the metal at a level is
 * the part of the cavity above it; a piece of it without an open top is shut in when the metal reaches the saddle that
 * joined it to a piece with one. Which basin fills first makes no difference: the saddle fills before the pocket above it.
 *
 * The tree of the solid is had from its surface alone, exactly. Two pieces of the solid can only meet at a saddle of
 * the surface, where the surface's pieces meet too. A top of the surface with air below it begins a piece; one with
 * metal above it (the roof of a hole, of a closed void) lies inside a piece begun already, the one met straight above it.
 * Vertices of one height are taken in the order of their numbers, which moves no volume (H. Edelsbrunner and
 * E. P. Mücke, Simulation of Simplicity, 1990; join trees: H. Carr, J. Snoeyink, U. Axen, 2003). n log n.
 */
export function findPockets(mesh: Mesh, options: PocketOptions): PocketSearch {
  const { pockets, ignored } = searchPockets(readCavity(mesh, options.up), options);
  return { pockets: pockets.map(({ peak: _, ...p }) => p), ignored };
}

/** As `findPockets`, with the tops' vertices. */
export function searchPockets(
  cavity: Cavity,
  { openHeight, least = leastPocket }: PocketOptions,
): { readonly pockets: readonly FoundPocket[]; readonly ignored: PocketSearch['ignored'] } {
  const { mesh, heights, starts, corners } = cavity;
  const t = mesh.triangles;
  const count = heights.length;
  const order = Uint32Array.from({ length: count }, (_, i) => i).sort(
    (a, b) => heights[b]! - heights[a]! || a - b,
  );
  const rank = new Uint32Array(count);
  for (let i = 0; i < count; i++) rank[order[i]!] = i;

  const parent = Uint32Array.from({ length: count }, (_, i) => i);
  const find = (i: number): number => {
    let at = i;
    while (parent[at] !== at) {
      parent[at] = parent[parent[at]!]!;
      at = parent[at]!;
    }
    return at;
  };
  // Rings of the vertices of each shut piece; of open pieces nothing need be known.
  const ring = Uint32Array.from({ length: count }, (_, i) => i);
  const open = new Uint8Array(count);
  const found: FoundPocket[] = [];
  const ignored = { count: 0, volume: 0 };

  const close = (root: number, at: number, level: number): void => {
    let volume = 0;
    let peak = root;
    let v = root;
    do {
      if (rank[v]! < rank[peak]!) peak = v;
      for (let i = starts[v]!; i < starts[v + 1]!; i++) {
        const f = Math.floor(corners[i]! / 3);
        // Each triangle belongs to its highest vertex.
        if (highest(t, f, rank) === v) volume += volumeUnder(cavity, f, level);
      }
      v = ring[v]!;
    } while (v !== root);
    const depth = heights[peak]! - level;
    if (depth <= 0) return;
    if (volume < least) {
      ignored.count++;
      ignored.volume += Math.max(0, volume);
      return;
    }
    found.push({ at: middleOfTop(cavity, peak), saddle: pointOf(mesh, at), depth, volume, peak });
  };

  // What is joined at one height is joined at once: each shut piece with where it was joined, by the root of its set.
  let joined = new Map<number, (readonly [piece: number, at: number])[]>();
  const join = (a: number, b: number, at: number): void => {
    const [ra, rb] = [find(a), find(b)];
    if (ra === rb) return;
    const piecesOf = (root: number) => joined.get(root) ?? (open[root] ? [] : [[root, at] as const]);
    const [mine, other] = [piecesOf(ra), piecesOf(rb)];
    for (const piece of other) mine.push(piece);
    joined.delete(rb);
    joined.set(ra, mine);
    parent[rb] = ra;
    open[ra]! |= open[rb]!;
  };
  const settle = (level: number): void => {
    for (const [root, pieces] of joined) {
      if (open[root]) {
        for (const [piece, at] of pieces) close(piece, at, level);
        continue;
      }
      for (const [piece] of pieces)
        if (piece !== root) [ring[root], ring[piece]] = [ring[piece]!, ring[root]!];
    }
    joined = new Map();
  };
  const addVertex = (v: number): void => {
    if (mesh.positions[3 * v + 2]! >= openHeight) open[v] = 1;
    let top = true;
    for (let i = starts[v]!; i < starts[v + 1]!; i++) {
      const corner = corners[i]!;
      const f = corner - (corner % 3);
      for (let k = f; k < f + 3; k++) {
        const other = t[k]!;
        if (rank[other]! >= rank[v]!) continue;
        top = false;
        join(other, v, v);
      }
    }
    if (!top || starts[v + 1] === starts[v] || upwardNormal(cavity, v) >= 0) return;
    const above = surfaceAbove(cavity, v);
    if (above >= 0) join(above, v, v);
  };
  for (let i = 0; i < count; ) {
    const level = heights[order[i]!]!;
    for (; i < count && heights[order[i]!]! > level - sameHeight; i++) addVertex(order[i]!);
    settle(level);
  }
  // A piece that never finds an open top is shut in whole.
  const lowest = new Map<number, number>();
  for (const v of order) if (!open[find(v)] && starts[v + 1]! > starts[v]!) lowest.set(find(v), v);
  for (const [root, v] of lowest) close(root, v, heights[v]!);
  return { pockets: found.sort((a, b) => b.volume - a.volume), ignored };
}

const highest = (t: Uint32Array, f: number, rank: Uint32Array): number => {
  const [a, b, c] = [t[3 * f]!, t[3 * f + 1]!, t[3 * f + 2]!];
  if (rank[a]! < rank[b]! && rank[a]! < rank[c]!) return a;
  return rank[b]! < rank[c]! ? b : c;
};

const pointOf = ({ positions: p }: Mesh, v: number): Vec3 => [p[3 * v]!, p[3 * v + 1]!, p[3 * v + 2]!];

/**
 * Height component of the angle-weighted normal: at a local top its sign tells which side of the surface is straight
 * above (J. A. Bærentzen and H. Aanæs, Signed Distance Computation Using the Angle Weighted Pseudonormal, 2005).
 */
function upwardNormal(cavity: Cavity, v: number): number {
  const { mesh, heights, starts, corners, plan } = cavity;
  const t = mesh.triangles;
  let sum = 0;
  for (let i = starts[v]!; i < starts[v + 1]!; i++) {
    const corner = corners[i]!;
    const f = corner - (corner % 3);
    const [j, k] = [t[f + ((corner + 1 - f) % 3)]!, t[f + ((corner + 2 - f) % 3)]!];
    const side = (w: number): Vec3 => [
      plan[2 * w]! - plan[2 * v]!,
      plan[2 * w + 1]! - plan[2 * v + 1]!,
      heights[w]! - heights[v]!,
    ];
    const [a, b] = [side(j), side(k)];
    const n: Vec3 = [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]];
    const length = Math.hypot(...n);
    if (length === 0) continue;
    sum += (Math.atan2(length, a[0] * b[0] + a[1] * b[1] + a[2] * b[2]) * n[2]) / length;
  }
  return sum;
}

/** Triangles of the flat at the top, joined by corners, as nearly level as `drop` allows and facing up. */
export function topFlat(cavity: Cavity, peak: number, drop: number): readonly number[] {
  const { mesh, heights, starts, corners } = cavity;
  const t = mesh.triangles;
  const floor = heights[peak]! - drop;
  const seen = new Set<number>([peak]);
  const flats = new Set<number>();
  const queue = [peak];
  for (let v = queue.pop(); v !== undefined; v = queue.pop()) {
    for (let i = starts[v]!; i < starts[v + 1]!; i++) {
      const f = Math.floor(corners[i]! / 3);
      if (flats.has(f) || [0, 1, 2].some((k) => heights[t[3 * f + k]!]! < floor)) continue;
      if (planArea(cavity, f) <= 0) continue;
      flats.add(f);
      for (let k = 0; k < 3; k++) {
        const w = t[3 * f + k]!;
        if (!seen.has(w)) {
          seen.add(w);
          queue.push(w);
        }
      }
    }
  }
  return [...flats];
}

function middleOfTop(cavity: Cavity, peak: number): Vec3 {
  const { mesh } = cavity;
  let area = 0;
  const sum = [0, 0, 0];
  for (const f of topFlat(cavity, peak, flat)) {
    const weight = planArea(cavity, f);
    area += weight;
    for (let k = 0; k < 3; k++)
      for (let c = 0; c < 3; c++)
        sum[c]! += (weight / 3) * mesh.positions[3 * mesh.triangles[3 * f + k]! + c]!;
  }
  return area > 0 ? [sum[0]! / area, sum[1]! / area, sum[2]! / area] : pointOf(mesh, peak);
}
