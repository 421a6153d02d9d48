import { maths } from '../../maths/maths.js';
import { convexHull } from '../../shape/convex-hull.js';
import { along, dot, lengthOf, plus, times, unit } from '../../shape/vector.js';
import type { Mesh, Vec3 } from '../../solid/types.js';
import { fanOf, nextHalf } from './halves.js';
import { Planes } from './meet.js';
import { bend, edgeKind, heightAt, kindOfEdge, type MovedCorners, type MoveInput } from './move-corners.js';

/** How far pieces reach into the body and over their neighbours, mm: parts that join overlap by a real amount. */
const sunk = 0.02;
const spread = 3e-3;

/**
 * How far a piece's top ends below the moved plane, mm: each a little differently, since tops that lie in one plane
 * but for rounding cannot be united cleanly.
 */
const lowered = (i: number): number => 3e-4 + 1e-4 * ((7 * i) % 17);

/**
 * Convex pieces that together fill what lies between some triangles and their moved planes: a prism on each, a wedge
 * at each convex edge, a cap at each convex vertex.
 */
export function convexPieces(
  input: MoveInput,
  moved: MovedCorners,
  chosen: Uint8Array,
  whole: Uint8Array,
): Mesh[] {
  const { p, halves, normals, amounts } = input;
  const { t, opposite } = halves;
  const pieces: Mesh[] = [];
  const add = (points: readonly Vec3[]): void => {
    const hull = convexHull(points);
    if (hull) pieces.push(hull);
  };
  const at = (v: number): Vec3 => [p[3 * v]!, p[3 * v + 1]!, p[3 * v + 2]!];
  const normal = (f: number): Vec3 => [normals[3 * f]!, normals[3 * f + 1]!, normals[3 * f + 2]!];
  const vertices = new Set<number>();
  for (let f = 0; f < t.length / 3; f++) {
    if (chosen[f] !== 1) continue;
    const corners = [0, 1, 2].map((k) => at(t[3 * f + k]!));
    const n = normal(f);
    if (amounts[f]! > 0) {
      const less = lowered(pieces.length);
      const middle = times(plus(plus(corners[0]!, corners[1]!), corners[2]!), 1 / 3);
      const wide = corners.map((q) => along(q, unit(along(q, middle, -1)), spread));
      add([
        ...wide.map((q) => along(q, n, -sunk)),
        ...wide.map((q, k) => along(q, n, heightAt(input, f, t[3 * f + k]!) - less)),
      ]);
      if (whole[f] === 1) {
        const tops = [0, 1, 2].map((k) => {
          const q = 3 * moved.to[3 * f + k]!;
          return [moved.points[q]!, moved.points[q + 1]!, moved.points[q + 2]!] as Vec3;
        });
        add([...corners.map((q) => along(q, n, -sunk)), ...tops]);
      }
    }
    for (let h = 3 * f; h < 3 * f + 3; h++) {
      vertices.add(t[h]!);
      const g = Math.floor(opposite[h]! / 3);
      if ((chosen[g] === 1 && g < f) || bend(p, halves, normals, h) < 1e-4) continue;
      const less = lowered(pieces.length);
      const section = wedgeSection(
        input,
        h,
        n,
        normal(g),
        Math.max(0, amounts[f]! - less),
        Math.max(0, amounts[g]! - less),
      );
      if (section.length === 0) continue;
      const [u, w] = [at(t[h]!), at(t[nextHalf(h)]!)];
      const longer = times(unit(along(w, u, -1)), spread + less);
      add([along(u, longer, -1), plus(w, longer)].flatMap((q) => section.map((offset) => plus(q, offset))));
    }
  }
  const fan: number[] = [];
  for (const v of vertices) {
    const count = fanOf(halves, v, fan);
    const cap = vertexCap(input, fan, count, lowered(pieces.length));
    if (cap.length > 3) add(cap.map((offset) => plus(at(v), offset)));
  }
  return pieces;
}

/** Across a convex edge, from the edge: into the body, out along both normals, and where the moved planes meet. */
function wedgeSection(input: MoveInput, h: number, m: Vec3, n: Vec3, dm: number, dn: number): Vec3[] {
  const kind = kindOfEdge(input, h);
  const [d, e] = kind === edgeKind.step ? [Math.min(dm, dn), Math.min(dm, dn)] : [dm, dn];
  if (d === 0 && e === 0) return [];
  const middle = unit(plus(m, n));
  if (lengthOf(middle) === 0) return [];
  const section = [times(middle, -sunk), times(m, d), times(n, e)];
  if (kind !== edgeKind.knife) return [...section, meetTwo(m, n, d, e)];
  const most = input.mitreLimit * Math.max(d, e);
  return [...section, meetTwo(m, middle, d, most), meetTwo(n, middle, e, most)];
}

/** The point nearest the origin on two planes. */
function meetTwo(m: Vec3, n: Vec3, d: number, e: number): Vec3 {
  const c = dot(m, n);
  const s = 1 - c * c;
  if (s < 1e-12) return times(m, d);
  return plus(times(m, (d - c * e) / s), times(n, (e - c * d) / s));
}

/** What stands over a convex vertex within all its moved planes, as points about it; empty for any other vertex. */
function vertexCap(input: MoveInput, fan: readonly number[], count: number, less: number): Vec3[] {
  const { p, halves, normals: n, amounts, mitreLimit } = input;
  const planes = new Planes();
  const middle: [number, number, number] = [0, 0, 0];
  let most = 0;
  for (let i = 0; i < count; i++) {
    if (bend(p, halves, n, fan[i]!) < -0.01) return [];
    const f = Math.floor(fan[i]! / 3);
    planes.add(n[3 * f]!, n[3 * f + 1]!, n[3 * f + 2]!, Math.max(0, amounts[f]! - less), 1);
    for (let k = 0; k < 3; k++) middle[k]! += n[3 * f + k]!;
    most = Math.max(most, amounts[f]!);
  }
  if (most === 0 || planes.size > 24) return [];
  const out = unit(middle);
  const points: Vec3[] = [times(out, -sunk)];
  planes.add(out[0], out[1], out[2], mitreLimit * most, 1);
  const list = Array.from({ length: planes.size }, (_, i) => ({
    n: [planes.n[3 * i]!, planes.n[3 * i + 1]!, planes.n[3 * i + 2]!] as Vec3,
    d: planes.d[i]!,
  }));
  const keep = (x: Vec3): void => {
    if (
      maths.hypot(...x) <= 2 * mitreLimit * most &&
      list.every((plane) => dot(plane.n, x) <= plane.d + 1e-5)
    )
      points.push(x);
  };
  for (const [i, a] of list.entries()) {
    keep(times(a.n, a.d));
    for (const [j, b] of list.entries()) {
      if (j <= i) continue;
      if (dot(a.n, b.n) < 1 - 1e-5) keep(meetTwo(a.n, b.n, a.d, b.d));
      for (const c of list.slice(j + 1)) {
        const x = meetThree(a, b, c);
        if (x) keep(x);
      }
    }
  }
  return points;
}

interface Plane {
  readonly n: Vec3;
  readonly d: number;
}

function meetThree(a: Plane, b: Plane, c: Plane): Vec3 | null {
  const cross = (u: Vec3, v: Vec3): Vec3 => [
    u[1] * v[2] - u[2] * v[1],
    u[2] * v[0] - u[0] * v[2],
    u[0] * v[1] - u[1] * v[0],
  ];
  const bc = cross(b.n, c.n);
  const det = dot(a.n, bc);
  if (Math.abs(det) < 1e-5) return null;
  const sum = plus(plus(times(bc, a.d), times(cross(c.n, a.n), b.d)), times(cross(a.n, b.n), c.d));
  return times(sum, 1 / det);
}
