import type { Kernel, Polygon, Vec2, Vec3 } from '../../solid/types.js';
import { nextHalf } from './halves.js';
import type { MovedCorners, MoveInput } from './move-corners.js';

/** A flat face whose outline has moved so that its old triangles no longer fit in it. */
export interface FlatFace {
  readonly members: readonly number[];
  /** The new ones, three moved points each. */
  readonly t: readonly number[];
}

export interface Flats {
  readonly faces: readonly FlatFace[];
  /** The face of each triangle, −1 for none. */
  readonly faceOf: Int32Array;
}

/** Triangles of one face have normals within 0.1° and lie within this of its plane, mm. */
const sameNormal = 1 - 1.5e-6;
const sameHeight = 1e-4;

/**
 * Cuts flat faces anew that hold triangles of the given ones: their outlines stay outlines where they move, but a
 * triangle from one side of a ring to the other may turn over.
 */
export function refillFaces(kernel: Kernel, input: MoveInput, moved: MovedCorners, seeds: Uint8Array): Flats {
  const { p, halves, normals: n, amounts } = input;
  const { t, opposite } = halves;
  const count = t.length / 3;
  const faceOf = new Int32Array(count).fill(-1);
  const faces: FlatFace[] = [];
  const areas = new Float64Array(count);
  const touched = growable(input, seeds);
  for (const f of touched) areas[f] = areaOf(p, t, f);
  const order = touched.sort((f, g) => areas[g]! - areas[f]! || f - g);
  for (const seed of order) {
    if (faceOf[seed]! >= 0) continue;
    const id = faces.length;
    faceOf[seed] = id;
    const members = [seed];
    const o = 3 * t[3 * seed]!;
    for (const f of members)
      for (let h = 3 * f; h < 3 * f + 3; h++) {
        const g = Math.floor(opposite[h]! / 3);
        if (faceOf[g]! >= 0 || amounts[g] !== amounts[seed]) continue;
        if (
          n[3 * g]! * n[3 * seed]! + n[3 * g + 1]! * n[3 * seed + 1]! + n[3 * g + 2]! * n[3 * seed + 2]! <
          sameNormal
        )
          continue;
        const off = [0, 1, 2].some((k) => {
          const v = 3 * t[3 * g + k]!;
          const height =
            (p[v]! - p[o]!) * n[3 * seed]! +
            (p[v + 1]! - p[o + 1]!) * n[3 * seed + 1]! +
            (p[v + 2]! - p[o + 2]!) * n[3 * seed + 2]!;
          return Math.abs(height) > sameHeight;
        });
        if (off) continue;
        faceOf[g] = id;
        members.push(g);
      }
    const isAsked = members.some((f) => seeds[f] === 1);
    const filled = isAsked ? fill(kernel, input, moved, members, faceOf, id) : null;
    faces.push({ members, t: filled ?? [] });
    if (!filled) for (const f of members) faceOf[f] = -2;
  }
  return { faces, faceOf: faceOf.map((face) => Math.max(-1, face)) };
}

/** All triangles that can be reached from the seeds without bending. */
function growable({ halves, normals: n }: MoveInput, seeds: Uint8Array): number[] {
  const { opposite } = halves;
  const seen = seeds.slice();
  const list: number[] = [];
  for (let f = 0; f < seeds.length; f++) if (seeds[f] === 1) list.push(f);
  for (const f of list)
    for (let h = 3 * f; h < 3 * f + 3; h++) {
      const g = Math.floor(opposite[h]! / 3);
      if (seen[g] === 1) continue;
      if (n[3 * g]! * n[3 * f]! + n[3 * g + 1]! * n[3 * f + 1]! + n[3 * g + 2]! * n[3 * f + 2]! < sameNormal)
        continue;
      seen[g] = 1;
      list.push(g);
    }
  return list;
}

function areaOf(p: Float64Array, t: Uint32Array, f: number): number {
  const [a, b, c] = [3 * t[3 * f]!, 3 * t[3 * f + 1]!, 3 * t[3 * f + 2]!];
  const [ux, uy, uz] = [p[b]! - p[a]!, p[b + 1]! - p[a + 1]!, p[b + 2]! - p[a + 2]!];
  const [vx, vy, vz] = [p[c]! - p[a]!, p[c + 1]! - p[a + 1]!, p[c + 2]! - p[a + 2]!];
  const [nx, ny, nz] = [uy * vz - uz * vy, uz * vx - ux * vz, ux * vy - uy * vx];
  return Math.sqrt(nx * nx + ny * ny + nz * nz);
}

/** New triangles within a face's moved outlines; null where they cannot be had. */
function fill(
  kernel: Kernel,
  { p, halves, normals }: MoveInput,
  { points, to, hard }: MovedCorners,
  members: readonly number[],
  faceOf: Int32Array,
  id: number,
): number[] | null {
  const { t, opposite } = halves;
  const inFace = (h: number): boolean => faceOf[Math.floor(h / 3)] === id;
  const seed = 3 * members[0]!;
  const [u, v] = axesOf([normals[seed]!, normals[seed + 1]!, normals[seed + 2]!]);
  const walked = new Set<number>();
  const outlines: Polygon[] = [];
  const names: number[] = [];
  for (const f of members)
    for (let begin = 3 * f; begin < 3 * f + 3; begin++) {
      if (hard[t[begin]!] === 1) return null;
      if (walked.has(begin) || inFace(opposite[begin]!)) continue;
      const outline: number[] = [];
      const push = (point: number): void => {
        if (outline.at(-1) !== point) outline.push(point);
      };
      let h = begin;
      do {
        walked.add(h);
        if (runsBack(p, t, points, to, h)) return null;
        push(to[h]!);
        push(to[nextHalf(h)]!);
        h = nextHalf(h);
        while (inFace(opposite[h]!)) h = nextHalf(opposite[h]!);
      } while (h !== begin);
      while (outline.length > 1 && outline[0] === outline.at(-1)) outline.pop();
      if (outline.length < 3) return null;
      names.push(...outline);
      outlines.push(
        outline.map((point): Vec2 => {
          const [x, y, z] = [points[3 * point]!, points[3 * point + 1]!, points[3 * point + 2]!];
          return [u[0] * x + u[1] * y + u[2] * z, v[0] * x + v[1] * y + v[2] * z];
        }),
      );
    }
  if (outlines.length === 0) return null;
  const places = kernel.fill(outlines);
  // As many triangles as a face of these outlines has, or it crosses itself.
  const holes = outlines.length - 1;
  if (places.length !== names.length + 2 * holes - 2) return null;
  return places.flatMap((corners) => corners.map((place) => names[place]!));
}

function axesOf(n: Vec3): [Vec3, Vec3] {
  const a: Vec3 = Math.abs(n[2]) < 0.9 ? [0, 0, 1] : [1, 0, 0];
  const c: Vec3 = [a[1] * n[2] - a[2] * n[1], a[2] * n[0] - a[0] * n[2], a[0] * n[1] - a[1] * n[0]];
  const length = Math.sqrt(c[0] * c[0] + c[1] * c[1] + c[2] * c[2]);
  const u: Vec3 = [c[0] / length, c[1] / length, c[2] / length];
  return [u, [n[1] * u[2] - n[2] * u[1], n[2] * u[0] - n[0] * u[2], n[0] * u[1] - n[1] * u[0]]];
}

/** Whether an edge has shrunk past nothing as it moved. */
export function runsBack(
  p: Float64Array,
  t: Uint32Array,
  q: Float64Array,
  to: Uint32Array,
  h: number,
): boolean {
  const [i, j, k, l] = [3 * t[h]!, 3 * t[nextHalf(h)]!, 3 * to[h]!, 3 * to[nextHalf(h)]!];
  const run =
    (p[j]! - p[i]!) * (q[l]! - q[k]!) +
    (p[j + 1]! - p[i + 1]!) * (q[l + 1]! - q[k + 1]!) +
    (p[j + 2]! - p[i + 2]!) * (q[l + 2]! - q[k + 2]!);
  return run < 0;
}
