import { maths } from '../maths/maths.js';
import type { Vec2 } from './types.js';

/** A smooth plane curve over a parameter interval; `from` may exceed `to`. */
export interface PlaneCurve {
  readonly from: number;
  readonly to: number;
  readonly at: (t: number) => Vec2;
}

/** Points on a curve whose chords stay within the tolerance, with their parameters (one more than the chords). */
export interface SampledCurve {
  readonly points: readonly Vec2[];
  readonly parameters: readonly number[];
}

const probes = 48;
/** Far more than any sound curve needs: a curve that breaks off or is not a number ends here. */
const mostChords = 100_000;

/**
 * Samples a curve with close to the fewest chords that stay within `tolerance` (mm) of it.
 * Equal chord error means equal ∫√κ ds a chord (a chord of length h errs by κ h²/8), so the parameters are
 * spread evenly over that integral; the true error is then measured and the count raised until it holds.
 * Both ends are always sampled; `least` chords at least.
 */
export function sampleCurve(curve: PlaneCurve, tolerance: number, least = 1): SampledCurve {
  const cumulative = curvatureMeasure(curve);
  const total = cumulative[cumulative.length - 1] as number;
  let chords = Math.max(least, Math.ceil(total / Math.sqrt(8 * tolerance) - 1e-9), 1);
  for (;;) {
    const sampled = spread(curve, cumulative, chords);
    const error = chordError(curve, sampled);
    if (error <= tolerance) return sampled;
    if (!Number.isFinite(error) || chords > mostChords) {
      throw new RangeError(
        `a curve cannot be sampled to ${tolerance} mm: ${chords} chords leave ${error} mm`,
      );
    }
    chords = Math.max(
      chords + 1,
      Math.min(chords * 2, Math.ceil(chords * Math.sqrt(error / tolerance) * 0.98)),
    );
  }
}

/** Running ∫√κ ds at `probes + 1` evenly spaced parameters, from finite differences. */
function curvatureMeasure(curve: PlaneCurve): readonly number[] {
  const step = (curve.to - curve.from) / probes;
  const running = [0];
  for (let i = 0; i < probes; i++) {
    const t = curve.from + i * step;
    const a = curve.at(t);
    const m = curve.at(t + step / 2);
    const b = curve.at(t + step);
    // Sagitta of the little arc: κ h²/8, so √(8 sagitta) = √κ h.
    const sagitta = distanceToSegment(m, a, b);
    running.push((running[i] as number) + Math.sqrt(8 * sagitta));
  }
  return running;
}

function spread(curve: PlaneCurve, cumulative: readonly number[], chords: number): SampledCurve {
  const total = cumulative[probes] as number;
  const step = (curve.to - curve.from) / probes;
  const parameters = [curve.from];
  let cell = 0;
  for (let k = 1; k < chords; k++) {
    const goal = (total * k) / chords;
    while (cell < probes - 1 && (cumulative[cell + 1] as number) < goal) cell++;
    const low = cumulative[cell] as number;
    const width = (cumulative[cell + 1] as number) - low;
    // A straight piece has no curvature to share out: fall back on even spacing.
    const inside = total === 0 ? (k * probes) / chords - cell : width === 0 ? 0 : (goal - low) / width;
    parameters.push(
      total === 0 ? curve.from + ((curve.to - curve.from) * k) / chords : curve.from + (cell + inside) * step,
    );
  }
  parameters.push(curve.to);
  return { parameters, points: parameters.map(curve.at) };
}

function chordError(curve: PlaneCurve, { points, parameters }: SampledCurve): number {
  let worst = 0;
  for (let i = 0; i + 1 < points.length; i++) {
    const [t0, t1] = [parameters[i] as number, parameters[i + 1] as number];
    for (const f of [0.25, 0.5, 0.75]) {
      worst = Math.max(
        worst,
        distanceToSegment(curve.at(t0 + f * (t1 - t0)), points[i] as Vec2, points[i + 1] as Vec2),
      );
    }
  }
  return worst;
}

/** Distance from `p` to the segment a–b, mm. */
export function distanceToSegment(p: Vec2, a: Vec2, b: Vec2): number {
  const [dx, dy] = [b[0] - a[0], b[1] - a[1]];
  const squared = dx * dx + dy * dy;
  const f = squared === 0 ? 0 : Math.min(1, Math.max(0, ((p[0] - a[0]) * dx + (p[1] - a[1]) * dy) / squared));
  return maths.hypot(p[0] - a[0] - f * dx, p[1] - a[1] - f * dy);
}
