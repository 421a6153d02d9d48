/**
 * Conversion factors against NIST Special Publication 811 (2008), appendices B.8 and B.9, as printed there to
 * seven digits; bold (exact) ones in full. All from memory. Tolerance: half the last printed digit.
 */
import { describe, expect, it } from 'vitest';
import {
  type Parsed,
  parseAngle,
  parseLength,
  parseMass,
  parseTemperature,
} from '../../../core/units/index.js';

const value = (reading: Parsed): number => {
  if (!reading.ok) throw new Error(reading.problem);
  return reading.value;
};

describe('NIST SP 811 factors (from memory)', () => {
  it.each([
    ['1in', 25.4],
    ['1ft', 304.8],
    ['1thou', 0.0254],
    ['1cm', 10],
    ['1um', 0.001],
  ])('%s is exactly %d mm', (text, mm) => {
    expect(value(parseLength(text, 'mm'))).toBe(mm);
  });

  it.each([
    ['1lb', 453.59237, 0],
    ['1oz', 28.34952, 0.000005],
    ['1ozt', 31.10348, 0.000005],
  ])('%s is %d g', (text, grams, tolerance) => {
    expect(Math.abs(value(parseMass(text, 'g')) - grams)).toBeLessThanOrEqual(tolerance);
  });

  it('sixteen ounces are a pound, twelve troy ounces 373.2417 g', () => {
    expect(value(parseMass('16oz', 'g'))).toBe(453.59237);
    expect(Math.abs(value(parseMass('12ozt', 'g')) - 373.2417)).toBeLessThanOrEqual(0.00005);
  });

  it.each([
    ['1deg', 1.745329e-2, 0.5e-8],
    ["0°1'", 2.908882e-4, 0.5e-10],
    ['0°0\'1"', 4.848137e-6, 0.5e-12],
  ])('%s is %d rad', (text, radians, tolerance) => {
    expect(Math.abs(value(parseAngle(text)) - radians)).toBeLessThanOrEqual(tolerance);
  });

  // Absolute zero, ice and steam points; copper's freezing point on ITS-90, 1084.62 °C = 1984.32 °F.
  it.each([
    ['-459.67F', -273.15, 1e-12],
    ['32F', 0, 0],
    ['212F', 100, 0],
    ['1984.32F', 1084.62, 0.005],
    ['0K', -273.15, 0],
  ])('%s is %d °C', (text, celsius, tolerance) => {
    expect(Math.abs(value(parseTemperature(text, 'C')) - celsius)).toBeLessThanOrEqual(tolerance);
  });
});
