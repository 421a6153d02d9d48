import { DisjointSets } from '../../solid/disjoint-sets.js';
import { type Cavity, cutBelow, overturn, surfaceAbove } from './cavity.js';
import type { ShutPiece } from './pieces.js';
import { upwardNormal } from './tops.js';

/** A place that metal can come to only through shut pieces. */
export interface OutOfReach {
  /** The pieces it hangs on. */
  readonly pieces: ReadonlySet<ShutPiece>;
  /** mm³ */
  readonly volume: number;
}

/**
 * Metal comes to no place whose every way in leads through air that is shut in: the far leg of an arch that is gated
 * low, the vessel behind a siphon. With the shut pieces taken away, each above its level, these are the pieces of the
 * cavity that have no open top left.
 */
export function outOfReach(
  cavity: Cavity,
  keys: Float64Array,
  shut: readonly ShutPiece[],
  isOpen: (vertex: number) => boolean,
): readonly OutOfReach[] {
  const t = cavity.mesh.triangles;
  const of = new Map<number, ShutPiece>();
  for (const piece of shut) for (const v of piece.vertices) of.set(v, piece);
  const sets = new DisjointSets(keys.length);
  const find = (v: number): number => sets.find(v);
  const bordering = new Set<number>();
  for (let f = 0; f < t.length; f += 3)
    for (let k = 0; k < 3; k++) {
      const [a, b] = [t[f + k]!, t[f + ((k + 1) % 3)]!];
      if (!of.has(a) && !of.has(b)) sets.join(a, b);
      else if (!of.has(a)) bordering.add(a);
      else if (!of.has(b)) bordering.add(b);
    }
  joinIslands(cavity, keys, { of, sets, bordering });

  const open = new Set<number>();
  for (let v = 0; v < keys.length; v++) if (!of.has(v) && isOpen(v)) open.add(find(v));
  const roots = new Set([...bordering].map(find).filter((root) => !open.has(root)));
  const found = new Map<number, { pieces: Set<ShutPiece>; volume: number; reference: number }>();
  for (let f = 0; f < t.length; f += 3) {
    const own = [t[f]!, t[f + 1]!, t[f + 2]!].find((v) => !of.has(v));
    if (own === undefined || !roots.has(find(own))) continue;
    const piece = [t[f]!, t[f + 1]!, t[f + 2]!].map((v) => of.get(v)).find((p) => p !== undefined);
    const place = found.get(find(own)) ?? {
      pieces: new Set<ShutPiece>(),
      volume: 0,
      reference: cavity.heights[own]!,
    };
    if (piece) place.pieces.add(piece);
    place.volume += cutBelow(cavity, f / 3, piece?.level ?? Number.POSITIVE_INFINITY, place.reference);
    found.set(find(own), place);
  }
  return [...found.values()];
}

/** A closed surface within the metal, or the floor of a hole that comes from above, belongs to what is round it. */
function joinIslands(
  cavity: Cavity,
  keys: Float64Array,
  at: {
    readonly of: ReadonlyMap<number, ShutPiece>;
    readonly sets: DisjointSets;
    readonly bordering: ReadonlySet<number>;
  },
): void {
  const { starts } = cavity;
  const lowest = new Map<number, number>();
  const highest = new Map<number, number>();
  for (let v = 0; v < keys.length; v++) {
    if (at.of.has(v) || starts[v] === starts[v + 1]) continue;
    const root = at.sets.find(v);
    if (keys[v]! > keys[lowest.get(root) ?? v]! || !lowest.has(root)) lowest.set(root, v);
    if (keys[v]! < keys[highest.get(root) ?? v]! || !highest.has(root)) highest.set(root, v);
  }
  const overturned = overturn(cavity);
  const borders = new Set([...at.bordering].map((v) => at.sets.find(v)));
  for (const [root, v] of lowest) {
    if (upwardNormal(cavity, v) > 0) {
      const below = surfaceAbove(overturned, v);
      if (below >= 0 && !at.of.has(below)) at.sets.join(below, v);
    } else if (!borders.has(root) && upwardNormal(cavity, highest.get(root)!) < 0) {
      const above = surfaceAbove(cavity, highest.get(root)!);
      if (above >= 0 && !at.of.has(above)) at.sets.join(above, v);
    }
  }
}

/** Whether the level cuts the piece's surface in more than one loop; with one it has but the way that was shut. */
export function hasManyMouths(
  { starts, corners, mesh }: Cavity,
  keys: Float64Array,
  piece: ShutPiece,
): boolean {
  const t = mesh.triangles;
  const cut = new Set<number>();
  for (const v of piece.vertices)
    for (let i = starts[v]!; i < starts[v + 1]!; i++) {
      const f = corners[i]! - (corners[i]! % 3);
      if ([0, 1, 2].some((k) => keys[t[f + k]!]! >= piece.first)) cut.add(f);
    }
  const bySide = new Map<number, number[]>();
  const sides = (f: number): number[] =>
    [0, 1, 2].flatMap((k) => {
      const [a, b] = [t[f + k]!, t[f + ((k + 1) % 3)]!];
      const crosses = keys[a]! < piece.first !== keys[b]! < piece.first;
      return crosses ? [Math.min(a, b) * keys.length + Math.max(a, b)] : [];
    });
  for (const f of cut) for (const s of sides(f)) bySide.set(s, [...(bySide.get(s) ?? []), f]);
  const [start] = cut;
  const queue = start === undefined ? [] : [start];
  const seen = new Set(queue);
  for (let f = queue.pop(); f !== undefined; f = queue.pop())
    for (const s of sides(f))
      for (const g of bySide.get(s) ?? [])
        if (!seen.has(g)) {
          seen.add(g);
          queue.push(g);
        }
  return seen.size < cut.size;
}
