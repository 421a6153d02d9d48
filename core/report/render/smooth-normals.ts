import { maths } from '../../maths/maths.js';
import { DisjointSets } from '../../solid/disjoint-sets.js';
import type { Mesh } from '../../solid/types.js';

/** What shading needs to know of a welded mesh. */
export interface SmoothMesh {
  /** Unit normals, x, y, z a triangle. */
  readonly faces: Float32Array;
  /** Unit normals, x, y, z a triangle corner: smooth across soft edges, split at creases. */
  readonly corners: Float32Array;
  /** The half-edge on the other side (3 × triangle + corner it starts at), −1 at an open edge. */
  readonly twins: Int32Array;
  /** 1 for half-edges at a crease. */
  readonly creases: Uint8Array;
}

/**
 * Faces that meet at more than this are drawn as an edge. Above the angle between facets of a curve of 1 mm
 * radius at a chord tolerance of 0.01 mm (16°), below the 45° of cups and chamfers.
 */
export const creaseAngle = (28 / 180) * Math.PI;

/** A triangle lower than this has a normal of rounding noise, share of its longest side. */
const needle = 2e-5;

/** Finds creases and smooth normals of a welded mesh; open and tangled meshes are drawn as far as they go. */
export function smoothNormals(mesh: Mesh): SmoothMesh {
  const twins = findTwins(mesh);
  const { normals: faces, weights } = faceNormals(mesh, twins);
  const t = mesh.triangles;
  const creases = new Uint8Array(t.length);
  const cosCrease = maths.cos(creaseAngle);
  const fans = new DisjointSets(t.length);
  for (let h = 0; h < t.length; h++) {
    const twin = twins[h]!;
    if (twin < 0) {
      creases[h] = 1;
      continue;
    }
    const f = h - (h % 3);
    const g = twin - (twin % 3);
    const dot = faces[f]! * faces[g]! + faces[f + 1]! * faces[g + 1]! + faces[f + 2]! * faces[g + 2]!;
    if (dot < cosCrease) {
      creases[h] = 1;
    } else if (h < twin) {
      fans.join(nextCorner(twin), h);
      fans.join(twin, nextCorner(h));
    }
  }
  const sums = new Float64Array(t.length * 3);
  for (let c = 0; c < t.length; c++) {
    const s = fans.find(c) * 3;
    const f = c - (c % 3);
    for (let k = 0; k < 3; k++) sums[s + k]! += faces[f + k]! * weights[c]!;
  }
  const corners = new Float32Array(t.length * 3);
  for (let c = 0; c < t.length; c++) {
    const s = fans.find(c) * 3;
    const f = c - (c % 3);
    const length = norm(sums[s]!, sums[s + 1]!, sums[s + 2]!);
    for (let k = 0; k < 3; k++) corners[3 * c + k] = length > 0 ? sums[s + k]! / length : faces[f + k]!;
  }
  return { faces, corners, twins, creases };
}

/** Several times faster than maths.hypot, and no coordinate here is near the ends of the number range. */
const norm = (x: number, y: number, z: number): number => Math.sqrt(x * x + y * y + z * z);

const nextCorner = (h: number): number => (h % 3 === 2 ? h - 2 : h + 1);

/** Pairs half-edges through a table of the undirected edges, keyed by both vertices. */
function findTwins({ triangles: t }: Mesh): Int32Array {
  const twins = new Int32Array(t.length).fill(-1);
  let size = 16;
  while (size < t.length * 2) size *= 2;
  const waiting = new Int32Array(size).fill(-1);
  for (let h = 0; h < t.length; h++) {
    const from = t[h]!;
    const to = t[nextCorner(h)]!;
    const low = Math.min(from, to);
    const high = Math.max(from, to);
    let slot = (Math.imul(low, 0x9e3779b1) ^ Math.imul(high, 0x85ebca6b)) >>> 0;
    slot = (slot ^ (slot >>> 15)) & (size - 1);
    for (; ; slot = (slot + 1) & (size - 1)) {
      const other = waiting[slot]!;
      if (other < 0) {
        waiting[slot] = h;
        break;
      }
      // Where more than two triangles share an edge, the first free partner of opposite direction is taken.
      if (twins[other] === -1 && t[other] === to && t[nextCorner(other)] === from) {
        twins[other] = h;
        twins[h] = other;
        break;
      }
    }
  }
  return twins;
}

/** Normals, and a weight a corner: its angle times the triangle's area, so that flat sides stay flat to the eye. */
function faceNormals({ positions: p, triangles: t }: Mesh, twins: Int32Array) {
  const normals = new Float32Array(t.length);
  const weights = new Float64Array(t.length);
  const thin: { face: number; longest: number }[] = [];
  const side = new Float64Array(9);
  const lengths = new Float64Array(3);
  for (let f = 0; f < t.length; f += 3) {
    let longest = 0;
    for (let k = 0; k < 3; k++) {
      const a = t[f + k]! * 3;
      const b = t[f + ((k + 1) % 3)]! * 3;
      for (let i = 0; i < 3; i++) side[3 * k + i] = p[b + i]! - p[a + i]!;
      lengths[k] = norm(side[3 * k]!, side[3 * k + 1]!, side[3 * k + 2]!);
      if (lengths[k]! > lengths[longest]!) longest = k;
    }
    const x = side[1]! * side[5]! - side[2]! * side[4]!;
    const y = side[2]! * side[3]! - side[0]! * side[5]!;
    const z = side[0]! * side[4]! - side[1]! * side[3]!;
    const twiceArea = norm(x, y, z);
    if (twiceArea <= needle * lengths[longest]! ** 2) {
      thin.push({ face: f, longest: f + longest });
      continue;
    }
    normals[f] = x / twiceArea;
    normals[f + 1] = y / twiceArea;
    normals[f + 2] = z / twiceArea;
    for (let k = 0; k < 3; k++) {
      const before = (k + 2) % 3;
      const cos =
        -(
          side[3 * k]! * side[3 * before]! +
          side[3 * k + 1]! * side[3 * before + 1]! +
          side[3 * k + 2]! * side[3 * before + 2]!
        ) /
        (lengths[k]! * lengths[before]!);
      weights[f + k] = maths.acos(Math.max(-1, Math.min(1, cos))) * twiceArea;
    }
  }
  // A needle takes the normal of the face along its longest side; a few rounds settle needles beside needles.
  for (let round = 0; round < 4; round++) {
    for (const { face, longest } of thin) {
      const twin = twins[longest]!;
      if (twin < 0) continue;
      const from = twin - (twin % 3);
      normals.copyWithin(face, from, from + 3);
    }
  }
  return { normals, weights };
}
