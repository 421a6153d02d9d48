import { maths } from '../maths/maths.js';
import type { Mesh, Vec3 } from '../solid/types.js';
import { distanceOf } from './vector.js';

const leafSize = 4;

/** What a ray meets first. */
export interface Hit {
  /** mm along the ray. */
  readonly distance: number;
  readonly triangle: number;
}

/**
 * Boxes round the triangles of a mesh, long ones in pieces, halved at the middle of their longest side, to find what
 * rays meet.
 */
export class RayTree {
  readonly #p: Float64Array;
  readonly #t: Uint32Array;
  /** Triangles of the pieces, in the order of the leaves; the pieces' boxes, six numbers each. */
  readonly #order: Uint32Array;
  /** Six a node: least x, y, z, greatest x, y, z. Node n has children 2n and 2n + 1. */
  readonly #boxes: Float64Array;
  readonly #depth: number;
  /** Nodes from this number on are leaves; where each begins in the order. */
  readonly #leaves: number;
  readonly #starts: Uint32Array;
  readonly #stack = new Int32Array(128);

  /** @param piece longest side, mm, of the pieces that triangles are taken in. */
  constructor(mesh: Mesh, piece: number) {
    this.#p = Float64Array.from(mesh.positions);
    this.#t = mesh.triangles;
    const pieces = cutInPieces(mesh, piece);
    const count = pieces.triangles.length;
    this.#depth = Math.max(0, Math.ceil(maths.log2(count / leafSize)));
    this.#leaves = maths.pow(2, this.#depth);
    this.#starts = new Uint32Array(this.#leaves + 1).fill(count);
    this.#boxes = new Float64Array(6 * maths.pow(2, this.#depth + 1));
    const order = Uint32Array.from({ length: count }, (_, i) => i);
    this.#build(1, order, 0, 0, pieces.boxes);
    this.#order = order.map((n) => pieces.triangles[n]!);
  }

  #build(node: number, order: Uint32Array, start: number, depth: number, pieces: Float64Array): void {
    const b = 6 * node;
    const boxes = this.#boxes;
    boxes.fill(Number.POSITIVE_INFINITY, b, b + 3);
    boxes.fill(Number.NEGATIVE_INFINITY, b + 3, b + 6);
    for (const n of order)
      for (let k = 0; k < 3; k++) {
        boxes[b + k] = Math.min(boxes[b + k]!, pieces[6 * n + k]!);
        boxes[b + 3 + k] = Math.max(boxes[b + 3 + k]!, pieces[6 * n + 3 + k]!);
      }
    if (depth === this.#depth) {
      this.#starts[node - this.#leaves] = start;
      return;
    }
    const sides = [0, 1, 2].map((k) => boxes[b + 3 + k]! - boxes[b + k]!);
    const axis = sides.indexOf(Math.max(...sides));
    const centre = (n: number): number => pieces[6 * n + axis]! + pieces[6 * n + 3 + axis]!;
    order.sort((f, g) => centre(f) - centre(g));
    const middle = order.length >> 1;
    this.#build(2 * node, order.subarray(0, middle), start, depth + 1, pieces);
    this.#build(2 * node + 1, order.subarray(middle), start + middle, depth + 1, pieces);
  }

  /** The first triangle met within `most` mm of a point along a unit direction, one of them left out; null for none. */
  first(
    [x, y, z]: readonly [number, number, number],
    [dx, dy, dz]: readonly [number, number, number],
    most: number,
    but: number,
  ): Hit | null {
    let best = most;
    let found = -1;
    const stack = this.#stack;
    let top = 0;
    stack[top++] = 1;
    while (top > 0) {
      const node = stack[--top]!;
      if (!this.#meets(node, x, y, z, dx, dy, dz, best)) continue;
      if (node < this.#leaves) {
        stack[top++] = 2 * node;
        stack[top++] = 2 * node + 1;
        continue;
      }
      const leaf = node - this.#leaves;
      for (let i = this.#starts[leaf]!; i < this.#starts[leaf + 1]!; i++) {
        const f = this.#order[i]!;
        if (f === but) continue;
        const t = this.#distance(f, x, y, z, dx, dy, dz);
        if (t < best) {
          best = t;
          found = f;
        }
      }
    }
    return found < 0 ? null : { distance: best, triangle: found };
  }

  #meets(n: number, x: number, y: number, z: number, dx: number, dy: number, dz: number, most: number) {
    const boxes = this.#boxes;
    const b = 6 * n;
    let near = 0;
    let far = most;
    for (let k = 0; k < 3; k++) {
      const o = k === 0 ? x : k === 1 ? y : z;
      const d = k === 0 ? dx : k === 1 ? dy : dz;
      if (Math.abs(d) < 1e-15) {
        if (o < boxes[b + k]! - 1e-9 || o > boxes[b + 3 + k]! + 1e-9) return false;
        continue;
      }
      const t0 = (boxes[b + k]! - 1e-9 - o) / d;
      const t1 = (boxes[b + 3 + k]! + 1e-9 - o) / d;
      near = Math.max(near, Math.min(t0, t1));
      far = Math.min(far, Math.max(t0, t1));
      if (near > far) return false;
    }
    return true;
  }

  /** Where a ray meets a triangle (Möller and Trumbore, 1997), mm; infinite where it does not, or behind. */
  #distance(f: number, x: number, y: number, z: number, dx: number, dy: number, dz: number): number {
    const p = this.#p;
    const a = 3 * this.#t[3 * f]!;
    const b = 3 * this.#t[3 * f + 1]!;
    const c = 3 * this.#t[3 * f + 2]!;
    const ux = p[b]! - p[a]!;
    const uy = p[b + 1]! - p[a + 1]!;
    const uz = p[b + 2]! - p[a + 2]!;
    const vx = p[c]! - p[a]!;
    const vy = p[c + 1]! - p[a + 1]!;
    const vz = p[c + 2]! - p[a + 2]!;
    const hx = dy * vz - dz * vy;
    const hy = dz * vx - dx * vz;
    const hz = dx * vy - dy * vx;
    const det = ux * hx + uy * hy + uz * hz;
    if (Math.abs(det) < 1e-14) return Number.POSITIVE_INFINITY;
    const sx = x - p[a]!;
    const sy = y - p[a + 1]!;
    const sz = z - p[a + 2]!;
    const i = (sx * hx + sy * hy + sz * hz) / det;
    if (i < -1e-9 || i > 1 + 1e-9) return Number.POSITIVE_INFINITY;
    const qx = sy * uz - sz * uy;
    const qy = sz * ux - sx * uz;
    const qz = sx * uy - sy * ux;
    const j = (dx * qx + dy * qy + dz * qz) / det;
    if (j < -1e-9 || i + j > 1 + 1e-9) return Number.POSITIVE_INFINITY;
    const t = (vx * qx + vy * qy + vz * qz) / det;
    return t > 1e-7 ? t : Number.POSITIVE_INFINITY;
  }
}

/** The triangles' boxes, those of long triangles cut up by halving their longest side down to a length. */
function cutInPieces({ positions: p, triangles: t }: Mesh, piece: number) {
  const boxes: number[] = [];
  const triangles: number[] = [];
  const corner = (f: number, k: number): Vec3 => {
    const v = 3 * t[3 * f + k]!;
    return [p[v]!, p[v + 1]!, p[v + 2]!];
  };
  for (let f = 0; f < t.length / 3; f++)
    halveTriangle(corner(f, 0), corner(f, 1), corner(f, 2), piece, (...corners) => {
      triangles.push(f);
      for (const pick of [Math.min, Math.max])
        for (let k = 0; k < 3; k++) boxes.push(pick(corners[0][k]!, corners[1][k]!, corners[2][k]!));
    });
  return { boxes: Float64Array.from(boxes), triangles: Uint32Array.from(triangles) };
}

/** Halves a triangle across its longest side until none of its pieces has a side longer than `most` mm. */
export function halveTriangle(
  a: Vec3,
  b: Vec3,
  c: Vec3,
  most: number,
  visit: (a: Vec3, b: Vec3, c: Vec3) => void,
): void {
  const [ab, bc, ca] = [distanceOf(a, b), distanceOf(b, c), distanceOf(c, a)];
  if (Math.max(ab, bc, ca) <= most) {
    visit(a, b, c);
    return;
  }
  const [p, q, r] = ab >= bc && ab >= ca ? [a, b, c] : bc >= ca ? [b, c, a] : [c, a, b];
  const m: Vec3 = [(p[0] + q[0]) / 2, (p[1] + q[1]) / 2, (p[2] + q[2]) / 2];
  halveTriangle(p, m, r, most, visit);
  halveTriangle(m, q, r, most, visit);
}
