import { maths } from '../../maths/maths.js';
import { cornerAngle } from './face-planes.js';
import { fanOf, type Halves, nextHalf } from './halves.js';
import { Planes } from './meet.js';

/** Where the corners of the triangles come to lie when every triangle's plane moves by its own amount. */
export interface MovedCorners {
  /** x, y, z a point: first the mesh's own vertices, then what they move to. Float32 numbers. */
  readonly points: Float64Array;
  /** Point of each corner. */
  readonly to: Uint32Array;
  /** Unit direction in which each vertex moves, x, y, z; 0 where it stays. */
  readonly way: Float64Array;
  /** Vertices whose planes do not meet in a point. */
  readonly hard: Uint8Array;
  /** Vertices at which a step or a bevel ends: a face beside them has a jog in its outline. */
  readonly jog: Uint8Array;
  /** Edges along which the two sides part: neighbours nearly in one plane that move by different amounts. */
  readonly steps: number;
  /** Edges so sharp that the mitre was cut off. */
  readonly bevelled: number;
}

export interface MoveInput {
  readonly p: Float64Array;
  readonly halves: Halves;
  readonly normals: Float64Array;
  /** mm a triangle, 0 or more. */
  readonly amounts: Float64Array;
  /** Where each moved plane lies: its points x have n · x of this, mm. */
  readonly planes: Float64Array;
  /** How far moved planes may miss their common point, mm. */
  readonly tolerance: number;
  /** How far a mitre may stand out, in amounts. */
  readonly mitreLimit: number;
  /** Whether nothing parts: a slope in place of each step, and mitres as long as they come. */
  readonly whole?: boolean;
}

/** Faces that meet at less than this (cosine of 20°) and move differently part in a step instead of a mitre. */
const stepCosine = 0.94;

export const edgeKind = { plain: 0, step: 1, knife: 2 } as const;

/** What becomes of an edge between triangles `f` and `g`. */
export function kindOfEdge({ normals: n, amounts, mitreLimit, p, halves }: MoveInput, h: number): number {
  const f = Math.floor(h / 3);
  const g = Math.floor(halves.opposite[h]! / 3);
  const [d, e] = [amounts[f]!, amounts[g]!];
  const cosine = n[3 * f]! * n[3 * g]! + n[3 * f + 1]! * n[3 * g + 1]! + n[3 * f + 2]! * n[3 * g + 2]!;
  if (d !== e && cosine > stepCosine) return edgeKind.step;
  if (cosine > -0.2 || (d === 0 && e === 0)) return edgeKind.plain;
  const most = mitreLimit * Math.max(d, e);
  if (d * d + e * e - 2 * d * e * cosine <= most * most * (1 - cosine * cosine)) return edgeKind.plain;
  return bend(p, halves, n, h) > 0 ? edgeKind.knife : edgeKind.plain;
}

/** Sine of the angle between the normals of an edge's triangles: positive where the edge is convex. */
export function bend(p: Float64Array, { t, opposite }: Halves, n: Float64Array, h: number): number {
  const f = 3 * Math.floor(h / 3);
  const g = 3 * Math.floor(opposite[h]! / 3);
  const [a, b] = [3 * t[h]!, 3 * t[nextHalf(h)]!];
  const [x, y, z] = [p[b]! - p[a]!, p[b + 1]! - p[a + 1]!, p[b + 2]! - p[a + 2]!];
  const length = Math.sqrt(x * x + y * y + z * z);
  if (length === 0) return 0;
  const cx = n[f + 1]! * n[g + 2]! - n[f + 2]! * n[g + 1]!;
  const cy = n[f + 2]! * n[g]! - n[f]! * n[g + 2]!;
  const cz = n[f]! * n[g + 1]! - n[f + 1]! * n[g]!;
  return (cx * x + cy * y + cz * z) / length;
}

/** What is known already of a mesh before some of its triangles were taken out. */
export interface MovedBefore {
  readonly moved: MovedCorners;
  /** The old number of each triangle. */
  readonly kept: ArrayLike<number>;
  /** 1 for vertices whose triangles are not the same. */
  readonly changed: Uint8Array;
}

export function moveCorners(input: MoveInput, before?: MovedBefore): MovedCorners {
  const { p, halves, normals: n, amounts, tolerance, mitreLimit } = input;
  const { t, vertices } = halves;
  const to = new Uint32Array(t.length);
  const way = before ? before.moved.way : new Float64Array(3 * vertices);
  const hard = before ? before.moved.hard : new Uint8Array(vertices);
  const jog = before ? before.moved.jog : new Uint8Array(vertices);
  if (before)
    for (let h = 0; h < t.length; h++)
      to[h] = before.moved.to[3 * before.kept[Math.floor(h / 3)]! + (h % 3)]!;
  const kinds = new Uint8Array(t.length);
  let [steps, bevelled] = [0, 0];
  for (let h = 0; h < t.length; h++) {
    kinds[h] = input.whole ? edgeKind.plain : kindOfEdge(input, h);
    if (h > halves.opposite[h]!) continue;
    if (kinds[h] === edgeKind.step) steps++;
    if (kinds[h] === edgeKind.knife) bevelled++;
  }
  const known = before ? before.moved.points.length : p.length;
  let points = new Float64Array(known + (before ? 300 : known + 300));
  if (before) points.set(before.moved.points);
  points.set(p);
  let size = known / 3;
  const planes = new Planes();
  const fan: number[] = [];
  for (let v = 0; v < vertices; v++) {
    if (before && before.changed[v] === 0) continue;
    const count = fanOf(halves, v, fan);
    hard[v] = 0;
    jog[v] = 0;
    for (let k = 0; k < 3; k++) way[3 * v + k] = 0;
    if (count === 0) continue;
    // Sectors of the fan between edges that part; spoke i leads along half-edge fan[i], before its triangle.
    let begin = -1;
    let parted = 0;
    for (let i = 0; i < count; i++)
      if (kinds[fan[i]!]! !== edgeKind.plain) {
        parted++;
        if (begin < 0) begin = i;
      }
    const sector = (from: number, length: number, shared: number, knives: readonly number[]): void => {
      planes.clear();
      let most = 0;
      const take = (i: number): void => {
        const h = fan[i % count]!;
        const f = Math.floor(h / 3);
        most = Math.max(most, amounts[f]!);
        planes.add(n[3 * f]!, n[3 * f + 1]!, n[3 * f + 2]!, heightAt(input, f, v), cornerAngle(p, t, h));
      };
      for (let i = from; i < from + length; i++) take(i);
      if (shared >= 0) take(shared);
      for (const i of knives) {
        const h = fan[i % count]!;
        if (kinds[h] !== edgeKind.knife) continue;
        const f = 3 * Math.floor(h / 3);
        const g = 3 * Math.floor(halves.opposite[h]! / 3);
        const [x, y, z] = [n[f]! + n[g]!, n[f + 1]! + n[g + 1]!, n[f + 2]! + n[g + 2]!];
        const length = Math.sqrt(x * x + y * y + z * z);
        if (length < 1e-3) {
          hard[v] = 1;
          continue;
        }
        const d = mitreLimit * Math.max(amounts[f / 3]!, amounts[g / 3]!);
        planes.add(x / length, y / length, z / length, d, 1);
      }
      let id = v;
      if (most > 0) {
        planes.meet();
        const { at } = planes;
        let reach = maths.hypot(at[0]!, at[1]!, at[2]!);
        if (planes.missed > tolerance || (reach > mitreLimit * most * 1.01 && standsOut(input, fan, count)))
          hard[v] = 1;
        if (!(reach < 20 * most)) hard[v] = 1;
        // Planes that hardly meet: rather near them all than far out along some.
        for (let damping = 1e-4; hard[v] === 1 && damping < 1 && reach > 1.5 * most; damping *= 10) {
          planes.meet(damping);
          reach = maths.hypot(at[0]!, at[1]!, at[2]!);
        }
        if (reach > 0 && way[3 * v] === 0 && way[3 * v + 1] === 0 && way[3 * v + 2] === 0)
          for (let k = 0; k < 3; k++) way[3 * v + k] = at[k]! / reach;
        const [x, y, z] = [0, 1, 2].map((k) => Math.fround(p[3 * v + k]! + at[k]!)) as [
          number,
          number,
          number,
        ];
        if (x !== p[3 * v] || y !== p[3 * v + 1] || z !== p[3 * v + 2]) {
          if (3 * size + 3 > points.length) {
            const more = new Float64Array(2 * points.length);
            more.set(points);
            points = more;
          }
          points[3 * size] = x;
          points[3 * size + 1] = y;
          points[3 * size + 2] = z;
          id = size++;
        }
      }
      for (let i = from; i < from + length; i++) to[fan[i % count]!] = id;
    };
    if (parted === 0) sector(0, count, -1, []);
    else if (parted === 1) {
      jog[v] = 1;
      // A step or knife edge ends here: the sides part over the face that stands most across them.
      const across = acrossBoth(n, fan, begin, count);
      const knife = [begin];
      sector(begin, across - begin + 1, -1, knife);
      sector(across + 1, begin + count - across - 1, across, knife);
    } else {
      // Walls of three heights or more meet in one line.
      if (parted > 2) hard[v] = 1;
      for (let i = 0; i < count; ) {
        let length = 1;
        while (kinds[fan[(begin + i + length) % count]!] === edgeKind.plain) length++;
        sector(begin + i, length, -1, [begin + i, begin + i + length]);
        i += length;
      }
    }
  }
  return { points: points.slice(0, 3 * size), to, way, hard, jog, steps, bevelled };
}

/** How far the moved plane of a triangle lies over a vertex, mm: its amount, or more where edges were taken out. */
export function heightAt({ p, normals: n, planes, amounts }: MoveInput, f: number, v: number): number {
  const over =
    planes[f]! - n[3 * f]! * p[3 * v]! - n[3 * f + 1]! * p[3 * v + 1]! - n[3 * f + 2]! * p[3 * v + 2]!;
  return Math.abs(over - amounts[f]!) < 1e-5 ? amounts[f]! : over;
}

/** Which of a fan's triangles, counted on from `begin`, leans most from both its first and its last. */
function acrossBoth(n: Float64Array, fan: readonly number[], begin: number, count: number): number {
  const normal = (i: number): number => 3 * Math.floor(fan[i % count]! / 3);
  const dot = (f: number, g: number): number => n[f]! * n[g]! + n[f + 1]! * n[g + 1]! + n[f + 2]! * n[g + 2]!;
  let best = begin;
  let least = Number.POSITIVE_INFINITY;
  for (let i = begin; i < begin + count - 1; i++) {
    const f = normal(i);
    const most = Math.max(dot(f, normal(begin)), dot(f, normal(begin + count - 1)));
    if (most < least - 1e-9) [best, least] = [i, most];
  }
  return best;
}

/** Whether any of a vertex's edges is clearly convex. */
function standsOut({ p, halves, normals }: MoveInput, fan: readonly number[], count: number): boolean {
  for (let i = 0; i < count; i++) if (bend(p, halves, normals, fan[i]!) > 0.17) return true;
  return false;
}
