import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { formatLength, type LengthUnit, parseLength } from '../../../core/units/index.js';

const mm = (text: string | number, unit: LengthUnit = 'mm'): number => {
  const reading = parseLength(text, unit);
  if (!reading.ok) throw new Error(`${text} ${reading.problem}`);
  return reading.value;
};
const refusal = (text: string | number, unit: LengthUnit = 'mm'): string => {
  const reading = parseLength(text, unit);
  return reading.ok ? `read as ${reading.value}` : `${reading.problem}; ${reading.remedy}`;
};

describe('parseLength', () => {
  it.each([
    ['38', 38],
    ['38mm', 38],
    [' 38 mm ', 38],
    ['+38', 38],
    ['-0.5mm', -0.5],
    ['.5mm', 0.5],
    ['1e-2', 0.01],
    ['2.5cm', 25],
    ['0.2m', 200],
    ['150µm', 0.15],
    ['150 um', 0.15],
    ['1.5in', 38.1],
    ['1.5 inches', 38.1],
    ['1.1in', 27.94],
    ['1 1/2in', 38.1],
    ['1-1/2in', 38.1],
    ['1-1/2"', 38.1],
    ['1-1/2″', 38.1],
    ['1½”', 38.1],
    ['½in', 12.7],
    ['1\u00a01/2 in', 38.1],
    ['1\u20111/2 in', 38.1],
    ['-1-1/2"', -38.1],
    ['3/8in', 9.525],
    ['9/8in', 28.575],
    ['6ft', 1828.8],
    ['5thou', 0.127],
    ['3/8mm', 0.375],
    ['38MM', 38],
  ])('%s is %d mm', (text, expected) => {
    expect(mm(text)).toBe(expected);
  });

  it('reads bare numbers and fractions in inches where inches are asked for', () => {
    expect(mm('1.5', 'in')).toBe(38.1);
    expect(mm(1.1, 'in')).toBe(27.94);
    expect(mm('1 1/2', 'in')).toBe(38.1);
    expect(mm('3/8', 'in')).toBe(9.525);
    expect(mm('38mm', 'in')).toBe(38);
  });

  it.each([
    ['', 'is empty'],
    ['   ', 'is empty'],
    ['1 1/2', 'fraction without a unit; write the unit, like 1-1/2in'],
    ['3/8', 'fraction without a unit'],
    ['1,500', 'comma, which may mean decimals or thousands; write 1.500 or 1500'],
    ['1,5mm', 'write 1.5 or 15'],
    ["3'", 'feet or minutes of arc; write feet as ft, like 3ft'],
    ['5\'6"', 'mixes feet and inches'],
    ['5ft 6in', 'one number and one unit'],
    ['1.2.3', 'more than one decimal point'],
    ['1 500', 'space inside the number'],
    ['1_500', 'underscore'],
    ['1e400', 'too large'],
    ['1e-400', 'too small'],
    ['1e308in', 'too large'],
    ['NaN', 'not a finite number'],
    ['Infinity', 'not a finite number'],
    ['-.inf', 'not a finite number'],
    ['0x10', 'not written in decimal'],
    ['0b11mm', 'not written in decimal'],
    ['12furlong', 'the unit "furlong", which is no length; use mm, cm, m, in or ft'],
    ['12 constructor', 'the unit "constructor"'],
    ['12 __proto__', 'the unit "__proto__"'],
    ['12deg', 'the unit "deg"'],
    ['5mil', 'thousandths of an inch or millimetres'],
    ['5Mm', 'megametres'],
    ['mm', 'does not start with a number'],
    ['- 5', 'does not start with a number'],
    ['1/0in', 'divides by zero'],
    ['1 3/2in', 'not less than one'],
    ['1 1/2/3in', 'write one number'],
    ['1-2', '"-2" after the number'],
    ['１２', 'does not start with a number'],
  ])('refuses %j', (text, words) => {
    expect(refusal(text)).toContain(words);
  });

  it('refuses a megabyte without repeating it', () => {
    expect(refusal('9'.repeat(1_000_000))).toBe(
      'is 1000000 characters long; write it in a few characters, like 38mm or 1.5in',
    );
  });

  it.each([Number.NaN, Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY])(
    'refuses the number %d',
    (value) => {
      expect(refusal(value)).toContain('not a finite number');
    },
  );

  it('gives the double nearest to the exact length of any decimal inches (seed 254)', () => {
    fc.assert(
      fc.property(fc.integer({ min: -100_000_000, max: 100_000_000 }), (tenThousandths) => {
        // n/10⁴ in = 254 n/10⁵ mm: written out exactly and read by the language itself.
        const digits = (BigInt(Math.abs(tenThousandths)) * 254n).toString().padStart(6, '0');
        const exact = Number(`${tenThousandths < 0 ? '-' : ''}${digits.slice(0, -5)}.${digits.slice(-5)}`);
        const size = Math.abs(tenThousandths).toString().padStart(5, '0');
        const text = `${tenThousandths < 0 ? '-' : ''}${size.slice(0, -4)}.${size.slice(-4)}in`;
        expect(Math.abs(mm(text) - exact)).toBe(0);
      }),
      { seed: 254, numRuns: 2000 },
    );
  });

  it('reads back any number it is given as a number (seed 38)', () => {
    fc.assert(
      fc.property(fc.double({ noNaN: true, noDefaultInfinity: true }), (value) => {
        expect(mm(value) - value).toBe(0);
        expect(mm(String(value))).toBe(mm(value));
      }),
      { seed: 38, numRuns: 2000 },
    );
  });

  it('never throws and always explains (seed 811)', () => {
    const piece = fc.constantFrom(
      '1',
      '0',
      '9',
      '.',
      ',',
      ' ',
      '/',
      '-',
      '+',
      'e',
      'mm',
      'in',
      '"',
      "'",
      '½',
      '°',
      'x',
    );
    fc.assert(
      fc.property(
        fc.oneof(
          fc.string(),
          fc.array(piece, { maxLength: 8 }).map((p) => p.join('')),
        ),
        (text) => {
          const reading = parseLength(text, 'mm');
          if (reading.ok) expect(Number.isFinite(reading.value)).toBe(true);
          else expect(reading.problem !== '' && reading.remedy !== '').toBe(true);
        },
      ),
      { seed: 811, numRuns: 3000 },
    );
  });
});

describe('formatLength', () => {
  it('prints millimetres and inches without needless zeros', () => {
    expect(formatLength(38.1, 'mm')).toBe('38.1 mm');
    expect(formatLength(38.1, 'in')).toBe('1.5 in');
    expect(formatLength(-0.0001, 'mm')).toBe('0 mm');
    expect(formatLength(12, 'mm', { digits: 2, keepZeros: true })).toBe('12.00 mm');
    expect(formatLength(12.3456, 'mm', { digits: 2, showUnit: false })).toBe('12.35');
    expect(formatLength(100, 'mm', { digits: 0 })).toBe('100 mm');
  });

  it('prints inch fractions in lowest terms, marking what was rounded', () => {
    expect(formatLength(38.1, 'in', { fraction: 64 })).toBe('1-1/2 in');
    expect(formatLength(9.525, 'in', { fraction: 16 })).toBe('3/8 in');
    expect(formatLength(-9.525, 'in', { fraction: 16 })).toBe('-3/8 in');
    expect(formatLength(50.8, 'in', { fraction: 64 })).toBe('2 in');
    expect(formatLength(0, 'in', { fraction: 64 })).toBe('0 in');
    expect(formatLength(38, 'in', { fraction: 64 })).toBe('≈ 1-1/2 in');
    expect(formatLength(25.3, 'in', { fraction: 8 })).toBe('≈ 1 in');
  });

  it('is read back within half of the last digit (seed 1959)', () => {
    const length = fc.double({ min: -5000, max: 5000, noNaN: true });
    fc.assert(
      fc.property(length, (value) => {
        expect(Math.abs(mm(formatLength(value, 'mm')) - value)).toBeLessThanOrEqual(0.0005 + 1e-12);
        expect(Math.abs(mm(formatLength(value, 'in')) - value)).toBeLessThanOrEqual(0.00005 * 25.4 + 1e-12);
      }),
      { seed: 1959, numRuns: 2000 },
    );
  });

  it('writes every 64th of an inch so that it is read back exactly (seed 64)', () => {
    fc.assert(
      fc.property(fc.integer({ min: -6400, max: 6400 }), (parts) => {
        const text = formatLength((parts * 25.4) / 64, 'in', { fraction: 64 });
        expect(text).not.toContain('≈');
        expect(Math.abs(mm(text) - (parts * 25.4) / 64)).toBeLessThan(1e-10);
      }),
      { seed: 64, numRuns: 1000 },
    );
  });
});
