import { maths } from '../../maths/maths.js';
import type { Vec3 } from '../../solid/types.js';
import { formatNumber } from '../../units/index.js';

/** Three digits that count, and never an exponent. */
export function sizeFigure(value: number): string {
  if (!(Math.abs(value) < 1e15)) return String(value);
  const digits = value === 0 ? 0 : Math.max(0, 2 - Math.floor(maths.log10(Math.abs(value))));
  return formatNumber(value, { digits: Math.min(digits, 20) });
}

/** `40 × 25 × 12 mm`. */
export const sizeText = (size: Vec3, times = 1): string =>
  `${size.map((side) => sizeFigure(side * times)).join(' × ')} mm`;
