import { orient2d, orient3d } from 'robust-predicates';

/** Vertex coordinates, x, y, z per vertex, and vertex indices, three per triangle. */
export interface Corners {
  readonly p: Float64Array;
  readonly t: Uint32Array;
}

/**
 * Whether two triangles of a welded mesh meet in anything but the corners or the edge they share. Exact
 * (Shewchuk's adaptive predicates), touching included: a corner that just reaches another triangle's face
 * counts, since a mesh whose triangles meet there without sharing the corner is not one surface.
 * Neither triangle may be degenerate. `i` and `j` are triangle numbers.
 */
export function trianglesCross(mesh: Corners, i: number, j: number): boolean {
  const { t } = mesh;
  let [a0, a1, a2] = [t[3 * i]!, t[3 * i + 1]!, t[3 * i + 2]!];
  let [b0, b1, b2] = [t[3 * j]!, t[3 * j + 1]!, t[3 * j + 2]!];
  const shared =
    Number(a0 === b0 || a0 === b1 || a0 === b2) +
    Number(a1 === b0 || a1 === b1 || a1 === b2) +
    Number(a2 === b0 || a2 === b1 || a2 === b2);
  if (shared === 0) return separateCross(mesh.p, a0, a1, a2, b0, b1, b2);
  if (shared === 3) return true;
  if (shared === 1) {
    // Turn both so that the shared corner comes first.
    while (a0 !== b0 && a0 !== b1 && a0 !== b2) [a0, a1, a2] = [a1, a2, a0];
    while (b0 !== a0) [b0, b1, b2] = [b1, b2, b0];
    return cornerCross(mesh.p, a0, a1, a2, b1, b2);
  }
  // Turn both so that the corner that is not shared comes first.
  while (a0 === b0 || a0 === b1 || a0 === b2) [a0, a1, a2] = [a1, a2, a0];
  while (b0 === a1 || b0 === a2) [b0, b1, b2] = [b1, b2, b0];
  return edgeCross(mesh.p, a0, a1, a2, b0);
}

/** Triangles u v c and u v d: they overlap only when folded flat on one another. */
function edgeCross(p: Float64Array, c: number, u: number, v: number, d: number): boolean {
  if (side(p, u, v, c, d) !== 0) return false;
  const drop = dominantAxis(p, u, v, c);
  return turn(p, u, v, c, drop) > 0 === turn(p, u, v, d, drop) > 0;
}

/** Triangles o a b and o c d. */
function cornerCross(p: Float64Array, o: number, a: number, b: number, c: number, d: number): boolean {
  const sc = side(p, o, a, b, c);
  const sd = side(p, o, a, b, d);
  if (sc === 0 && sd === 0) {
    const drop = dominantAxis(p, o, a, b);
    return (
      inSector(p, o, a, b, c, drop) ||
      inSector(p, o, a, b, d, drop) ||
      inSector(p, o, c, d, a, drop) ||
      inSector(p, o, c, d, b, drop)
    );
  }
  if (sc * sd <= 0 && pierces(p, c, d, o, a, b)) return true;
  const sa = side(p, o, c, d, a);
  const sb = side(p, o, c, d, b);
  return sa * sb <= 0 && pierces(p, a, b, o, c, d);
}

/** Triangles without a common corner. */
function separateCross(
  p: Float64Array,
  a0: number,
  a1: number,
  a2: number,
  b0: number,
  b1: number,
  b2: number,
): boolean {
  const s0 = side(p, a0, a1, a2, b0);
  const s1 = side(p, a0, a1, a2, b1);
  const s2 = side(p, a0, a1, a2, b2);
  if ((s0 > 0 && s1 > 0 && s2 > 0) || (s0 < 0 && s1 < 0 && s2 < 0)) return false;
  if (s0 === 0 && s1 === 0 && s2 === 0) {
    const drop = dominantAxis(p, a0, a1, a2);
    return !parted(p, a0, a1, a2, b0, b1, b2, drop) && !parted(p, b0, b1, b2, a0, a1, a2, drop);
  }
  const r0 = side(p, b0, b1, b2, a0);
  const r1 = side(p, b0, b1, b2, a1);
  const r2 = side(p, b0, b1, b2, a2);
  if ((r0 > 0 && r1 > 0 && r2 > 0) || (r0 < 0 && r1 < 0 && r2 < 0)) return false;
  // Where two triangles meet, an edge of one pierces the other. An edge lying in the other's plane need not
  // be tried: the ends of what it shares are found by its neighbours.
  return (
    (straddles(s0, s1) && pierces(p, b0, b1, a0, a1, a2)) ||
    (straddles(s1, s2) && pierces(p, b1, b2, a0, a1, a2)) ||
    (straddles(s2, s0) && pierces(p, b2, b0, a0, a1, a2)) ||
    (straddles(r0, r1) && pierces(p, a0, a1, b0, b1, b2)) ||
    (straddles(r1, r2) && pierces(p, a1, a2, b0, b1, b2)) ||
    (straddles(r2, r0) && pierces(p, a2, a0, b0, b1, b2))
  );
}

const straddles = (s: number, r: number): boolean => s * r <= 0 && (s !== 0 || r !== 0);

/** Whether the line q r passes through the triangle, edges included; q r is not in its plane. */
function pierces(p: Float64Array, q: number, r: number, a: number, b: number, c: number): boolean {
  const s0 = side(p, q, r, a, b);
  const s1 = side(p, q, r, b, c);
  const s2 = side(p, q, r, c, a);
  return (s0 >= 0 && s1 >= 0 && s2 >= 0) || (s0 <= 0 && s1 <= 0 && s2 <= 0);
}

/** Whether an edge of the first coplanar triangle has the second wholly and strictly outside. */
function parted(
  p: Float64Array,
  a0: number,
  a1: number,
  a2: number,
  b0: number,
  b1: number,
  b2: number,
  drop: number,
): boolean {
  const sense = turn(p, a0, a1, a2, drop) > 0 ? 1 : -1;
  const outside = (u: number, v: number): boolean =>
    sense * turn(p, u, v, b0, drop) < 0 &&
    sense * turn(p, u, v, b1, drop) < 0 &&
    sense * turn(p, u, v, b2, drop) < 0;
  return outside(a0, a1) || outside(a1, a2) || outside(a2, a0);
}

/** Whether the ray from o to q lies in the closed angle a o b, all in one plane. */
function inSector(p: Float64Array, o: number, a: number, b: number, q: number, drop: number): boolean {
  const sense = turn(p, o, a, b, drop) > 0 ? 1 : -1;
  return sense * turn(p, o, a, q, drop) >= 0 && sense * turn(p, o, q, b, drop) >= 0;
}

/** Sign of the volume of the tetrahedron a b c d. */
function side(p: Float64Array, a: number, b: number, c: number, d: number): number {
  const i = 3 * a;
  const j = 3 * b;
  const k = 3 * c;
  const l = 3 * d;
  return Math.sign(
    orient3d(
      p[i]!,
      p[i + 1]!,
      p[i + 2]!,
      p[j]!,
      p[j + 1]!,
      p[j + 2]!,
      p[k]!,
      p[k + 1]!,
      p[k + 2]!,
      p[l]!,
      p[l + 1]!,
      p[l + 2]!,
    ),
  );
}

/** Orientation of a b c with one coordinate left out. */
function turn(p: Float64Array, a: number, b: number, c: number, drop: number): number {
  const x = drop === 0 ? 1 : 0;
  const y = drop === 2 ? 1 : 2;
  return orient2d(p[3 * a + x]!, p[3 * a + y]!, p[3 * b + x]!, p[3 * b + y]!, p[3 * c + x]!, p[3 * c + y]!);
}

/** The coordinate to leave out so that the triangle keeps most of its area. */
function dominantAxis(p: Float64Array, a: number, b: number, c: number): number {
  const x = Math.abs(turn(p, a, b, c, 0));
  const y = Math.abs(turn(p, a, b, c, 1));
  const z = Math.abs(turn(p, a, b, c, 2));
  return z >= x && z >= y ? 2 : x >= y ? 0 : 1;
}

/** Whether a triangle has exactly no area: its corners lie on one line. */
export function isFlat({ p, t }: Corners, i: number): boolean {
  const a = 3 * t[3 * i]!;
  const b = 3 * t[3 * i + 1]!;
  const c = 3 * t[3 * i + 2]!;
  const ux = p[b]! - p[a]!;
  const uy = p[b + 1]! - p[a + 1]!;
  const uz = p[b + 2]! - p[a + 2]!;
  const vx = p[c]! - p[a]!;
  const vy = p[c + 1]! - p[a + 1]!;
  const vz = p[c + 2]! - p[a + 2]!;
  const n = Math.abs(uy * vz - uz * vy) + Math.abs(uz * vx - ux * vz) + Math.abs(ux * vy - uy * vx);
  const reach = (Math.abs(ux) + Math.abs(uy) + Math.abs(uz)) * (Math.abs(vx) + Math.abs(vy) + Math.abs(vz));
  // Clear of rounding: no need to ask exactly.
  if (n > 1e-14 * reach) return false;
  return [0, 1, 2].every((drop) => turn(p, a / 3, b / 3, c / 3, drop) === 0);
}
