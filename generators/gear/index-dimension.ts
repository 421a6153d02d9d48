import { divisionFor, indexTeeth } from '../../core/gear/indexing.js';
import type { Dimension } from '../../core/part/contract.js';

const degrees = (angle: number): string => `${Number(((angle * 180) / Math.PI).toFixed(3))}°`;

/** The index from tooth to tooth, with the positions of teeth all round for a bench check. */
export function indexDimension(teeth: number): Dimension {
  const step = (2 * Math.PI) / teeth;
  const division = divisionFor(teeth);
  const crank = division
    ? [
        ...(division.turns > 0 ? [`${division.turns} turn${division.turns > 1 ? 's' : ''}`] : []),
        ...(division.holes > 0 ? [`${division.holes} holes of ${division.circle}`] : []),
      ].join(' and ')
    : undefined;
  const positions = indexTeeth(teeth).map((k) => `${k} at ${degrees((k - 1) * step)}`);
  return {
    symbol: 'τ',
    name: 'index from tooth to tooth',
    value: step,
    unit: 'rad',
    axis: 'none',
    method: `teeth ${positions.join(', ')}; dividing head 40 : 1, ${crank ?? 'no plain division: set the angles'}`,
    detail: true,
    role: 'reference',
  };
}
