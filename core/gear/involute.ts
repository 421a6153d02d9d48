import { maths } from '../maths/maths.js';

/** Below this the difference tan α − α loses digits and the series takes over. */
const seriesLimit = 0.1;

/** Coefficients of α³, α⁵, … in tan α − α (Abramowitz & Stegun 4.3.67); what is left out is below 1e-16 of it. */
const series = [
  1 / 3,
  2 / 15,
  17 / 315,
  62 / 2835,
  1382 / 155_925,
  21_844 / 6_081_075,
  929_569 / 638_512_875,
];

/**
 * Involute function inv α = tan α − α, ISO 21771:2007.
 * `angle` in rad, from 0 to below π/2; RangeError outside.
 */
export function inv(angle: number): number {
  if (!(angle >= 0 && angle < Math.PI / 2)) {
    throw new RangeError(`involute function: angle is ${angle} rad; it must be from 0 to below π/2`);
  }
  if (angle < seriesLimit) {
    const square = angle * angle;
    return angle * square * series.reduceRight((sum, coefficient) => sum * square + coefficient, 0);
  }
  return maths.tan(angle) - angle;
}

/**
 * The angle whose involute is `value`: rad, from 0 to below π/2. RangeError for a negative or non-finite value.
 *
 * Newton's method on t − arctan t = value with t = tan α. That function is convex and rising and the start,
 * ∛(3 value), lies left of the root, so the first step overshoots and the rest come down to it without fail.
 */
export function inverseInvolute(value: number): number {
  if (!(value >= 0 && Number.isFinite(value))) {
    throw new RangeError(`inverse involute: value is ${value}; it must be 0 or more`);
  }
  if (value === 0) return 0;
  let angle = maths.atan(maths.cbrt(3 * value));
  for (let step = 0; step < 40; step++) {
    const t = maths.tan(angle);
    const next = maths.atan(t + (value - inv(angle)) * (1 + 1 / (t * t)));
    const change = Math.abs(next - angle);
    angle = next;
    if (change <= 2e-16 * angle) break;
  }
  return angle;
}
