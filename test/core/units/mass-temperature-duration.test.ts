import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  bestMassUnit,
  formatDuration,
  formatMass,
  formatTemperature,
  formatTemperatureStep,
  type MassUnit,
  type Parsed,
  parseDuration,
  parseMass,
  parseNumber,
  parseTemperature,
} from '../../../core/units/index.js';

const value = (reading: Parsed): number => {
  if (!reading.ok) throw new Error(reading.problem);
  return reading.value;
};
const refusal = (reading: Parsed): string =>
  reading.ok ? `read as ${reading.value}` : `${reading.problem}; ${reading.remedy}`;

describe('masses', () => {
  it.each([
    ['250g', 250],
    ['250', 250],
    ['1.2kg', 1200],
    ['25lb', 11339.80925],
    ['2.5 lbs', 1133.980925],
    ['8oz', 226.796185],
    ['5ozt', 155.517384],
    ['5 troy oz', 155.517384],
  ])('%s is %d g', (text, grams) => {
    expect(value(parseMass(text, 'g'))).toBe(grams);
  });

  it('reads bare numbers in the unit asked for', () => {
    expect(value(parseMass('2', 'lb'))).toBe(907.18474);
  });

  it.each([
    ['5gr', 'grains or grams'],
    ['5Mg', 'milligrams or tonnes'],
    ['5#', 'pounds or a size number'],
    ['1lb 8oz', 'one number and one unit'],
    ['5mm', 'the unit "mm", which is no mass'],
    ['1,200g', 'write 1.200 or 1200'],
  ])('refuses %s', (text, words) => {
    expect(refusal(parseMass(text, 'g'))).toContain(words);
  });

  it('prints in the unit a person would use', () => {
    const shown = (grams: number, system: 'mm' | 'in') => formatMass(grams, bestMassUnit(grams, system));
    expect(shown(250, 'mm')).toBe('250 g');
    expect(shown(1234.6, 'mm')).toBe('1.235 kg');
    expect(shown(226.796185, 'in')).toBe('8 oz');
    expect(shown(1133.980925, 'in')).toBe('2.5 lb');
    expect(formatMass(0.04, 'g')).toBe('0 g');
  });

  it('is read back within half of the last digit (seed 453)', () => {
    const unit = fc.constantFrom<MassUnit>('g', 'kg', 'oz', 'lb', 'ozt');
    fc.assert(
      fc.property(fc.double({ min: 0, max: 1e6, noNaN: true }), unit, (grams, u) => {
        const step = value(parseMass('1', u)) * 0.5e-6;
        expect(
          Math.abs(value(parseMass(formatMass(grams, u, { digits: 6 }), 'g')) - grams),
        ).toBeLessThanOrEqual(step * 1.0001 + 1e-9);
      }),
      { seed: 453, numRuns: 1000 },
    );
  });
});

describe('temperatures', () => {
  it.each([
    ['1100C', 1100],
    ['1100 °C', 1100],
    ['1100°C', 1100],
    ['1100 ℃', 1100],
    ['1100 degC', 1100],
    ['1100c', 1100],
    ['2012F', 1100],
    ['2012 °F', 1100],
    ['-40F', -40],
    ['32F', 0],
    ['212f', 100],
    ['273.15K', 0],
  ])('%s is %d °C', (text, celsius) => {
    expect(value(parseTemperature(text, 'C'))).toBe(celsius);
  });

  it('reads bare numbers in the scale asked for', () => {
    expect(value(parseTemperature('1100', 'C'))).toBe(1100);
    expect(value(parseTemperature(2012, 'F'))).toBe(1100);
    expect(value(parseTemperature('2010F', 'C'))).toBeCloseTo(1098.8889, 4);
  });

  it.each([
    ['1100°', 'does not say which degrees; write C or F'],
    ['1100 deg', 'does not say which degrees'],
    ['-300C', 'below absolute zero'],
    ['-460F', 'below absolute zero'],
    ['20mm', 'no temperature'],
    ['1,100C', 'comma'],
    ['', 'is empty'],
  ])('refuses %s', (text, words) => {
    expect(refusal(parseTemperature(text, 'C'))).toContain(words);
  });

  it('prints degrees, and steps without the offset', () => {
    expect(formatTemperature(1100, 'C')).toBe('1100 °C');
    expect(formatTemperature(1100, 'F')).toBe('2012 °F');
    expect(formatTemperature(-0.2, 'C')).toBe('0 °C');
    expect(formatTemperatureStep(100, 'F')).toBe('180 °F');
  });

  it('is read back within half a degree printed (seed 1990)', () => {
    fc.assert(
      fc.property(fc.double({ min: -270, max: 3000, noNaN: true }), (celsius) => {
        const back = (unit: 'C' | 'F') => value(parseTemperature(formatTemperature(celsius, unit), unit));
        expect(Math.abs(back('C') - celsius)).toBeLessThanOrEqual(0.5);
        expect(Math.abs(back('F') - celsius)).toBeLessThanOrEqual(0.5 / 1.8 + 1e-9);
      }),
      { seed: 1990, numRuns: 1000 },
    );
  });
});

describe('durations', () => {
  it.each([
    ['2h', 7200],
    ['90min', 5400],
    ['45s', 45],
    ['2h 30min', 9000],
    ['2h30min', 9000],
    ['1.5 hours', 5400],
    ['1d', 86_400],
    ['10', 600],
  ])('%s is %d s', (text, seconds) => {
    expect(value(parseDuration(text, 'min'))).toBe(seconds);
  });

  it.each([
    ['5m', 'minutes or metres'],
    ['1:30', 'hours and minutes or minutes and seconds'],
    ['2h 75min', '75 minutes'],
    ['-1h', 'negative'],
    ['2 weeks', 'no duration'],
  ])('refuses %s', (text, words) => {
    expect(refusal(parseDuration(text, 'min'))).toContain(words);
  });

  it('prints the two units that matter', () => {
    expect(formatDuration(0)).toBe('0 s');
    expect(formatDuration(59.6)).toBe('1 min');
    expect(formatDuration(90)).toBe('1 min 30 s');
    expect(formatDuration(3599)).toBe('1 h');
    expect(formatDuration(9000)).toBe('2 h 30 min');
    expect(formatDuration(43_200)).toBe('12 h');
  });

  it('is read back, from an hour on, within half a minute (seed 3600)', () => {
    fc.assert(
      fc.property(fc.double({ min: 3600, max: 1e6, noNaN: true }), (seconds) => {
        expect(Math.abs(value(parseDuration(formatDuration(seconds), 's')) - seconds)).toBeLessThanOrEqual(
          30,
        );
      }),
      { seed: 3600, numRuns: 1000 },
    );
  });
});

describe('plain numbers', () => {
  it('reads decimals and fractions, and refuses units', () => {
    expect(value(parseNumber('1.021'))).toBe(1.021);
    expect(value(parseNumber('-3/8'))).toBe(-0.375);
    expect(refusal(parseNumber('5mm'))).toContain('without a unit');
    expect(refusal(parseNumber('2.1%'))).toContain('percentage');
  });
});
