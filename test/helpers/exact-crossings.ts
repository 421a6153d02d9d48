/**
 * Whether two triangles have more in common than the corners they share, by whole-number arithmetic alone: the
 * common part of the two is worked out as fractions and looked at. Slow and plain; shares nothing with the program.
 */

export type Whole = readonly [bigint, bigint, bigint];
export type WholeTriangle = readonly [Whole, Whole, Whole];

/** A fraction with a positive denominator. */
interface Fraction {
  readonly n: bigint;
  readonly d: bigint;
}
const fraction = (n: bigint, d: bigint): Fraction => (d < 0n ? { n: -n, d: -d } : { n, d });
const compare = (a: Fraction, b: Fraction): number => {
  const difference = a.n * b.d - b.n * a.d;
  return difference > 0n ? 1 : difference < 0n ? -1 : 0;
};

/** float32 values as whole multiples of 2^-100; those below 2^-100 are not for this. */
export const wholeOf = (p: readonly number[]): Whole =>
  p.map((v) => {
    if (v === 0) return 0n;
    const exponent = Math.floor(Math.log2(Math.abs(v)));
    return BigInt(v * 2 ** (30 - exponent)) << BigInt(exponent + 70);
  }) as unknown as Whole;

const minus = (a: Whole, b: Whole): Whole => [a[0] - b[0], a[1] - b[1], a[2] - b[2]];
const cross = (a: Whole, b: Whole): Whole => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
];
const dot = (a: Whole, b: Whole): bigint => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
const normalOf = ([a, b, c]: WholeTriangle): Whole => cross(minus(b, a), minus(c, a));
const same = (a: Whole, b: Whole): boolean => a.every((v, k) => v === b[k]);

export const hasNoArea = (t: WholeTriangle): boolean => normalOf(t).every((v) => v === 0n);

export function crossExactly(s: WholeTriangle, t: WholeTriangle): boolean {
  const shared = s.filter((p) => t.some((q) => same(p, q)));
  if (shared.length === 3) return true;
  const [ns, nt] = [normalOf(s), normalOf(t)];
  const direction = cross(ns, nt);
  if (direction.every((v) => v === 0n)) {
    if (dot(ns, minus(t[0], s[0])) !== 0n) return false;
    return flatCross(s, t, ns, shared);
  }
  const along = direction.findIndex((v) => v !== 0n) as 0 | 1 | 2;
  const a = stretch(s, nt, t[0], along);
  const b = stretch(t, ns, s[0], along);
  if (!a || !b) return false;
  const low = compare(a[0], b[0]) > 0 ? a[0] : b[0];
  const high = compare(a[1], b[1]) < 0 ? a[1] : b[1];
  const order = compare(low, high);
  if (order > 0) return false;
  // Two planes share one line: with a common edge no more than that edge, with a common corner at least it.
  return shared.length === 0 || (shared.length === 1 && order < 0);
}

/** The stretch of the plane's line that lies in the triangle, by one coordinate. */
function stretch(
  triangle: WholeTriangle,
  normal: Whole,
  origin: Whole,
  along: 0 | 1 | 2,
): readonly [Fraction, Fraction] | null {
  const heights = triangle.map((p) => dot(normal, minus(p, origin)));
  const points: Fraction[] = [];
  for (let i = 0; i < 3; i++) {
    const j = (i + 1) % 3;
    const [hi, hj] = [heights[i] as bigint, heights[j] as bigint];
    const [pi, pj] = [(triangle[i] as Whole)[along], (triangle[j] as Whole)[along]];
    if (hi === 0n) points.push(fraction(pi, 1n));
    if ((hi < 0n && hj > 0n) || (hi > 0n && hj < 0n)) points.push(fraction(pi * hj - pj * hi, hj - hi));
  }
  points.sort(compare);
  const [first, last] = [points[0], points.at(-1)];
  return first && last ? [first, last] : null;
}

type Flat = readonly [Fraction, Fraction];

/** Clips one triangle by the other in their common plane and looks at what is left. */
function flatCross(s: WholeTriangle, t: WholeTriangle, normal: Whole, shared: readonly Whole[]): boolean {
  const drop = normal.findIndex((v) => v !== 0n);
  const [x, y] = [0, 1, 2].filter((k) => k !== drop) as [0 | 1 | 2, 0 | 1 | 2];
  const flat = (p: Whole): Flat => [fraction(p[x], 1n), fraction(p[y], 1n)];
  let left: Flat[] = t.map(flat);
  const clip = s.map(flat);
  const turn = turnOf(clip[0] as Flat, clip[1] as Flat, clip[2] as Flat).n > 0n ? 1n : -1n;
  for (let i = 0; i < 3; i++) {
    const [a, b] = [clip[i] as Flat, clip[(i + 1) % 3] as Flat];
    const depth = (p: Flat): Fraction => {
      const f = turnOf(a, b, p);
      return { n: f.n * turn, d: f.d };
    };
    left = left.flatMap((p, k) => {
      const q = left[(k + 1) % left.length] as Flat;
      const [dp, dq] = [depth(p), depth(q)];
      const kept = dp.n >= 0n ? [p] : [];
      if ((dp.n > 0n && dq.n < 0n) || (dp.n < 0n && dq.n > 0n)) kept.push(between(p, q, dp, dq));
      return kept;
    });
  }
  const corners = shared.map(flat);
  return left.some((p) => {
    if (corners.length === 2) return turnOf(corners[0] as Flat, corners[1] as Flat, p).n !== 0n;
    return !corners.some((q) => compare(p[0], q[0]) === 0 && compare(p[1], q[1]) === 0);
  });
}

function turnOf(a: Flat, b: Flat, c: Flat): Fraction {
  const sub = (u: Fraction, v: Fraction): Fraction => fraction(u.n * v.d - v.n * u.d, u.d * v.d);
  const mul = (u: Fraction, v: Fraction): Fraction => fraction(u.n * v.n, u.d * v.d);
  return sub(mul(sub(b[0], a[0]), sub(c[1], a[1])), mul(sub(b[1], a[1]), sub(c[0], a[0])));
}

/** The point of p q at depth nought. */
function between(p: Flat, q: Flat, dp: Fraction, dq: Fraction): Flat {
  // Share of q: dp / (dp − dq).
  const [n, d] = [dp.n * dq.d, dp.n * dq.d - dq.n * dp.d];
  const mix = (u: Fraction, v: Fraction): Fraction =>
    fraction(u.n * v.d * (d - n) + v.n * u.d * n, u.d * v.d * d);
  return [mix(p[0], q[0]), mix(p[1], q[1])];
}
