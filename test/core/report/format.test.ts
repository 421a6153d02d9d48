import { describe, expect, test } from 'vitest';
import { createFormat, decimals, duration, noNumber } from '../../../core/report/format.js';

const mm = createFormat({ lengthUnit: 'mm', degrees: 'C' });
const inch = createFormat({ lengthUnit: 'in', degrees: 'F' });

describe('factors of NIST SP 811, appendix B', () => {
  test.each([
    ['1 in = 25.4 mm', inch.length(25.4), '1.000 in'],
    ['1 in² = 645.16 mm²', inch.area(645.16), '1.000 in²'],
    ['1 in³ = 16.387064 cm³', inch.volume(16_387.064), '1.00 in³'],
    ['1 lb = 453.59237 g', inch.mass(453.59237), '1 lb 0.0 oz'],
    ['1 oz = 28.349523 g', inch.mass(28.349523), '1.00 oz'],
    ['1 ft/s = 0.3048 m/s', inch.speed(304.8), '12.0 in/s'],
    ['5 ft/s = 1.524 m/s', inch.speed(1524), '5.00 ft/s'],
    ['1.524 m/s', mm.speed(1524), '1.52 m/s'],
    ['0.4 m/s', mm.speed(400), '400 mm/s'],
    ['no time', mm.duration(0), '0 s'],
    ['1 kWh = 3.6 MJ; 1 Btu = 1.055056 kJ', inch.energy(3.6e6), '1.00 kWh (3412 Btu)'],
    ['1 kWh = 3.6 MJ', mm.energy(3.6e6), '1.00 kWh (3.60 MJ)'],
    ['water boils', inch.temperature(100), '212 °F'],
    ['a step of 1 °C is 1.8 °F', inch.temperatureStep(100), '180 °F'],
    ['the two scales meet', inch.temperature(-40), '−40 °F'],
  ])('%s', (_, got, wanted) => expect(got).toBe(wanted));
});

describe('rounding', () => {
  test('lengths to 0.01 mm and 0.001 in, rough ones to 0.1 mm and 0.01 in', () => {
    expect([mm.length(12.3456), inch.length(12.3456)]).toEqual(['12.35 mm', '0.486 in']);
    expect([mm.rough(12.3456), inch.rough(12.3456)]).toEqual(['12.3 mm', '0.49 in']);
    expect(mm.lengthDual(50.8)).toBe('50.80 mm (2.000 in)');
    expect(inch.lengthDual(50.8)).toBe('2.000 in (50.80 mm)');
    expect(mm.box([92.27, 92.27, 30])).toBe('92.3 × 92.3 × 30.0 mm');
  });

  test('whole grams on the bench scale, tenths below ten, kilograms with grams above', () => {
    expect([4.36, 9.94, 9.96, 812.4, 9999.4, 9999.6, 24_600.2].map(mm.mass)).toEqual([
      '4.4 g',
      '9.9 g',
      '10 g',
      '812 g',
      '9999 g',
      '10.000 kg',
      '24.600 kg',
    ]);
  });

  test('ounces carry into pounds and never read 16.0', () => {
    expect([8.1, 283.4, 453.5, 460, 907.1].map(inch.mass)).toEqual([
      '0.29 oz',
      '10.0 oz',
      '1 lb 0.0 oz',
      '1 lb 0.2 oz',
      '2 lb 0.0 oz',
    ]);
    expect(mm.massDual(1000)).toBe('1000 g (2 lb 3.3 oz)');
  });

  test('small volumes keep two figures', () => {
    expect([mm.volume(53), mm.volume(12_345), inch.volume(53)]).toEqual([
      '0.05 cm³',
      '12.3 cm³',
      '0.003 in³',
    ]);
  });

  test('temperatures, ranges, ramps', () => {
    expect(mm.temperatureDual(1150)).toBe('1150 °C (2102 °F)');
    expect(inch.temperatureDual(1150)).toBe('2102 °F (1150 °C)');
    expect(inch.temperatureRange([1095, 1205])).toBe('2003 to 2201 °F');
    expect([mm.rateNumber(-100), inch.rateNumber(60)]).toEqual(['−100', '108']);
  });

  test('times', () => {
    expect([1.27, 59.94, 60, 95, 540, 19.77 * 3600, 7200].map(duration)).toEqual([
      '1.3 s',
      '59.9 s',
      '1 min',
      '1 min 35 s',
      '9 min',
      '19 h 46 min',
      '2 h',
    ]);
    expect([mm.clock(7800), mm.clock(3599), mm.clock(0)]).toEqual(['2:10', '1:00', '0:00']);
  });

  test('angles, percent, growth', () => {
    expect([mm.angle(Math.PI / 6), mm.percent(0.125), mm.growth(1.016)]).toEqual([
      '30.00°',
      '12.5 %',
      '1.0160',
    ]);
  });
});

test('what is no number shows as a dash, and minus nought as nought', () => {
  expect(decimals(-0.001, 2)).toBe('0.00');
  for (const f of [mm, inch])
    for (const x of [Number.NaN, Number.POSITIVE_INFINITY])
      for (const text of [
        f.length(x),
        f.lengthDual(x),
        f.rough(x),
        f.area(x),
        f.volume(x),
        f.massDual(x),
        f.temperatureDual(x),
        f.rateNumber(x),
        f.temperatureStep(x),
        f.speed(x),
        f.duration(x),
        f.clock(x),
        f.angle(x),
        f.energy(x),
        f.percent(x),
        f.growth(x),
      ])
        expect(text).toBe(noNumber);
});

test('on paper a quantity does not break inside, only before its other unit', () => {
  const paper = createFormat({ lengthUnit: 'in', degrees: 'F' }, '\u00A0');
  expect(paper.massDual(2645)).toBe('5\u00A0lb\u00A013.3\u00A0oz (2645\u00A0g)');
  expect(paper.lengthUnit).toBe('in');
});
