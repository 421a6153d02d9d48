import { describe, expect, test } from 'vitest';
import {
  adjustForMany,
  findOutliers,
  fisherExact,
  meanInterval,
  medianDeviation,
  studentQuantile,
  weightedMedian,
  wilsonInterval,
} from '../../core/log/statistics.js';

/** Half of the last printed digit. */
const printed = (value: number, digits: number, wanted: number): void =>
  expect(Math.abs(value - wanted)).toBeLessThanOrEqual(0.5 * 10 ** -digits + 1e-12);

describe('Student’s t, NIST/SEMATECH e-Handbook 1.3.6.7.2', () => {
  test.each([
    [1, 12.706],
    [2, 4.303],
    [3, 3.182],
    [4, 2.776],
    [5, 2.571],
    [9, 2.262],
    [10, 2.228],
    [20, 2.086],
    [30, 2.042],
    [100, 1.984],
  ])('97.5 %% with %i degrees of freedom: %f', (freedom, t) =>
    printed(studentQuantile(0.975, freedom), 3, t),
  );

  test.each([
    [1, 63.657],
    [5, 4.032],
    [10, 3.169],
    [60, 2.66],
  ])('99.5 %% with %i degrees of freedom: %f', (freedom, t) =>
    printed(studentQuantile(0.995, freedom), 3, t),
  );
});

test('interval of the mean, NIST/SEMATECH e-Handbook 1.3.5.2, ZARR13.DAT: 9.261460, s 0.022789, n 195', () => {
  // Any 195 values with this mean and deviation have the interval printed there.
  const values = Array.from(
    { length: 195 },
    (_, i) => 9.26146 + (i === 194 ? 0 : i % 2 === 0 ? 1 : -1) * 0.022789,
  );
  const { low, high } = meanInterval(values)!;
  // Mean and limits are rounded to six places both.
  expect(Math.abs(low - 9.258242)).toBeLessThanOrEqual(1e-6);
  expect(Math.abs(high - 9.264679)).toBeLessThanOrEqual(1e-6);
});

test('outliers, NIST/SEMATECH e-Handbook 1.3.5.17.3, Rosner’s 54 values: three, though the first two alone are none', () => {
  const values = [
    -0.25, 0.68, 0.94, 1.15, 1.2, 1.26, 1.26, 1.34, 1.38, 1.43, 1.49, 1.49, 1.55, 1.56, 1.58, 1.65, 1.69, 1.7,
    1.76, 1.77, 1.81, 1.91, 1.94, 1.96, 1.99, 2.06, 2.09, 2.1, 2.14, 2.15, 2.23, 2.24, 2.26, 2.35, 2.37, 2.4,
    2.47, 2.54, 2.62, 2.64, 2.9, 2.92, 2.92, 2.93, 3.21, 3.26, 3.3, 3.59, 3.68, 4.3, 4.64, 5.34, 5.42, 6.01,
  ];
  expect(values).toHaveLength(54);
  expect(findOutliers(values, 10, 0.05).map((i) => values[i])).toEqual([6.01, 5.42, 5.34]);
  expect(findOutliers(values, 2, 0.05)).toEqual([]);
});

test('weighted median: Cormen and others, Introduction to Algorithms, problem 9-2', () => {
  const values = [0.1, 0.35, 0.05, 0.1, 0.15, 0.05, 0.2];
  expect(weightedMedian(values.map((value) => ({ value, weight: value })))).toBe(0.2);
  expect(weightedMedian(values.map((value) => ({ value, weight: 1 })))).toBe(0.1);
});

test('scaled median deviation: 1.4826 × 1 for 1, 1, 2, 2, 4, 6, 9 (usual textbook example, from memory)', () => {
  expect(medianDeviation([1, 1, 2, 2, 4, 6, 9])).toBe(1.4826);
});

describe('Wilson’s interval, Newcombe, Statistics in Medicine 17 (1998) 857–872, table I, method 3', () => {
  test.each([
    [81, 263, 0.2553, 0.3662],
    [15, 148, 0.0624, 0.1605],
    [0, 20, 0, 0.1611],
    [1, 29, 0.0061, 0.1718],
  ])('%i of %i: %f to %f', (count, total, low, high) => {
    const interval = wilsonInterval(count, total);
    printed(interval.low, 4, low);
    printed(interval.high, 4, high);
  });
});

describe('Fisher’s exact test, two-sided', () => {
  test('the lady tasting tea (Fisher 1935; Agresti, Categorical Data Analysis): 3, 1; 1, 3 gives 0.486', () =>
    printed(fisherExact([3, 1], [1, 3]), 3, 0.486));
  test('twins’ convictions (Fisher 1970, as in the documentation of R’s fisher.test): 2, 15; 10, 3 gives 0.0005367', () =>
    printed(fisherExact([2, 15], [10, 3]), 7, 0.0005367));
  test('a table as likely as can be gives 1', () => expect(fisherExact([5, 5], [5, 5])).toBeCloseTo(1, 9));
});

test('Holm’s method, worked by hand: 0.01, 0.04, 0.03, 0.005 give 0.03, 0.06, 0.06, 0.02', () => {
  const adjusted = adjustForMany([0.01, 0.04, 0.03, 0.005]);
  [0.03, 0.06, 0.06, 0.02].forEach((wanted, i) => {
    expect(adjusted[i]).toBeCloseTo(wanted, 12);
  });
});
