/** What a time of a run becomes with very short steps, s; rising. */
export type TimeMap = (seconds: number) => number;

/**
 * Times of very short steps from two runs whose error is of the first order in the step, the `rough` one's steps twice
 * as long: they lie as far before the `fine` run's times as these before the rough one's (L. F. Richardson, Phil. Trans.
 * A 210, 1911). How far is fitted over all cells as a t + b t² by least squares, so the map is smooth: what freezes before
 * what stays as it is. Cells of 0 or infinite times are not asked.
 */
export function shortStepTimes(rough: Float32Array, fine: Float32Array): TimeMap {
  let [s2, s3, s4, d1, d2, end] = [0, 0, 0, 0, 0, 0];
  for (let c = 0; c < fine.length; c++) {
    const t = fine[c]!;
    const late = rough[c]! - t;
    if (!(t > 0 && Number.isFinite(t) && Number.isFinite(late))) continue;
    end = Math.max(end, t);
    s2 += t ** 2;
    s3 += t ** 3;
    s4 += t ** 4;
    d1 += late * t;
    d2 += late * t ** 2;
  }
  if (end === 0) return (t) => t;
  const determinant = s2 * s4 - s3 ** 2;
  const whole = determinant > 1e-6 * s2 * s4;
  const b = whole ? (s2 * d2 - s3 * d1) / determinant : 0;
  const a = whole ? (s4 * d1 - s3 * d2) / determinant : d1 / s2;
  // Far from any run seen: a map that would turn times round is none.
  const rises = 1 - a > 0.5 && 1 - a - 2 * b * end > 0.5;
  return rises ? (t) => (Number.isFinite(t) ? t - a * t - b * t * Math.min(t, end) : t) : (t) => t;
}
