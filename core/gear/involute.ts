/** Below this the difference tan α − α loses digits and the series takes over. */
const seriesLimit = 0.02;

/**
 * Involute function inv α = tan α − α, ISO 21771:2007, 4.2.2.
 * `angle` in rad, from 0 to below π/2; RangeError outside.
 */
export function inv(angle: number): number {
  if (!(angle >= 0 && angle < Math.PI / 2)) {
    throw new RangeError(`involute function: angle is ${angle} rad; it must be from 0 to below π/2`);
  }
  if (angle < seriesLimit) {
    const s = angle * angle;
    return angle * s * (1 / 3 + s * (2 / 15 + s * (17 / 315 + (s * 62) / 2835)));
  }
  return Math.tan(angle) - angle;
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
  let angle = Math.atan(Math.cbrt(3 * value));
  for (let step = 0; step < 40; step++) {
    const t = Math.tan(angle);
    const next = Math.atan(t + (value - inv(angle)) * (1 + 1 / (t * t)));
    const change = Math.abs(next - angle);
    angle = next;
    if (change <= 2e-16 * angle) break;
  }
  return angle;
}
