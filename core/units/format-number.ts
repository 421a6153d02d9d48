export interface NumberFormat {
  /** Decimal places. */
  readonly digits?: number;
  /** Keep trailing zeros: a column of figures lines up. */
  readonly keepZeros?: boolean;
}

/** A number to at most `digits` decimal places, without trailing zeros, never `-0`. */
export function formatNumber(value: number, { digits = 3, keepZeros = false }: NumberFormat = {}): string {
  if (!Number.isFinite(value) || Math.abs(value) >= 1e15) return String(value);
  const fixed = value.toFixed(digits);
  const trimmed = keepZeros || !fixed.includes('.') ? fixed : fixed.replace(/\.?0+$/, '');
  return /^-[0.]*$/.test(trimmed) ? trimmed.slice(1) : trimmed;
}
