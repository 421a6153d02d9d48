/** One number and one unit: what lengths, masses and plain numbers have in common. */
import { splitNumber, type WrittenNumber } from './number-text.js';
import { type Parsed, parsed, unparsed } from './parsed.js';

/** A unit's exact size in the internal unit: `times / over`, both whole. */
export interface Factor {
  readonly times: number;
  readonly over: number;
}

export interface UnitTable {
  /** For messages: `length`. */
  readonly quantity: string;
  /** By every accepted spelling in lower case. */
  readonly units: Readonly<Record<string, Factor>>;
  /** Spellings that could mean two things, as written, with what to write instead. */
  readonly ambiguous: Readonly<Record<string, { readonly problem: string; readonly remedy: string }>>;
  /** For messages: `38mm or 1.5in`. */
  readonly example: string;
  /** For messages: `mm, cm, m, in or ft`. */
  readonly accepted: string;
}

const own = <T>(table: Readonly<Record<string, T>>, key: string): T | undefined =>
  Object.hasOwn(table, key) ? table[key] : undefined;

/**
 * Reads a quantity into the internal unit. `bareUnit` is the spelling a bare number stands for, or null where a
 * unit must be written. `checkBare` may refuse a bare number.
 */
export function parseQuantity(
  input: string | number,
  table: UnitTable,
  bareUnit: string | null,
  checkBare?: (number: WrittenNumber) => Parsed | undefined,
): Parsed {
  const split = splitNumber(input, table.example);
  if (!split.ok) return split;
  const { rest } = split.value;
  if (rest === '') {
    if (bareUnit === null) return unparsed('has no unit', `write it like ${table.example}`);
    return checkBare?.(split.value) ?? scale(split.value, table.units[bareUnit]!, table.example);
  }
  const confusing = own(table.ambiguous, rest);
  if (confusing !== undefined) return unparsed(confusing.problem, confusing.remedy);
  if (/\d/.test(rest))
    return unparsed(`has "${rest}" after the number`, `write one number and one unit, like ${table.example}`);
  const factor = own(table.units, rest.toLowerCase());
  if (factor === undefined) {
    return unparsed(`has the unit "${rest}", which is no ${table.quantity}`, `use ${table.accepted}`);
  }
  return scale(split.value, factor, table.example);
}

/** One rounding for numbers of up to 15 digits, since the products are whole. */
function scale(number: WrittenNumber, factor: Factor, example: string): Parsed {
  const value = (number.numerator * factor.times) / (number.denominator * factor.over);
  return Number.isFinite(value) ? parsed(value) : unparsed('is too large', `write it like ${example}`);
}
