import type { Dimension, DimensionAxis } from './contract.js';

/** A length as an inspector finds it in this state, mm; `axis` is the way it lies for growth and printer correction. */
export const lengthDimension = (
  symbol: string,
  name: string,
  value: number,
  axis: DimensionAxis,
  method: string,
  more: Pick<Dimension, 'atGrowth' | 'choice' | 'detail' | 'role'> = {},
): Dimension => ({ symbol, name, value, unit: 'mm', axis, method, ...more });
