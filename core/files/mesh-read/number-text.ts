/** 10⁰ to 10²²: the powers of ten that a double holds exactly. */
const exactPowers = [
  1, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9, 1e10, 1e11, 1e12, 1e13, 1e14, 1e15, 1e16, 1e17, 1e18, 1e19,
  1e20, 1e21, 1e22,
];
const mostExactDigits = 15;
/** More than any writer gives; a longer one is no number but damage. */
const longestNumber = 400;

const [zero, nine, plus, minus, point] = [48, 57, 43, 45, 46];

/**
 * The decimal number that stands in `bytes` from `start` to `end`, rounded as `Number` rounds; NaN where there is
 * none. Digits with at most one point and an exponent, nothing else: no hexadecimal, no "inf".
 *
 * Up to 15 digits and 10²² the quotient or product of two exact doubles is rounded once, so it is right (Clinger
 * 1990); the rest goes through `Number`.
 */
export function numberAt(bytes: Uint8Array, start: number, end: number): number {
  let at = start;
  const sign = bytes[at];
  if (sign === minus || sign === plus) at++;
  let mantissa = 0;
  let digits = 0;
  let significant = 0;
  let decimals = 0;
  let pointSeen = false;
  for (; at < end; at++) {
    const c = bytes[at]!;
    if (c >= zero && c <= nine) {
      digits++;
      if (significant > 0 || c !== zero) significant++;
      mantissa = mantissa * 10 + (c - zero);
      if (pointSeen) decimals++;
    } else if (c === point && !pointSeen) pointSeen = true;
    else break;
  }
  if (digits === 0) return Number.NaN;
  let exponent = 0;
  if (at < end) {
    if ((bytes[at]! | 32) !== 101) return Number.NaN;
    at++;
    const below = bytes[at] === minus;
    if (below || bytes[at] === plus) at++;
    if (at === end) return Number.NaN;
    for (; at < end; at++) {
      const c = bytes[at]!;
      if (c < zero || c > nine) return Number.NaN;
      exponent = Math.min(exponent * 10 + (c - zero), 100_000);
    }
    if (below) exponent = -exponent;
  }
  const power = exponent - decimals;
  if (significant <= mostExactDigits && power >= -22 && power <= 22) {
    const size = power < 0 ? mantissa / exactPowers[-power]! : mantissa * exactPowers[power]!;
    return sign === minus ? -size : size;
  }
  if (end - start > longestNumber) return Number.NaN;
  // Not spread: that asks an iterator for every letter.
  return Number(Reflect.apply(String.fromCharCode, null, bytes.subarray(start, end)));
}

/** The whole number, not negative, that stands there; NaN where there is none. */
export function wholeNumberAt(bytes: Uint8Array, start: number, end: number): number {
  if (end - start > mostExactDigits || end === start) return Number.NaN;
  let value = 0;
  for (let at = start; at < end; at++) {
    const c = bytes[at]!;
    if (c < zero || c > nine) return Number.NaN;
    value = value * 10 + (c - zero);
  }
  return value;
}

/** A decimal number of a text, by the rules of `numberAt`, with blanks about it allowed. */
export function numberOf(text: string): number {
  return /^\s*[+-]?(\d+\.?\d*|\.\d+)(e[+-]?\d+)?\s*$/i.test(text) ? Number(text) : Number.NaN;
}
