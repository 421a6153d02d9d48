/**
 * The least number of triangles for a toothed body within a tolerance, counted here without the program's sampler.
 *
 * The bound is for meshes whose corners lie on the exact surface, that keep its edges (tip corners and side faces) and
 * whose toothed sides are strips between cross-sections, as a loft makes them:
 *
 * - Every pitch of every section is a chain of chords from tip corner to tip corner. The fewest chords that stay within
 *   the tolerance are found greedily on a dense polyline of the exact curve: each chord goes as far as any can. (The
 *   chain from left to right can start no chord further on than the greedy one, so it can need no fewer.)
 * - The tip corners run along helices. A chord of a helix at radius r that spans the angle ψ lies r (1 − cos ψ/2)
 *   inside the tip cylinder, so at least Ψ / (2 arccos(1 − t/r)) strips follow the whole turn Ψ.
 * - Two triangles for each chord and strip; n corners of a flat side face with h holes make n + 2 h − 2 triangles.
 *
 * Chords and strips are each given the whole tolerance, though they share it: the bound is a little too low.
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

/** Whether the chord from point i to point j of the curve stays within the tolerance of all between. */
function chordHolds(curve: readonly CurvePoint[], i: number, j: number, tolerance: number): boolean {
  const at = (k: number): Flat => [(curve[k] as CurvePoint)[0], (curve[k] as CurvePoint)[1]];
  const [a, b] = [at(i), at(j)];
  for (let k = i + 1; k < j; k++) {
    if (offChord(at(k), a, b) * (curve[k] as CurvePoint)[2] > tolerance) return false;
  }
  return true;
}

/** Fewest chords along a dense open polyline, from its first point to its last. */
export function fewestChords(curve: readonly CurvePoint[], tolerance: number): number {
  let chords = 0;
  for (let at = 0; at < curve.length - 1; chords++) {
    let reach = at + 1;
    // Past an inflection a longer chord may hold again where a shorter one did not: looks on for twice the way.
    for (let j = at + 1; j < curve.length && j <= at + 2 * (reach - at) + 2; j++) {
      if (chordHolds(curve, at, j, tolerance)) reach = j;
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

/** A closed circle or outline of the body besides the teeth: corners of it in either side face. */
export interface LoftBound {
  /** Chords of one pitch. */
  readonly chords: number;
  readonly teeth: number;
  /** Strips from side face to side face, one number for each stretch between mandatory sections. */
  readonly strips: readonly number[];
  /** Sides of a plain cylinder about the axis (bore or outside), 0 for none. */
  readonly cylinder: number;
}

export function leastTriangles({ chords, teeth, strips, cylinder }: LoftBound): number {
  const outline = chords * teeth;
  const layers = strips.reduce((a, b) => a + b, 0);
  const face = outline + cylinder + (cylinder > 0 ? 0 : -2);
  return 2 * outline * layers + 2 * cylinder + 2 * face;
}
