import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { degrees, formatAngle, parseAngle, radians } from '../../../core/units/index.js';

const read = (text: string | number): number => {
  const reading = parseAngle(text);
  if (!reading.ok) throw new Error(`${text} ${reading.problem}`);
  return reading.value;
};
const refusal = (text: string | number): string => {
  const reading = parseAngle(text);
  return reading.ok ? `read as ${reading.value}` : `${reading.problem}; ${reading.remedy}`;
};

describe('parseAngle', () => {
  it.each([
    ['30', 30],
    [30, 30],
    ['30deg', 30],
    ['30 deg', 30],
    ['30°', 30],
    ['22.5 degrees', 22.5],
    ['22 1/2deg', 22.5],
    ["30°15'", 30.25],
    ['30°15′', 30.25],
    ['30° 15’', 30.25],
    ["30deg15'", 30.25],
    ['30°15\'36"', 30.26],
    ['30° 15′ 36″', 30.26],
    ["-30°15'", -30.25],
    ['0°0\'5.5"', 5.5 / 3600],
    ["0°3.5'", 3.5 / 60],
  ] as const)('%s is %d degrees', (text, expected) => {
    expect(degrees(read(text))).toBeCloseTo(expected, 12);
  });

  it('reads radians as they are', () => {
    expect(read('0.5rad')).toBe(0.5);
    expect(read('500 mrad')).toBe(0.5);
  });

  it.each([
    ["3'", "minutes of arc or feet; write minutes with degrees, like 0°3'"],
    ['5"', 'seconds of arc or inches; write seconds with degrees and minutes, like 0°0\'5"'],
    ['30°20"', 'seconds without minutes'],
    ["30°60'", '60 minutes'],
    ['30°15\'60"', '60 seconds'],
    ["30.5°15'", 'decimals before a smaller unit'],
    ['30°15.5\'10"', 'decimals before a smaller unit'],
    ['30grad', 'the unit "grad", which is no angle'],
    ['30mm', 'the unit "mm"'],
    ["30°-15'", 'after the number'],
    ['30,5°', 'comma'],
    ['', 'is empty'],
    [Number.NaN, 'not a finite number'],
    ['1e400deg', 'too large'],
    ['x'.repeat(1000), '1000 characters'],
  ] as const)('refuses %s', (text, words) => {
    expect(refusal(text)).toContain(words);
  });

  it('reads degrees, minutes and seconds by their definition (seed 60)', () => {
    const part = fc.integer({ min: 0, max: 59 });
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 359 }), part, part, fc.boolean(), (d, m, s, negative) => {
        const sign = negative ? -1 : 1;
        const expected = (sign * (d + m / 60 + s / 3600) * Math.PI) / 180;
        expect(read(`${negative ? '-' : ''}${d}°${m}'${s}"`)).toBeCloseTo(expected, 12);
      }),
      { seed: 60, numRuns: 1000 },
    );
  });
});

describe('formatAngle', () => {
  it('prints decimal degrees, degrees with minutes and seconds, and radians', () => {
    expect(formatAngle(radians(25))).toBe('25°');
    expect(formatAngle(radians(30.25))).toBe('30.25°');
    expect(formatAngle(radians(30.25), 'dms')).toBe("30°15'");
    expect(formatAngle(radians(30.26), 'dms')).toBe('30°15\'36"');
    expect(formatAngle(radians(-30.25), 'dms')).toBe("-30°15'");
    expect(formatAngle(radians(29.99999999), 'dms')).toBe('30°');
    expect(formatAngle(0.5, 'rad')).toBe('0.5 rad');
  });

  it('is read back within half of the last digit, in each style (seed 21771)', () => {
    fc.assert(
      fc.property(fc.double({ min: -7, max: 7, noNaN: true }), (angle) => {
        expect(Math.abs(read(formatAngle(angle)) - angle)).toBeLessThanOrEqual(radians(0.0005) + 1e-12);
        expect(Math.abs(read(formatAngle(angle, 'dms')) - angle)).toBeLessThanOrEqual(
          radians(0.5 / 3600) + 1e-12,
        );
        expect(Math.abs(read(formatAngle(angle, 'rad')) - angle)).toBeLessThanOrEqual(0.000005 + 1e-12);
      }),
      { seed: 21771, numRuns: 2000 },
    );
  });
});
