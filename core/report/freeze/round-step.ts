/** The least of 1, 2 and 5 × 10ⁿ that parts `span` into at most `most`. */
export function roundStep(span: number, most: number): number {
  const unit = 10 ** Math.floor(Math.log10(span / most));
  return unit * ([1, 2, 5].find((s) => span / (s * unit) <= most) ?? 10);
}
