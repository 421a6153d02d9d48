import type { MeshEdges } from './mesh-edges.js';
import { oppositeHalf, triangleOf } from './mesh-edges.js';

/** Triangles joined over edges that exactly two of them have, and how each patch comes to run one way. */
export interface Patches {
  readonly count: number;
  readonly patchOf: Int32Array;
  /** 1 for the triangles that run against the rest of their patch: the lesser part of it. */
  readonly flip: Uint8Array;
  /** How many those are. */
  readonly flips: number;
  /** One of them, or −1. */
  readonly firstFlip: number;
  /** A half-edge over which a patch can be run neither way, as on a band twisted once, or −1. */
  readonly twistedAt: number;
}

export function findPatches(t: Uint32Array, edges: MeshEdges): Patches {
  const n = t.length / 3;
  const patchOf = new Int32Array(n).fill(-1);
  const flip = new Uint8Array(n);
  const queue = new Int32Array(n);
  let count = 0;
  let flips = 0;
  let twistedAt = -1;
  for (let seed = 0; seed < n; seed++) {
    if (patchOf[seed]! >= 0) continue;
    let size = 0;
    let turned = 0;
    queue[size++] = seed;
    patchOf[seed] = count;
    for (let at = 0; at < size; at++) {
      const f = queue[at]!;
      turned += flip[f]!;
      for (let half = 3 * f; half < 3 * f + 3; half++) {
        const other = oppositeHalf(edges, half);
        if (other < 0) continue;
        const g = triangleOf(other);
        const wanted = t[half] === t[other] ? 1 - flip[f]! : flip[f]!;
        if (patchOf[g]! < 0) {
          patchOf[g] = count;
          flip[g] = wanted;
          queue[size++] = g;
        } else if (flip[g] !== wanted && twistedAt < 0) twistedAt = half;
      }
    }
    if (2 * turned > size) {
      for (let at = 0; at < size; at++) flip[queue[at]!] = 1 - flip[queue[at]!]!;
      turned = size - turned;
    }
    flips += turned;
    count++;
  }
  return { count, patchOf, flip, flips, firstFlip: flips > 0 ? flip.indexOf(1) : -1, twistedAt };
}

/** The triangles with those marked turned over. */
export function turnTriangles(t: Uint32Array, isTurned: (triangle: number) => boolean): Uint32Array {
  const turned = t.slice();
  for (let f = 0; f < t.length / 3; f++)
    if (isTurned(f)) {
      turned[3 * f + 1] = t[3 * f + 2]!;
      turned[3 * f + 2] = t[3 * f + 1]!;
    }
  return turned;
}
