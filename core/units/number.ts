import { splitNumber } from './number-text.js';
import { type Parsed, parsed, unparsed } from './parsed.js';

/** Reads a plain number without a unit: `1.021`, `3/8`, `-0.5`. */
export function parseNumber(input: string | number, example = '1.5'): Parsed {
  const split = splitNumber(input, example);
  if (!split.ok) return split;
  const { numerator, denominator, rest } = split.value;
  if (rest === '%') return unparsed('is a percentage', 'write the plain number: 2.1% is 0.021');
  if (rest !== '')
    return unparsed(`has "${rest}" after the number`, `write a plain number without a unit, like ${example}`);
  return parsed(numerator / denominator);
}
