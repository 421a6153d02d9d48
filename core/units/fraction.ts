const greatestDivisor = (a: number, b: number): number => (b === 0 ? a : greatestDivisor(b, a % b));

/** Half a millionth: what separates a true fraction from a rounded one. */
const exactWithin = 5e-7;

/** The nearest mixed fraction with at most this denominator, in lowest terms: `1-1/2`, `3/8`; `≈ ` if rounded. */
export function formatMixedFraction(value: number, denominator: number): string {
  if (!Number.isFinite(value)) return String(value);
  const parts = Math.round(Math.abs(value) * denominator);
  const mark = Math.abs(parts / denominator - Math.abs(value)) > exactWithin ? '≈ ' : '';
  const whole = Math.floor(parts / denominator);
  const top = parts % denominator;
  const divisor = greatestDivisor(denominator, top);
  const stroke = `${top / divisor}/${denominator / divisor}`;
  const sign = value < 0 && parts > 0 ? '-' : '';
  return `${mark}${sign}${top === 0 ? whole : whole === 0 ? stroke : `${whole}-${stroke}`}`;
}
