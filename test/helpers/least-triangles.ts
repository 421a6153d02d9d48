/**
 * The least number of triangles for a toothed body within a tolerance, counted here without the program's sampler.
 *
 * The bound is for meshes whose corners lie on the exact surface, that keep its edges (tip corners and side faces) and
 * whose toothed sides are strips between cross-sections, as a loft makes them:
 *
 * - The tip corners run along helices. A chord of a helix at radius r that spans the angle ψ lies r (1 − cos ψ/2)
 *   inside the tip cylinder, so at least Ψ / (2 arccos(1 − t/r)) strips follow the whole turn Ψ.
 * - Every pitch of every section is a chain of chords from tip corner to tip corner. The fewest chords are found
 *   greedily on a dense polyline of the exact curve, each as long as it can be: the chord itself must stay within the
 *   tolerance and so must the middle of one of the two diagonals that can split its quad of the strip. (A chain that
 *   never gets further than the greedy one needs no fewer chords.)
 * - Two triangles for each chord and strip; n corners of a flat side face with h holes make n + 2 h − 2 triangles. Of
 *   all numbers of strips the one that makes the fewest triangles counts.
 *
 * The rest of the quad is not looked at: the bound may be too low, not too high.
 */

export type Flat = readonly [number, number];

/** Distance of p from the segment ab. */
function offChord(p: Flat, a: Flat, b: Flat): number {
  const [dx, dy] = [b[0] - a[0], b[1] - a[1]];
  const f = Math.min(1, Math.max(0, ((p[0] - a[0]) * dx + (p[1] - a[1]) * dy) / (dx * dx + dy * dy || 1)));
  return Math.hypot(p[0] - a[0] - f * dx, p[1] - a[1] - f * dy);
}

/** A point of a dense curve, and the share of a distance in the section that is left along the surface's normal. */
export type CurvePoint = readonly [x: number, y: number, lean: number];

/**
 * Shares for a curve that is the section of a helicoid turning by `rate` rad/mm. Its normal leans out of the section by
 * the angle whose tangent is the rate times the arm of the section's normal about the axis.
 */
export function withLean(curve: readonly Flat[], rate: number): readonly CurvePoint[] {
  return curve.map(([x, y], i) => {
    const [p, q] = [curve[Math.max(0, i - 1)] as Flat, curve[Math.min(curve.length - 1, i + 1)] as Flat];
    const [dx, dy] = [q[0] - p[0], q[1] - p[1]];
    const arm = (x * dx + y * dy) / (Math.hypot(dx, dy) || 1);
    return [x, y, 1 / Math.hypot(1, rate * arm)];
  });
}

/** Distance of a point from the part of the curve near rows i to j, along the surface's normal. */
export function offCurve(curve: readonly CurvePoint[], p: Flat, i: number, j: number): number {
  let [least, lean] = [Number.POSITIVE_INFINITY, 1];
  const beyond = j - i + 2;
  for (let k = Math.max(0, i - beyond); k < Math.min(curve.length - 1, j + beyond); k++) {
    const [a, b] = [curve[k] as CurvePoint, curve[k + 1] as CurvePoint];
    const off = offChord(p, [a[0], a[1]], [b[0], b[1]]);
    if (off < least) [least, lean] = [off, a[2]];
  }
  return least * lean;
}

const turnedBy = ([x, y]: CurvePoint, angle: number): Flat => [
  x * Math.cos(angle) - y * Math.sin(angle),
  x * Math.sin(angle) + y * Math.cos(angle),
];

/** Whether the chord from point i to point j holds, and in a strip that turns by `strip` a diagonal over it. */
function chordHolds(
  curve: readonly CurvePoint[],
  i: number,
  j: number,
  tolerance: number,
  strip: number,
): boolean {
  const at = (k: number): Flat => [(curve[k] as CurvePoint)[0], (curve[k] as CurvePoint)[1]];
  const [a, b] = [at(i), at(j)];
  for (let k = i + 1; k < j; k++) {
    if (offChord(at(k), a, b) * (curve[k] as CurvePoint)[2] > tolerance) return false;
  }
  if (strip === 0) return true;
  return [strip / 2, -strip / 2].some((turn) => {
    const [p, q] = [turnedBy(curve[i] as CurvePoint, -turn), turnedBy(curve[j] as CurvePoint, turn)];
    return offCurve(curve, [(p[0] + q[0]) / 2, (p[1] + q[1]) / 2], i, j) <= tolerance;
  });
}

/** Fewest chords along a dense open polyline, from its first point to its last, in strips that turn by `strip` rad. */
export function fewestChords(curve: readonly CurvePoint[], tolerance: number, strip = 0): number {
  let chords = 0;
  for (let at = 0; at < curve.length - 1; chords++) {
    let reach = at + 1;
    // Past an inflection a longer chord may hold again where a shorter one did not: looks on for twice the way.
    for (let j = at + 1; j < curve.length && j <= at + 2 * (reach - at) + 2; j++) {
      if (chordHolds(curve, at, j, tolerance, strip)) reach = j;
    }
    at = reach;
  }
  return chords;
}

/** Fewest sides of a circle within the tolerance. */
export const fewestSides = (radius: number, tolerance: number): number =>
  Math.ceil(Math.PI / Math.acos(1 - tolerance / radius) - 1e-9);

/** Fewest strips along a helix that turns by `turn` at radius `radius`. */
export const fewestStrips = (radius: number, turn: number, tolerance: number): number =>
  Math.max(1, Math.ceil(Math.abs(turn) / (2 * Math.acos(1 - tolerance / radius)) - 1e-9));

export interface LoftBound {
  /** Chords of one pitch in strips that each turn by the angle given, rad. */
  readonly chords: (strip: number) => number;
  readonly teeth: number;
  /** Radius of the tip corners, mm. */
  readonly cornerRadius: number;
  /** What each length between sections that must be (side faces, apex) turns by, rad. */
  readonly turns: readonly number[];
  /** Sides of a plain cylinder about the axis (bore or outside), 0 for none. */
  readonly cylinder: number;
}

export function leastTriangles(bound: LoftBound, tolerance: number): number {
  const { teeth, cylinder, turns } = bound;
  const few = turns.map((turn) => fewestStrips(bound.cornerRadius, turn, tolerance));
  const straight = turns.every((turn) => turn === 0);
  let least = Number.POSITIVE_INFINITY;
  const fewest = bound.chords(0);
  for (let more = 0; ; more++) {
    const strips = few.map((n) => n + more);
    const layers = strips.reduce((a, b) => a + b, 0);
    const total = (chords: number): number => {
      const face = chords * teeth + cylinder - (cylinder > 0 ? 0 : 2);
      return 2 * chords * teeth * layers + 2 * cylinder + 2 * face;
    };
    if (total(fewest) >= least) return least;
    const widest = Math.max(...turns.map((turn, i) => Math.abs(turn) / (strips[i] as number)));
    least = Math.min(least, total(straight ? fewest : bound.chords(widest)));
    if (straight) return least;
  }
}
