/** Reading the number a person wrote, without losing exactness, and what follows it. */
import { maths } from '../maths/maths.js';
import { type Parsed, parsed, unparsed } from './parsed.js';

/**
 * A number as written: `numerator / denominator`. Both are whole where the text has at most 15 digits, so that
 * one multiplication and one division by a unit's exact factor give the double nearest to the true value:
 * 1.1 in is 27.94 mm, not 27.940000000000005.
 */
export interface WrittenNumber {
  readonly numerator: number;
  readonly denominator: number;
  /** Written with a stroke: `3/8`, `1 1/2`. */
  readonly isFraction: boolean;
  /** What follows the number: a unit, or nothing. */
  readonly rest: string;
}

/** Longest text that is looked at; no quantity needs more. */
const longestText = 64;

const signs = '([-+]?)';
const mixed = new RegExp(`^${signs}(\\d{1,9})(?: |-)(\\d{1,9})/(\\d{1,9})(?![\\d.,/])`);
const fraction = new RegExp(`^${signs}(\\d{1,9})/(\\d{1,9})(?![\\d.,/])`);
const decimal = new RegExp(`^${signs}(\\d+\\.?\\d*|\\.\\d+)(?:[eE]([-+]?\\d+)(?![\\d.]))?`);

/** Brings the many spellings of space, minus, primes and vulgar fractions to one. */
export const plainText = (text: string): string =>
  text
    .replace(/[\u00bc-\u00be\u2150-\u215e]/g, (character, at: number, whole: string) => {
      const plain = character.normalize('NFKD').replace('\u2044', '/');
      return /\d/.test(whole[at - 1] ?? '') ? ` ${plain}` : plain;
    })
    .replace(/[\u00a0\u2002-\u200a\u202f]/g, ' ')
    .replace(/[\u2010-\u2013\u2212]/g, '-')
    .replace(/\u2044/g, '/')
    .replace(/[\u2033\u201c\u201d]/g, '"')
    .replace(/[\u2032\u2018\u2019]/g, "'")
    .replace(/ +/g, ' ')
    .trim();

/**
 * Splits a text into its number and the rest. Numbers are decimal (`38`, `.5`, `1.5e-3`), fractions (`3/8`) or
 * mixed (`1 1/2`, `1-1/2`, `1½`). Refused: empty text, commas (decimal point or thousands?), spaces or
 * underscores inside a number, other bases, and numbers too large or too small for a double.
 * A `number` is read as its shortest decimal text.
 */
export function splitNumber(input: string | number, example: string): Parsed<WrittenNumber> {
  if (typeof input === 'number' && !Number.isFinite(input)) {
    return unparsed('is not a finite number', `write a plain number like ${example}`);
  }
  const raw = String(input);
  if (raw.length > longestText) {
    return unparsed(`is ${raw.length} characters long`, `write it in a few characters, like ${example}`);
  }
  const text = plainText(raw);
  if (text === '') return unparsed('is empty', `write it like ${example}`);
  if (/^[-+]?\.?(nan|inf|infinity)$/i.test(text)) {
    return unparsed('is not a finite number', `write a plain number like ${example}`);
  }
  if (/^[-+]?0[xob][\da-f]/i.test(text)) {
    return unparsed('is not written in decimal', `write it in decimal, like ${example}`);
  }
  if (text.includes(','))
    return unparsed('has a comma, which may mean decimals or thousands', commaRemedy(text));
  if (/\d_\d/.test(text))
    return unparsed('has an underscore inside the number', 'write the digits without it');
  return splitMixed(text) ?? splitFraction(text) ?? splitDecimal(text, example);
}

function splitMixed(text: string): Parsed<WrittenNumber> | undefined {
  const match = mixed.exec(text);
  if (match === null) return undefined;
  const [all, sign, wholeText, topText, bottomText] = match;
  const [whole, top, bottom] = [Number(wholeText), Number(topText), Number(bottomText)];
  if (bottom === 0) return divisionByZero();
  if (top >= bottom) {
    return unparsed(
      `has the fraction ${top}/${bottom}, which is not less than one`,
      'write a whole number and a proper fraction, like 1-1/2, or one decimal number',
    );
  }
  return fractionOf(sign, whole * bottom + top, bottom, text.slice(all.length));
}

function splitFraction(text: string): Parsed<WrittenNumber> | undefined {
  const match = fraction.exec(text);
  if (match === null) return undefined;
  const [all, sign, top, bottom] = match;
  if (Number(bottom) === 0) return divisionByZero();
  return fractionOf(sign, Number(top), Number(bottom), text.slice(all.length));
}

function splitDecimal(text: string, example: string): Parsed<WrittenNumber> {
  const match = decimal.exec(text);
  if (match === null) return unparsed('does not start with a number', `write it like ${example}`);
  const [all, sign, digits = '', exponent = '0'] = match;
  const rest = text.slice(all.length).trim();
  if (/^\.?\d/.test(rest) || rest.startsWith('.')) {
    return unparsed(
      text[all.length] === ' '
        ? 'has a space inside the number'
        : 'has more than one decimal point or number',
      `write one number, like ${example}`,
    );
  }
  if (/^[-+/]/.test(rest))
    return unparsed(`has "${rest}" after the number`, `write one number, like ${example}`);
  const value = Number(`${sign}${digits}e${exponent}`);
  if (!Number.isFinite(value)) return unparsed('is too large a number', `write it like ${example}`);
  if (value === 0 && /[1-9]/.test(digits))
    return unparsed('is too small a number', `write it like ${example}`);
  return parsed({
    ...exactRatio(value, sign === '-' ? -1 : 1, digits, Number(exponent)),
    isFraction: false,
    rest,
  });
}

const commaRemedy = (text: string): string => {
  const number = /\d+,\d+/.exec(text)?.[0];
  if (number === undefined) return 'write the number without commas';
  return `write ${number.replace(',', '.')} or ${number.replace(',', '')}`;
};

const divisionByZero = () => unparsed('divides by zero', 'write a fraction like 3/8');

const fractionOf = (
  sign: string | undefined,
  top: number,
  bottom: number,
  rest: string,
): Parsed<WrittenNumber> =>
  parsed({
    numerator: sign === '-' ? -top : top,
    denominator: bottom,
    isFraction: true,
    rest: rest.trim(),
  });

function exactRatio(
  value: number,
  sign: number,
  digits: string,
  exponent: number,
): { numerator: number; denominator: number } {
  const [whole = '', decimals = ''] = digits.split('.');
  const shift = exponent - decimals.length;
  const significant = (whole + decimals).replace(/^0+/, '');
  if (significant.length > 15 || shift < -15 || shift > 0) return { numerator: value, denominator: 1 };
  return { numerator: sign * Number(significant), denominator: maths.pow(10, -shift) };
}
