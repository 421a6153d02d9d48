import fc from 'fast-check';
import { expect, test } from 'vitest';
import { numberAt, numberOf, wholeNumberAt } from '../../../../core/files/mesh-read/number-text.js';
import { utf8 } from './samples.js';

const read = (text: string): number => numberAt(utf8(`,${text}x`), 1, text.length + 1);

const digits = fc.string({ unit: fc.constantFrom(...'0123456789'), maxLength: 24 });
const decimal = fc
  .tuple(
    fc.constantFrom('', '-', '+'),
    digits,
    fc.constantFrom('', '.'),
    digits,
    fc.option(fc.tuple(fc.constantFrom('e', 'E', 'e-', 'e+'), fc.integer({ min: 0, max: 340 }))),
  )
  .map(
    ([sign, whole, point, part, power]) =>
      `${sign}${whole}${point}${point && part}${power ? power.join('') : ''}`,
  );

test('a decimal is read as the language itself reads it, to the last bit (seed 21)', () => {
  fc.assert(
    fc.property(decimal, (text) => {
      const wanted = /\d/.test(text.split(/e/i)[0]!) ? Number(text) : Number.NaN;
      expect(read(text)).toBe(wanted);
      expect(numberOf(` ${text}\n`)).toBe(wanted);
    }),
    { seed: 21, numRuns: 20_000 },
  );
});

test('doubles and float32 in their shortest form come back to the last bit (seed 22)', () => {
  fc.assert(
    fc.property(
      fc.oneof(
        fc.double({ noNaN: true, noDefaultInfinity: true }),
        fc.float({ noNaN: true, noDefaultInfinity: true }),
      ),
      (x) => {
        expect(read(String(x))).toBe(x + 0);
        expect(read(x.toExponential())).toBe(x + 0);
        expect(read(`-${String(Math.abs(x))}`)).toBe(-Math.abs(x));
      },
    ),
    { seed: 22, numRuns: 20_000 },
  );
});

test('what is no decimal is no number', () => {
  const none = [
    '',
    '.',
    '-',
    '+.',
    'e5',
    '1e',
    '1e+',
    '1e5.2',
    '1.2.3',
    '0x10',
    '1_000',
    '1,5',
    'nan',
    'inf',
    'Infinity',
    '--1',
    '1-',
    '½',
    ' 1',
  ];
  for (const text of none) expect([text, read(text)]).toEqual([text, Number.NaN]);
  for (const text of none.slice(0, -1)) expect([text, numberOf(text)]).toEqual([text, Number.NaN]);
  expect(read('9'.repeat(500))).toBe(Number.NaN);
});

test('a whole number has digits alone, as many as a double keeps', () => {
  const whole = (text: string): number => wholeNumberAt(utf8(text), 0, text.length);
  expect(['0', '7', '000123', '999999999999999'].map(whole)).toEqual([0, 7, 123, 999_999_999_999_999]);
  for (const text of ['', '-1', '+1', '1.0', '1e3', '1000000000000000', 'a'])
    expect(whole(text)).toBe(Number.NaN);
});
