/** Masses as a shop's scale shows them: whole steps, g. */

/** g, as kitchen scales show. */
export const usualScaleStep = 1;

/** Without what binary fractions leave behind: 3 × 0.1 is 0.3. */
const steps = (count: number, step: number): number => Number((count * step).toFixed(9));

/** A whole number of steps met but for rounding is not moved on. */
const slack = 1e-9;

/** Up to the next step: where too little spoils the work. */
export const stepUp = (grams: number, step: number): number => steps(Math.ceil(grams / step - slack), step);

/** Down to a step: where there is no more. */
export const stepDown = (grams: number, step: number): number =>
  steps(Math.floor(grams / step + slack), step);

/** To the nearest step. */
export const stepNear = (grams: number, step: number): number => steps(Math.round(grams / step), step);

/**
 * Whole steps near each of `grams` that add up to `total`, itself whole steps: all down, then the largest remainders
 * up (Hamilton's method). None moves by a step or more, if `grams` add up to `total`.
 */
export function stepShares(grams: readonly number[], total: number, step: number): readonly number[] {
  const down = grams.map((g) => Math.floor(g / step + slack));
  const short = Math.round(total / step) - down.reduce((a, b) => a + b, 0);
  const byRemainder = grams
    .map((g, i) => ({ i, rest: g / step - down[i]! }))
    .sort((a, b) => b.rest - a.rest)
    .slice(0, Math.max(0, short));
  const up = new Set(byRemainder.map(({ i }) => i));
  return down.map((n, i) => steps(up.has(i) ? n + 1 : n, step));
}
