import { maths } from '../maths/maths.js';
import type { PlaneCurve } from '../solid/sample-curve.js';
import { flankPoint, rollAtRadius } from './rack-envelope.js';
import type { ToothForm } from './tooth-form.js';

/**
 * One side of a tooth (or of an internal gear's space, which has the shape of a tooth) by radius: exact on the
 * involute, a fine table of the exact curve on the fillet.
 */
export interface FlankTable {
  readonly teeth: number;
  readonly baseRadius: number;
  /** Half angle where the involute meets the base circle, rad. */
  readonly baseHalfAngle: number;
  readonly tipRadius: number;
  readonly rootRadius: number;
  /** Radii of curvature ρ = r_b ξ in the transverse section at the two ends of the involute, mm. */
  readonly lowCurvature: number;
  readonly highCurvature: number;
  /** Points of the end that faces the mate, sharp or rounded: radius, mm, and angle from the tooth's middle, rad. */
  readonly tip: readonly (readonly [radius: number, angle: number])[];
  /**
   * Half angle of the tooth at a radius, rad, and how much of a small step along the circle there is along the
   * profile's normal (1 for a radial profile, 0 for a tangential one). `undefined` off the profile.
   */
  at(radius: number): { readonly angle: number; readonly share: number } | undefined;
}

type Row = readonly [radius: number, angle: number];

const rows = (curve: PlaneCurve, steps: number): Row[] =>
  Array.from({ length: steps + 1 }, (_, i) => {
    const [x, y] = curve.at(curve.from + ((curve.to - curve.from) * i) / steps);
    return [maths.hypot(x, y), maths.atan2(y, x)];
  });

/** Steps of the fillet's table: at 256 its chords stay within about 5e-5 of a module of the curve. */
const filletSteps = 256;
const roundingSteps = 12;

/** The table of an external tooth as `toothForm` gives it. */
export function externalFlankTable(form: ToothForm): FlankTable {
  const [fillet, flank] = [form.curves.at(-1) as PlaneCurve, form.curves.at(-2) as PlaneCurve];
  const rounding = form.curves.length > 2 ? form.curves[0] : undefined;
  return flankTable(form, rows(fillet, filletSteps), flank.to, flank.from, [
    ...(rounding ? rows(rounding, roundingSteps) : [[form.tipRadius, form.tipHalfAngle] as const]),
  ]);
}

/** The table of an internal gear's space as `internalForm` gives it: its fillet is outside, its open end inside. */
export function internalFlankTable(space: ToothForm): FlankTable {
  const [flank, fillet] = [space.curves.at(-1) as PlaneCurve, space.curves.at(-2) as PlaneCurve];
  return flankTable(space, rows(fillet, filletSteps), flank.to, flank.from, [
    [space.rootRadius, space.rootAngle],
  ]);
}

function flankTable(
  form: ToothForm,
  fillet: readonly Row[],
  lowRoll: number,
  highRoll: number,
  tip: readonly Row[],
): FlankTable {
  const { baseRadius, baseHalfAngle } = form.rack;
  const table = (fillet[0] as Row)[0] > (fillet.at(-1) as Row)[0] ? [...fillet].reverse() : fillet;
  const [from, to] = [baseRadius * maths.hypot(1, lowRoll), baseRadius * maths.hypot(1, highRoll)];
  return {
    teeth: form.teeth,
    baseRadius,
    baseHalfAngle,
    tipRadius: form.tipRadius,
    rootRadius: form.rootRadius,
    lowCurvature: baseRadius * lowRoll,
    highCurvature: baseRadius * highRoll,
    tip,
    at(radius) {
      if (radius >= from && radius <= to) {
        const roll = rollAtRadius(form.rack, radius);
        // The involute leans away from the radius by the pressure angle, whose tangent is the roll.
        return { angle: flankPoint(form.rack, roll).angle, share: 1 / maths.hypot(1, roll) };
      }
      return lookUp(table, radius);
    },
  };
}

/** Linear between the rows, which rise in radius. */
function lookUp(table: readonly Row[], radius: number): { angle: number; share: number } | undefined {
  const last = table.length - 1;
  if (radius < (table[0] as Row)[0] || radius > (table[last] as Row)[0]) return undefined;
  let [low, high] = [0, last];
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if ((table[middle] as Row)[0] <= radius) low = middle;
    else high = middle;
  }
  const [r0, a0] = table[low] as Row;
  const [r1, a1] = table[high] as Row;
  const f = r1 > r0 ? (radius - r0) / (r1 - r0) : 0;
  const length = maths.hypot(r1 - r0, radius * (a1 - a0));
  return { angle: a0 + f * (a1 - a0), share: length > 0 ? Math.abs(r1 - r0) / length : 1 };
}
