import { DisjointSets } from '../../solid/disjoint-sets.js';
import { type Cavity, surfaceAbove, volumeUnder } from './cavity.js';
import { downward, trueTops } from './height-order.js';

/** Saddles within this height are reached at once, so that each tooth of a comb is a pocket of its own, mm. */
const sameHeight = 0.002;

/** A piece of the cavity when metal shuts it in. */
export interface ShutPiece {
  /** Of the piece's surface above the level. */
  readonly vertices: readonly number[];
  readonly peak: number;
  /** The vertex that closes the last way out, and its height. */
  readonly at: number;
  readonly level: number;
  /** Vertices of this key and greater are at the level or below. */
  readonly first: number;
  /** Of the piece above the level, mm³. */
  readonly volume: number;
}

function numbersTo(count: number): Uint32Array {
  const numbers = new Uint32Array(count);
  for (let i = 0; i < count; i++) numbers[i] = i;
  return numbers;
}

/**
 * The join tree of height, from the surface alone: every piece of the cavity above a level that has no open top, when
 * the level reaches the saddle that joined it to a piece with one; at last those that never find one.
 *
 * Two pieces of the solid can only meet at a saddle of the surface, where the surface's pieces meet too. A top of the
 * surface with air below it begins a piece; one with metal above it (the roof of a hole, of a closed void) lies inside a
 * piece begun already, the one met straight above it. Vertices of one height are taken in the order of their numbers,
 * which moves no volume (H. Edelsbrunner and E. P. Mücke, Simulation of Simplicity, 1990; join trees: H. Carr,
 * J. Snoeyink, U. Axen, 2003).
 * @param floor the cavity is known above this height only; null where that does not tell
 */
export function shutPieces(
  cavity: Cavity,
  keys: Float64Array,
  isOpen: (vertex: number) => boolean,
  floor = Number.NEGATIVE_INFINITY,
): readonly ShutPiece[] | null {
  const { mesh, heights, starts, corners } = cavity;
  const t = mesh.triangles;
  const count = heights.length;
  const sets = new DisjointSets(count);
  const find = (v: number): number => sets.find(v);
  // Rings of the vertices of each shut piece; of open pieces nothing need be known.
  const ring = numbersTo(count);
  const open = new Uint8Array(count);
  const tops = trueTops(cavity, keys).filter((v) => heights[v]! > floor);
  const isTop = new Uint8Array(count);
  for (const v of tops) isTop[v] = 1;
  /** Pieces without an open top so far. */
  let without = 0;
  const shut: ShutPiece[] = [];

  const close = (root: number, at: number, level: number, first: number): void => {
    const vertices: number[] = [];
    let volume = 0;
    let peak = root;
    let v = root;
    do {
      if (keys[v]! < first) vertices.push(v);
      if (keys[v]! < keys[peak]!) peak = v;
      for (let i = starts[v]!; i < starts[v + 1]!; i++) {
        const f = Math.floor(corners[i]! / 3);
        // Each triangle belongs to its highest vertex.
        const highest = Math.min(keys[t[3 * f]!]!, keys[t[3 * f + 1]!]!, keys[t[3 * f + 2]!]!);
        if (highest === keys[v]) volume += volumeUnder(cavity, f, level);
      }
      v = ring[v]!;
    } while (v !== root);
    if (heights[peak]! > level) shut.push({ vertices, peak, at, level, first, volume });
  };

  // What is joined at one height is joined at once: each shut piece with where it was joined, by the root of its set.
  let joined = new Map<number, (readonly [piece: number, at: number])[]>();
  const join = (ra: number, rb: number, at: number): void => {
    if (ra === rb) return;
    const piecesOf = (root: number) => joined.get(root) ?? (open[root] ? [] : [[root, at] as const]);
    const [mine, other] = [piecesOf(ra), piecesOf(rb)];
    if (!open[ra] || !open[rb]) without--;
    if (mine.length + other.length > 0) {
      for (const piece of other) mine.push(piece);
      joined.delete(rb);
      joined.set(ra, mine);
    }
    sets.join(ra, rb);
    open[ra]! |= open[rb]!;
  };
  const settle = (level: number, first: number): void => {
    if (joined.size === 0) return;
    for (const [root, pieces] of joined) {
      if (open[root]) {
        for (const [piece, at] of pieces) close(piece, at, level, first);
        continue;
      }
      for (const [piece] of pieces)
        if (piece !== root) [ring[root], ring[piece]] = [ring[piece]!, ring[root]!];
    }
    joined = new Map();
  };
  const begin = (v: number): void => {
    if (isOpen(v)) open[v] = 1;
    else without++;
  };
  /** A vertex goes to a piece begun already. */
  const put = (v: number, root: number): void => {
    if (isOpen(v) && !open[root]) {
      begin(v);
      join(root, v, v);
      return;
    }
    sets.join(root, v);
    if (!open[root]) [ring[root], ring[v]] = [ring[v]!, ring[root]!];
  };
  const addVertex = (v: number): void => {
    let piece = -1;
    for (let i = starts[v]!; i < starts[v + 1]!; i++) {
      const f = corners[i]! - (corners[i]! % 3);
      for (let k = f; k < f + 3; k++) {
        const other = t[k]!;
        if (keys[other]! >= keys[v]!) continue;
        const root = find(other);
        if (piece < 0) put(v, root);
        else if (root !== piece) join(find(v), root, v);
        piece = find(v);
      }
    }
    if (piece >= 0 || starts[v + 1] === starts[v]) return;
    const above = isTop[v] ? -1 : surfaceAbove(cavity, v);
    if (above >= 0) put(v, find(above));
    else begin(v);
  };
  const order = downward(keys);
  // Below the lowest top nothing begins: with every piece open there, none can be shut any more.
  const last = tops.reduce((k, v) => Math.max(k, keys[v]!), -1);
  for (let i = 0; i < order.length; ) {
    const [level, first] = [heights[order[i]!]!, keys[order[i]!]!];
    if (first > last && without === 0) return shut;
    if (level <= floor) return null;
    for (; i < order.length && heights[order[i]!]! > level - sameHeight; i++) addVertex(order[i]!);
    settle(level, first);
  }
  const lowest = new Map<number, number>();
  for (const v of order) if (!open[find(v)] && starts[v + 1]! > starts[v]!) lowest.set(find(v), v);
  for (const [root, v] of lowest) close(root, v, heights[v]!, Number.POSITIVE_INFINITY);
  return shut;
}
