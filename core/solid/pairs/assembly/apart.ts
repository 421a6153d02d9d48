/**
 * What is beyond doubt of two triangles: sides of planes whose heights are clear of rounding. Few branches, since there is
 * no guessing which way they go. Points and normals are given by their addresses.
 */
import { layNormal, normalAt, pointsAt } from './records';

/**
 * More than the relative rounding of a height over a plane: eight operations of 2⁻⁵³ on each term, as in the first stage
 * of Shewchuk's orient3d ("Adaptive precision floating-point arithmetic", 1997), twice over.
 */
const rounding: f64 = 2e-15;

/** Sides of a plane that a point is on beyond doubt, as bits; 0 says nothing. */
const up: i32 = 1;
const down: i32 = 2;

/** The normal of the wall laid last. */
let wall: usize = 0;

export function keepWallAt(at: usize): void {
  wall = at;
}

/**
 * Whether the triangles that are the i-th and j-th of the order beyond doubt have nothing in common but the corners they
 * share and the edge between them. False says nothing.
 */
export function areClearlyApart(i: i32, j: i32): bool {
  const f = pointsAt(i);
  const g = pointsAt(j);
  const a0 = load<usize>(f);
  const a1 = load<usize>(f, 4);
  const a2 = load<usize>(f, 8);
  const b0 = load<usize>(g);
  const b1 = load<usize>(g, 4);
  const b2 = load<usize>(g, 8);
  const has0 = i32(a0 === b0) | i32(a0 === b1) | i32(a0 === b2);
  const has1 = i32(a1 === b0) | i32(a1 === b1) | i32(a1 === b2);
  const has2 = i32(a2 === b0) | i32(a2 === b1) | i32(a2 === b2);
  const normal = normalAt(i);
  const other = normalAt(j);
  const shared = has0 + has1 + has2;
  if (shared === 1) {
    // Turned so that the corner in common comes first.
    const o = has0 ? a0 : has1 ? a1 : a2;
    const a = has0 ? a1 : has1 ? a2 : a0;
    const b = has0 ? a2 : has1 ? a0 : a1;
    const c = o === b0 ? b1 : o === b1 ? b2 : b0;
    const d = o === b0 ? b2 : o === b1 ? b0 : b1;
    return cornerApart(normal, other, o, a, b, c, d);
  }
  if (shared === 0) return separateApart(normal, other, a0, a1, a2, b0, b1, b2);
  if (shared === 3) return false;
  // Turned so that its own corner comes first.
  const c = has0 ? (has1 ? a2 : a1) : a0;
  const u = has0 ? (has1 ? a0 : a2) : a1;
  const v = has0 ? (has1 ? a1 : a0) : a2;
  const d = b0 !== u && b0 !== v ? b0 : b1 !== u && b1 !== v ? b1 : b2;
  return edgeApart(normal, c, u, v, d);
}

/** Triangles u v c and v u d: apart unless folded flat on one another. */
function edgeApart(normal: usize, c: usize, u: usize, v: usize, d: usize): bool {
  return sideOf(normal, u, d) !== 0 || wallParts(normal, u, v, c, d, d, d);
}

/**
 * Triangles o a b and o c d. With vectors from o, (A × B · D) C − (A × B · C) D = (C × D · A) B − (C × D · B) A, and both
 * lie on the line that the planes have in common. So where the triangles meet in more than o, of c and b one sign of
 * height goes with the opposite one of d and a, noughts going with either.
 */
function cornerApart(normal: usize, other: usize, o: usize, a: usize, b: usize, c: usize, d: usize): bool {
  const rising = sideOf(normal, o, c) | sideOf(other, o, b);
  const falling = sideOf(normal, o, d) | sideOf(other, o, a);
  const cannotRise = ((rising & down) | (falling & up)) !== 0;
  const cannotFall = ((rising & up) | (falling & down)) !== 0;
  if (cannotRise && cannotFall) return true;
  return (rising | falling) === 0 && cornerApartInPlane(normal, other, o, a, b, c, d);
}

function cornerApartInPlane(
  normal: usize,
  other: usize,
  o: usize,
  a: usize,
  b: usize,
  c: usize,
  d: usize,
): bool {
  if (!isWithin(normal, o, c) || !isWithin(normal, o, d)) return false;
  return (
    wallParts(normal, o, a, b, c, d, d) ||
    wallParts(normal, b, o, a, c, d, d) ||
    wallParts(other, o, c, d, a, b, b) ||
    wallParts(other, d, o, c, a, b, b)
  );
}

/** Triangles without a common corner. */
function separateApart(
  normal: usize,
  other: usize,
  a: usize,
  b: usize,
  c: usize,
  p: usize,
  q: usize,
  r: usize,
): bool {
  const sp = sideOf(normal, a, p);
  const sq = sideOf(normal, a, q);
  const sr = sideOf(normal, a, r);
  if ((sp & sq & sr) !== 0) return true;
  const sa = sideOf(other, p, a);
  const sb = sideOf(other, p, b);
  const sc = sideOf(other, p, c);
  if ((sa & sb & sc) !== 0) return true;
  if (sp * sq * sr * sa * sb * sc !== 0) {
    // Of each triangle one corner is alone on its side of the other's plane. It comes first.
    const sd = sb === sc ? sa : sc === sa ? sb : sc;
    const d = sb === sc ? a : sc === sa ? b : c;
    const e = sb === sc ? b : sc === sa ? c : a;
    const f = sb === sc ? c : sc === sa ? a : b;
    const sk = sq === sr ? sp : sr === sp ? sq : sr;
    const k = sq === sr ? p : sr === sp ? q : r;
    const l = sq === sr ? q : sr === sp ? r : p;
    const m = sq === sr ? r : sr === sp ? p : q;
    // One that is below is above the plane turned over, which its triangle's other corners change places for.
    return sk === up
      ? sd === up
        ? straddlesBeside(d, e, f, k, l, m)
        : straddlesBeside(d, e, f, k, m, l)
      : sd === up
        ? straddlesBeside(d, f, e, k, l, m)
        : straddlesBeside(d, f, e, k, m, l);
  }
  return (
    touchesBeside(normal, a, b, c, p, q, r, sp, sq, sr) || touchesBeside(other, p, q, r, a, b, c, sa, sb, sc)
  );
}

/**
 * Whether triangles that straddle each other's planes lie beside each other on the line that these have in common. Corners
 * a and p are alone on their sides, above the other's plane (Guigue and Devillers, "Fast and robust triangle-triangle
 * overlap test using orientation predicates", 2003, from memory).
 */
function straddlesBeside(a: usize, b: usize, c: usize, p: usize, q: usize, r: usize): bool {
  return sideOfThree(a, b, p, q) === up || sideOfThree(a, c, r, p) === up;
}

/** The side of a point of the plane through three others. */
function sideOfThree(a: usize, b: usize, c: usize, point: usize): i32 {
  const x = load<f64>(a);
  const y = load<f64>(a, 8);
  const z = load<f64>(a, 16);
  layNormal(
    wall,
    load<f64>(b) - x,
    load<f64>(b, 8) - y,
    load<f64>(b, 16) - z,
    load<f64>(c) - x,
    load<f64>(c, 8) - y,
    load<f64>(c, 16) - z,
  );
  return sideOf(wall, a, point);
}

/** Whether p q r, with such sides, is on one side of the plane of a b c, or in it, and reaches that only beyond an edge of a b c. */
function touchesBeside(
  normal: usize,
  a: usize,
  b: usize,
  c: usize,
  p: usize,
  q: usize,
  r: usize,
  sp: i32,
  sq: i32,
  sr: i32,
): bool {
  if ((sp | sq | sr) === (up | down)) return false;
  if (sp === 0 && !isWithin(normal, a, p)) return false;
  if (sq === 0 && !isWithin(normal, a, q)) return false;
  if (sr === 0 && !isWithin(normal, a, r)) return false;
  // Those of p, q and r that are in the plane, one of them in place of the others.
  const k = sp === 0 ? p : sq === 0 ? q : r;
  const l = sq === 0 ? q : k;
  const m = sr === 0 ? r : k;
  return (
    wallParts(normal, a, b, c, k, l, m) ||
    wallParts(normal, b, c, a, k, l, m) ||
    wallParts(normal, c, a, b, k, l, m)
  );
}

/** Whether a wall on the edge from u to v, along the triangle's normal, has its third corner strictly on one side and p, q and r on the other. */
function wallParts(normal: usize, u: usize, v: usize, third: usize, p: usize, q: usize, r: usize): bool {
  layNormal(
    wall,
    load<f64>(v) - load<f64>(u),
    load<f64>(v, 8) - load<f64>(u, 8),
    load<f64>(v, 16) - load<f64>(u, 16),
    load<f64>(normal),
    load<f64>(normal, 8),
    load<f64>(normal, 16),
  );
  return (
    sideOf(wall, u, p) === up &&
    (q === p || sideOf(wall, u, q) === up) &&
    (r === p || sideOf(wall, u, r) === up) &&
    sideOf(wall, u, third) === down
  );
}

/** The side of a point of the plane through another. */
function sideOf(normal: usize, through: usize, point: usize): i32 {
  const dx = load<f64>(point) - load<f64>(through);
  const dy = load<f64>(point, 8) - load<f64>(through, 8);
  const dz = load<f64>(point, 16) - load<f64>(through, 16);
  const height = dx * load<f64>(normal) + dy * load<f64>(normal, 8) + dz * load<f64>(normal, 16);
  const doubt =
    rounding *
    (abs(dx) * load<f64>(normal, 24) + abs(dy) * load<f64>(normal, 32) + abs(dz) * load<f64>(normal, 40));
  return (i32(height > doubt) * up) | (i32(height < -doubt) * down);
}

/**
 * Whether a point is beyond doubt in the plane through another: every term of its height is nought, which float32 corners
 * cannot round to (a plane along two axes).
 */
function isWithin(normal: usize, through: usize, point: usize): bool {
  const x = abs(load<f64>(point) - load<f64>(through)) * load<f64>(normal, 24);
  const y = abs(load<f64>(point, 8) - load<f64>(through, 8)) * load<f64>(normal, 32);
  const z = abs(load<f64>(point, 16) - load<f64>(through, 16)) * load<f64>(normal, 40);
  return x + y + z === 0;
}
