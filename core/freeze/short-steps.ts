import { maths } from '../maths/maths.js';

/** What a time of a run becomes with very short steps, s; rising. */
export type TimeMap = (seconds: number) => number;

/**
 * Times of very short steps from two runs whose error is of the first order in the step, the `rough` one's steps twice
 * as long: they lie as far before the `fine` run's times as these before the rough one's (L. F. Richardson, Phil. Trans.
 * A 210, 1911). How far is fitted over all cells as a t + b t² by least squares, a cell counting by 1/t, so the map is
 * smooth: what comes before what stays as it is. Infinite times are not asked, nor those up to `least`:
 * what comes within the first few steps tells nothing of the rest.
 */
export function shortStepTimes(rough: Float32Array, fine: Float32Array, least = 0): TimeMap {
  let [s1, s2, s3, d0, d1, end] = [0, 0, 0, 0, 0, 0];
  for (let c = 0; c < fine.length; c++) {
    const t = fine[c]!;
    const late = rough[c]! - t;
    if (!(t > least && Number.isFinite(t) && Number.isFinite(late))) continue;
    end = Math.max(end, t);
    s1 += t;
    s2 += t * t;
    s3 += maths.pow(t, 3);
    d0 += late;
    d1 += late * t;
  }
  if (end === 0) return (t) => t;
  const even = d0 / s1;
  const determinant = s1 * s3 - s2 * s2;
  const b = (s1 * d1 - s2 * d0) / determinant;
  const a = (s3 * d0 - s2 * d1) / determinant;
  // Times all near one another tell no curve: one that would turn times round, or nearly, is none.
  const curved = determinant > 1e-3 * s1 * s3 && 1 - a > 0.5 && 1 - a - 2 * b * end > 0.5;
  const share = (t: number): number => (curved ? a + b * Math.min(t, end) : Math.min(0.5, even));
  return (t) => (Number.isFinite(t) ? t - t * share(t) : t);
}
