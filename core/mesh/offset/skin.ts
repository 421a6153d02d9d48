import type { Mesh } from '../../solid/types.js';
import type { Flats } from './flat-faces.js';
import { fanOf, type Halves, nextHalf } from './halves.js';
import type { MovedCorners } from './move-corners.js';

/** A closed surface of moved triangles with where each came from. */
export interface Skin {
  readonly t: Uint32Array;
  /** Two triangles of the mesh that each was made of; the same twice for one that was only moved. */
  readonly from: Uint32Array;
}

/**
 * The mesh with some of its triangles moved (`chosen`), the others where they were, and walls where neighbours part.
 * Faces that
 * were cut anew are chosen whole or not at all. With `inner` (a point for each vertex) only a slab of the chosen ones is made: moved above, on the inner points below.
 */
export function makeSkin(
  halves: Halves,
  { to }: MovedCorners,
  chosen: Uint8Array,
  inner: (vertex: number) => number,
  slab: boolean,
  { faces, faceOf }: Flats,
): Skin {
  const { t, opposite, vertices } = halves;
  const list: number[] = [];
  const from: number[] = [];
  const point = (h: number): number =>
    chosen[Math.floor(h / 3)] === 1 ? to[h]! : slab ? inner(t[h]!) : t[h]!;
  const put = (a: number, b: number, c: number, f: number, g: number): void => {
    if (a === b || b === c || c === a) return;
    list.push(a, b, c);
    from.push(f, g);
  };
  for (let f = 0; f < t.length / 3; f++) {
    const isIn = chosen[f] === 1;
    if (!isIn && slab) continue;
    const face = faceOf[f]!;
    if (!isIn || face < 0) put(point(3 * f), point(3 * f + 1), point(3 * f + 2), f, f);
    else if (faces[face]!.members[0] === f) {
      const cut = faces[face]!.t;
      for (let i = 0; i < cut.length; i += 3) put(cut[i]!, cut[i + 1]!, cut[i + 2]!, f, f);
    }
    if (slab) put(inner(t[3 * f + 2]!), inner(t[3 * f + 1]!), inner(t[3 * f]!), f, f);
  }
  const touched = new Uint8Array(vertices);
  for (let h = 0; h < t.length; h++) {
    const g = opposite[h]!;
    if (h > g) continue;
    const [f, e] = [Math.floor(h / 3), Math.floor(g / 3)];
    if (chosen[f] !== 1 && chosen[e] !== 1) continue;
    if (faceOf[f]! >= 0 && faceOf[f] === faceOf[e]) continue;
    const [a1, b1, b2, a2] = [point(h), point(nextHalf(h)), point(g), point(nextHalf(g))];
    if (a1 === a2 && b1 === b2) continue;
    touched[t[h]!] = 1;
    touched[t[g]!] = 1;
    // b1 a1 a2 b2, cut from a1 to b2.
    put(b1, a1, b2, f, e);
    put(a1, a2, b2, f, e);
  }
  const fan: number[] = [];
  for (let v = 0; v < vertices; v++) {
    if (touched[v] === 0) continue;
    const count = fanOf(halves, v, fan);
    const round: number[] = [];
    for (let i = 0; i < count; i++) {
      const id = point(fan[i]!);
      if (round.at(-1) !== id) round.push(id);
    }
    if (round.length > 1 && round[0] === round.at(-1)) round.pop();
    const f = Math.floor(fan[0]! / 3);
    for (let i = 1; i + 1 < round.length; i++) put(round[0]!, round[i]!, round[i + 1]!, f, f);
  }
  return { t: Uint32Array.from(list), from: Uint32Array.from(from) };
}

/** The points that a skin uses, as a mesh of its own. */
export function meshOfSkin(points: Float64Array, t: Uint32Array, reversed = false): Mesh {
  const renamed = new Int32Array(points.length / 3).fill(-1);
  const triangles = new Uint32Array(t.length);
  let size = 0;
  for (let i = 0; i < t.length; i++) {
    const v = t[i]!;
    if (renamed[v]! < 0) renamed[v] = size++;
    triangles[i] = renamed[v]!;
  }
  const positions = new Float32Array(3 * size);
  for (let v = 0; v < renamed.length; v++)
    if (renamed[v]! >= 0) positions.set(points.subarray(3 * v, 3 * v + 3), 3 * renamed[v]!);
  if (reversed)
    for (let f = 0; f < triangles.length; f += 3)
      [triangles[f], triangles[f + 1]] = [triangles[f + 1]!, triangles[f]!];
  return { positions, triangles };
}
