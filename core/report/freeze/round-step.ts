import { maths } from '../../maths/maths.js';

/** The least of 1, 2 and 5 × 10ⁿ that parts `span` into at most `most`. */
export function roundStep(span: number, most: number): number {
  const unit = maths.pow(10, Math.floor(maths.log10(span / most)));
  return unit * ([1, 2, 5].find((s) => span / (s * unit) <= most) ?? 10);
}
