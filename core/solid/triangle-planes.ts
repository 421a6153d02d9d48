import type { Corners } from './triangle-crossing.js';

/** Normal and, for its rounding, the sums of the normal's terms without their signs. */
const stride = 6;

/**
 * More than the relative rounding of a height over a plane: eight operations of 2⁻⁵³ on each term, as in the
 * first stage of Shewchuk's orient3d ("Adaptive precision floating-point arithmetic", 1997), twice over.
 */
const rounding = 2e-15;

/** The planes of all triangles, for `areClearlyApart`. */
export function trianglePlanes({ p, t }: Corners): Float64Array {
  const planes = new Float64Array(2 * t.length);
  for (let f = 0; f < t.length; f += 3) {
    const a = 3 * t[f]!;
    const b = 3 * t[f + 1]!;
    const c = 3 * t[f + 2]!;
    const ux = p[b]! - p[a]!;
    const uy = p[b + 1]! - p[a + 1]!;
    const uz = p[b + 2]! - p[a + 2]!;
    const vx = p[c]! - p[a]!;
    const vy = p[c + 1]! - p[a + 1]!;
    const vz = p[c + 2]! - p[a + 2]!;
    const at = 2 * f;
    planes[at] = uy * vz - uz * vy;
    planes[at + 1] = uz * vx - ux * vz;
    planes[at + 2] = ux * vy - uy * vx;
    planes[at + 3] = Math.abs(uy * vz) + Math.abs(uz * vy);
    planes[at + 4] = Math.abs(uz * vx) + Math.abs(ux * vz);
    planes[at + 5] = Math.abs(ux * vy) + Math.abs(uy * vx);
  }
  return planes;
}

/**
 * Whether two triangles beyond doubt have nothing in common but the corners they share and the edge between
 * them: a plane or, where both lie in one, an edge of either parts them. False says nothing.
 */
export function areClearlyApart(corners: Corners, planes: Float64Array, i: number, j: number): boolean {
  const place = placeOf(corners, planes, i, j);
  if (place !== Place.inPlane)
    return place === Place.beside || placeOf(corners, planes, j, i) === Place.beside;
  return isBeyondEdge(corners, planes, i, j) || isBeyondEdge(corners, planes, j, i);
}

const Place = { unsure: 0, beside: 1, inPlane: 2 } as const;

/** Where the corners of triangle `j` that are not corners of `i` lie: all strictly on one side of the plane of `i`, or all in it. */
function placeOf({ p, t }: Corners, planes: Float64Array, i: number, j: number): number {
  const a = t[3 * i]!;
  const b = t[3 * i + 1]!;
  const c = t[3 * i + 2]!;
  const at = stride * i;
  let above = 0;
  let below = 0;
  let inside = 0;
  for (let f = 3 * j; f < 3 * j + 3; f++) {
    const v = t[f]!;
    if (v === a || v === b || v === c) continue;
    const dx = p[3 * v]! - p[3 * a]!;
    const dy = p[3 * v + 1]! - p[3 * a + 1]!;
    const dz = p[3 * v + 2]! - p[3 * a + 2]!;
    const height = dx * planes[at]! + dy * planes[at + 1]! + dz * planes[at + 2]!;
    const doubt =
      rounding *
      (Math.abs(dx) * planes[at + 3]! + Math.abs(dy) * planes[at + 4]! + Math.abs(dz) * planes[at + 5]!);
    if (height > doubt) above++;
    else if (height < -doubt) below++;
    // Every term is nought, which float32 corners cannot round to: no doubt either (a plane along two axes).
    else if (doubt === 0) inside++;
    else return Place.unsure;
  }
  if (inside > 0) return above + below === 0 ? Place.inPlane : Place.unsure;
  return (above === 0) !== (below === 0) ? Place.beside : Place.unsure;
}

/** For triangles in one plane: whether an edge of `i` has all of `j` strictly beyond it, but for the edge's own corners. */
function isBeyondEdge({ p, t }: Corners, planes: Float64Array, i: number, j: number): boolean {
  const at = stride * i;
  const nx = Math.abs(planes[at]!);
  const ny = Math.abs(planes[at + 1]!);
  const nz = Math.abs(planes[at + 2]!);
  // Seen along the axis that shows most of the triangle.
  const drop = nz >= nx && nz >= ny ? 2 : nx >= ny ? 0 : 1;
  const normal = planes[at + drop]!;
  if (!(Math.abs(normal) > rounding * planes[at + 3 + drop]!)) return false;
  const sense = normal > 0 ? 1 : -1;
  const x = (drop + 1) % 3;
  const y = (drop + 2) % 3;
  for (let e = 0; e < 3; e++) {
    const u = t[3 * i + e]!;
    const v = t[3 * i + ((e + 1) % 3)]!;
    const ex = p[3 * v + x]! - p[3 * u + x]!;
    const ey = p[3 * v + y]! - p[3 * u + y]!;
    let beyond = true;
    for (let f = 3 * j; beyond && f < 3 * j + 3; f++) {
      const q = t[f]!;
      if (q === u || q === v) continue;
      const left = ex * (p[3 * q + y]! - p[3 * u + y]!);
      const right = ey * (p[3 * q + x]! - p[3 * u + x]!);
      beyond = sense * (left - right) < -rounding * (Math.abs(left) + Math.abs(right));
    }
    if (beyond) return true;
  }
  return false;
}
