import type { Dimension } from './contract.js';

/** A length as an inspector finds it in this state, mm; `axis` is the way it lies for growth and printer correction. */
export const lengthDimension = (
  symbol: string,
  name: string,
  value: number,
  axis: 'xy' | 'z',
  method: string,
): Dimension => ({ symbol, name, value, unit: 'mm', axis, method });
