/** Lengths: millimetres inside. */
import { formatNumber, type NumberFormat } from './format-number.js';
import { formatMixedFraction } from './fraction.js';
import { type Parsed, unparsed } from './parsed.js';
import { parseQuantity, type UnitTable } from './quantity.js';

/** The units lengths are shown in, and bare numbers read in. */
export type LengthUnit = 'mm' | 'in';

/** 1 in = 25.4 mm exactly (international yard and pound agreement of 1959; NIST SP 811, B.6). */
export const millimetresPerInch = 25.4;

const millimetre = { times: 1, over: 1 };
const centimetre = { times: 10, over: 1 };
const metre = { times: 1000, over: 1 };
const micrometre = { times: 1, over: 1000 };
const inch = { times: 254, over: 10 };
const foot = { times: 3048, over: 10 };
const thou = { times: 254, over: 10_000 };

const table: UnitTable = {
  quantity: 'length',
  units: {
    mm: millimetre,
    cm: centimetre,
    m: metre,
    um: micrometre,
    µm: micrometre,
    μm: micrometre,
    in: inch,
    inch,
    inches: inch,
    '"': inch,
    ft: foot,
    foot,
    feet: foot,
    thou,
  },
  ambiguous: {
    "'": { problem: 'may be feet or minutes of arc', remedy: 'write feet as ft, like 3ft' },
    "''": { problem: 'may be inches or seconds of arc', remedy: 'write inches as in, like 1.5in' },
    mil: { problem: 'may be thousandths of an inch or millimetres', remedy: 'write thou or mm' },
    mils: { problem: 'may be thousandths of an inch or millimetres', remedy: 'write thou or mm' },
    Mm: { problem: 'may be millimetres or megametres', remedy: 'write millimetres as mm' },
    M: { problem: 'may be metres or something else', remedy: 'write metres as m and millimetres as mm' },
  },
  example: '38mm or 1.5in',
  accepted: 'mm, cm, m, in or ft',
};

/**
 * Reads a length in mm: `38`, `38mm`, `2.5cm`, `1.5in`, `1 1/2in`, `1-1/2"`, `3/8in`, `6ft`.
 * A bare number is in `unit`. A bare fraction is refused where `unit` is mm: it was surely meant in inches.
 * Any sign and size passes: ranges are the caller's.
 */
export const parseLength = (input: string | number, unit: LengthUnit): Parsed => {
  if (typeof input === 'string' && /\d ?['\u2032\u2019] ?\d/.test(input)) {
    return unparsed('mixes feet and inches', 'write one number and one unit, like 66in');
  }
  return parseQuantity(input, table, unit, (number) =>
    number.isFraction && unit === 'mm'
      ? unparsed('is a fraction without a unit', 'write the unit, like 1-1/2in, or decimal millimetres')
      : undefined,
  );
};

export interface LengthFormat extends NumberFormat {
  /** Inches as a mixed fraction of this denominator; a rounded one is marked ≈. */
  readonly fraction?: 2 | 4 | 8 | 16 | 32 | 64;
  /** Default true. */
  readonly showUnit?: boolean;
}

/** A length for people: `38.1 mm`, `1.5 in`, `1-1/2 in`. Default 3 decimals in mm, 4 in inches. */
export function formatLength(mm: number, unit: LengthUnit, format: LengthFormat = {}): string {
  const value = unit === 'mm' ? mm : mm / millimetresPerInch;
  const digits = unit === 'mm' ? 3 : 4;
  const text =
    unit === 'in' && format.fraction !== undefined
      ? formatMixedFraction(value, format.fraction)
      : formatNumber(value, { digits, ...format });
  return format.showUnit === false ? text : `${text} ${unit}`;
}
