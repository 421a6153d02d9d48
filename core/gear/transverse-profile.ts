import { type PlaneCurve, sampleCurve } from '../solid/sample-curve.js';
import type { Vec2 } from '../solid/types.js';
import type { ToothForm } from './tooth-form.js';

/** One chord of the sampled tooth: where the exact curve is between its ends, and its outward normal there. */
export interface Chord {
  readonly middle: Vec2;
  readonly normal: Vec2;
}

/**
 * One pitch of the gear's outline, counter-clockwise: from the foot of the tooth on +X on its −angle side, over
 * the tip, down to its foot on the +angle side and along the root to the next tooth. `chords[i]` runs from
 * `points[i]` to the next point, the last one to the next tooth's first.
 */
export interface PitchOutline {
  readonly teeth: number;
  readonly points: readonly Vec2[];
  readonly chords: readonly Chord[];
}

const arc = (radius: number, from: number, to: number): PlaneCurve => ({
  from,
  to,
  at: (t) => [radius * Math.cos(t), radius * Math.sin(t)],
});

const mirrored = (curve: PlaneCurve): PlaneCurve => ({
  from: curve.to,
  to: curve.from,
  at: (t) => {
    const [x, y] = curve.at(t);
    return [x, -y];
  },
});

/** Samples one pitch so that every chord stays within `tolerance` (mm) of the exact outline. */
export function samplePitch(form: ToothForm, tolerance: number): PitchOutline {
  const rootLand = arc(form.rootRadius, form.rootAngle, (2 * Math.PI) / form.teeth - form.rootAngle);
  const tipLand = arc(form.tipRadius, -form.tipHalfAngle, form.tipHalfAngle);
  const down = form.curves;
  const up = [...down].reverse().map(mirrored);
  const points: Vec2[] = [];
  const chords: Chord[] = [];
  for (const curve of [...up, tipLand, ...down, rootLand]) {
    const { points: sampled, parameters } = sampleCurve(curve, tolerance);
    for (let i = 0; i + 1 < sampled.length; i++) {
      const [a, b] = [sampled[i] as Vec2, sampled[i + 1] as Vec2];
      // Lands that the tooth uses up altogether (full rounding of tip or root) leave no chord.
      if (Math.hypot(b[0] - a[0], b[1] - a[1]) < 1e-5) continue;
      points.push(a);
      chords.push(chordBetween(curve, parameters[i] as number, parameters[i + 1] as number));
    }
  }
  return { teeth: form.teeth, points, chords };
}

function chordBetween(curve: PlaneCurve, t0: number, t1: number): Chord {
  const t = aboveMiddle(curve, t0, t1);
  const step = (t1 - t0) * 1e-3;
  const [ax, ay] = curve.at(t - step);
  const [bx, by] = curve.at(t + step);
  const length = Math.hypot(bx - ax, by - ay);
  return { middle: curve.at(t), normal: [(by - ay) / length, (ax - bx) / length] };
}

/** Parameter of the curve's point over the middle of its chord; the middle parameter may lie far to one side. */
function aboveMiddle(curve: PlaneCurve, t0: number, t1: number): number {
  const [a, b] = [curve.at(t0), curve.at(t1)];
  const along = ([x, y]: Vec2): number => (x - a[0]) * (b[0] - a[0]) + (y - a[1]) * (b[1] - a[1]);
  const half = along(b) / 2;
  let [low, high] = [t0, t1];
  for (let i = 0; i < 24; i++) {
    const middle = (low + high) / 2;
    if (along(curve.at(middle)) < half) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

/** The whole outline, turned by `angle` (rad), counter-clockwise. */
export function wholeOutline(pitch: PitchOutline, angle = 0): Vec2[] {
  const outline: Vec2[] = [];
  for (let k = 0; k < pitch.teeth; k++) {
    const turn = angle + (2 * Math.PI * k) / pitch.teeth;
    const [c, s] = [Math.cos(turn), Math.sin(turn)];
    for (const [x, y] of pitch.points) outline.push([c * x - s * y, s * x + c * y]);
  }
  return outline;
}
