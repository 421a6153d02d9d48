import { spreadOf } from '../spread.js';

/** Median and quarters. */
export function milliseconds(times: readonly number[]): string {
  const { median, lower, upper } = spreadOf(times);
  const digits = median < 10 ? 1 : 0;
  return `${median.toFixed(digits)} ms (${lower.toFixed(digits)} to ${upper.toFixed(digits)})`;
}

export const many = (count: number, of: string): string => `${count.toLocaleString('en-GB')} ${of}`;

export const times = (ratio: number): string =>
  `${ratio >= 100 ? ratio.toFixed(0) : ratio >= 10 ? ratio.toFixed(1) : ratio.toFixed(2)} ×`;
