/** Temperatures: degrees Celsius inside. */
import { formatNumber, type NumberFormat } from './format-number.js';
import { splitNumber } from './number-text.js';
import { type Parsed, parsed, unparsed } from './parsed.js';

export type TemperatureUnit = 'C' | 'F';

/** 0 K in °C, exact (NIST SP 811, B.9). */
export const absoluteZero = -273.15;

const example = '1100C or 2010F';

const scales: Readonly<Record<string, TemperatureUnit | 'K'>> = {
  c: 'C',
  '°c': 'C',
  degc: 'C',
  'deg c': 'C',
  '\u2103': 'C',
  celsius: 'C',
  f: 'F',
  '°f': 'F',
  degf: 'F',
  'deg f': 'F',
  '\u2109': 'F',
  fahrenheit: 'F',
  k: 'K',
};

/**
 * Reads a temperature in °C: `1100C`, `1100 °C`, `2010F`, `1373K`. A bare number is in `unit`.
 * Refused: a degree sign without a scale, and anything below absolute zero.
 */
export function parseTemperature(input: string | number, unit: TemperatureUnit): Parsed {
  const split = splitNumber(input, example);
  if (!split.ok) return split;
  const { numerator, denominator, rest } = split.value;
  const spelled = rest.toLowerCase().replace(/° /, '°');
  if (spelled === '°' || spelled === 'deg') {
    return unparsed('does not say which degrees', `write C or F, like ${example}`);
  }
  const scale = rest === '' ? unit : Object.hasOwn(scales, spelled) ? scales[spelled] : undefined;
  if (scale === undefined)
    return unparsed(`has the unit "${rest}", which is no temperature`, `write it like ${example}`);
  const value = toCelsius(numerator, denominator, scale);
  if (value < absoluteZero) {
    return unparsed(
      'is below absolute zero',
      `give at least ${formatTemperature(absoluteZero, unit, { digits: 2 })}`,
    );
  }
  return Number.isFinite(value) ? parsed(value) : unparsed('is too large', `write it like ${example}`);
}

/** t/°C = (t/°F − 32)/1.8 and T/K − 273.15, over a common denominator so that whole values stay whole. */
function toCelsius(numerator: number, denominator: number, scale: TemperatureUnit | 'K'): number {
  if (scale === 'C') return numerator / denominator;
  if (scale === 'F') return ((numerator - 32 * denominator) * 5) / (denominator * 9);
  return (100 * numerator - 27_315 * denominator) / (100 * denominator);
}

/** A temperature for people: `1100 °C`, `2012 °F`. Default whole degrees. */
export const formatTemperature = (
  celsius: number,
  unit: TemperatureUnit,
  format: NumberFormat = {},
): string =>
  `${formatNumber(unit === 'C' ? celsius : celsius * 1.8 + 32, { digits: 0, ...format })} °${unit}`;

/** A difference or step of temperature, which has no offset: 100 °C is 180 °F. */
export const formatTemperatureStep = (
  celsius: number,
  unit: TemperatureUnit,
  format: NumberFormat = {},
): string => `${formatNumber(unit === 'C' ? celsius : celsius * 1.8, { digits: 0, ...format })} °${unit}`;
