import { maths } from '../maths/maths.js';
import {
  degrees,
  formatDuration,
  formatLength,
  formatMass,
  formatNumber,
  formatTemperature,
  formatTemperatureStep,
  gramsPer,
  millimetresPerInch as inch,
  type LengthUnit,
  type TemperatureUnit,
} from '../units/index.js';

/** How the reports phrase quantities: rounded to what a bench can use, in the reader's units. */

/** The reader's units. Masses and volumes follow the length unit. */
export interface View {
  readonly lengthUnit: LengthUnit;
  readonly degrees: TemperatureUnit;
}

/** What stands where there is no number. */
export const noNumber = '–';

/** J, the International Table British thermal unit, exact. */
const btu = 1055.05585262;

/** A fixed number of decimals, never "-0" and never anything but a number or a dash; a true minus sign. */
export const decimals = (value: number, digits: number): string =>
  Number.isFinite(value) ? formatNumber(value, { digits, keepZeros: true }).replace('-', '−') : noNumber;

const withUnit = (text: string, unit: string): string => (text === noNumber ? text : `${text} ${unit}`);
const both = (main: string, other: string): string => (main === noNumber ? main : `${main} (${other})`);
const shown = (value: number, text: () => string): string =>
  Number.isFinite(value) ? text().replace('-', '−') : noNumber;

/** Whole grams; a tenth below 10 g, kg with three decimals from 10 kg. */
const grams = (g: number): string =>
  shown(g, () =>
    Math.abs(g) < 9_999.5
      ? formatMass(g, 'g', { digits: Math.abs(g) < 9.95 ? 1 : 0, keepZeros: true })
      : formatMass(g, 'kg', { digits: 3, keepZeros: true }),
  );

/** As the scale shows it: the places of its step, at most two; kg from 10 kg. */
function gramsWeighed(g: number, step: number): string {
  const places =
    [0, 1].find((n) => Math.abs(step * maths.pow(10, n) - Math.round(step * maths.pow(10, n))) < 1e-9) ?? 2;
  return shown(g, () =>
    Math.abs(g) < 9_999.5
      ? formatMass(g, 'g', { digits: places, keepZeros: true })
      : formatMass(g, 'kg', { digits: 3 + places, keepZeros: true }),
  );
}

/** Avoirdupois: hundredths of an ounce below 10 oz, else pounds and tenths of an ounce. */
export const ounces = (g: number): string =>
  shown(g, () => {
    const tenths = Math.round((Math.abs(g) / gramsPer.oz) * 10);
    if (tenths < 160) return formatMass(g, 'oz', { digits: tenths < 100 ? 2 : 1, keepZeros: true });
    return `${g < 0 ? '-' : ''}${Math.trunc(tenths / 160)} lb ${decimals((tenths % 160) / 10, 1)} oz`;
  });

/** All the phrasing the reports need, for one reader. Inputs in the units of `summaryUnits`. */
export interface Format {
  readonly view: View;
  readonly lengthUnit: string;
  readonly degreeUnit: string;
  /** To 0.01 mm or 0.001 in. `lengthNumber` leaves the unit out, for columns whose heading has it. */
  readonly length: (mm: number) => string;
  readonly lengthNumber: (mm: number) => string;
  readonly lengthDual: (mm: number) => string;
  /** To 0.1 mm or 0.01 in: flasks, clearances, outside sizes. */
  readonly rough: (mm: number) => string;
  readonly roughNumber: (mm: number) => string;
  /** Outside sizes `a × b × c mm`. */
  readonly box: (size: readonly number[]) => string;
  readonly area: (mm2: number) => string;
  readonly volume: (mm3: number) => string;
  /** Small ones in mm³, or to three or four places of a cubic inch; larger ones as `volume`. */
  readonly smallVolume: (mm3: number) => string;
  readonly mass: (g: number) => string;
  readonly massDual: (g: number) => string;
  /** In whole steps of the shop's scale, g, with as many places as the step has. */
  readonly weighed: (g: number, step: number) => string;
  readonly weighedDual: (g: number, step: number) => string;
  readonly temperature: (c: number) => string;
  readonly temperatureNumber: (c: number) => string;
  readonly temperatureDual: (c: number) => string;
  readonly temperatureRange: (range: readonly [number, number]) => string;
  readonly temperatureRangeDual: (range: readonly [number, number]) => string;
  /** A difference, without the scale's offset. */
  readonly temperatureStep: (k: number) => string;
  /** Degrees an hour, from °C/h. */
  readonly rateNumber: (cPerHour: number) => string;
  readonly speed: (mmPerSecond: number) => string;
  readonly duration: (seconds: number) => string;
  /** `h:mm`, as a controller shows it. */
  readonly clock: (seconds: number) => string;
  readonly angle: (radians: number) => string;
  readonly energy: (joules: number) => string;
  readonly percent: (fraction: number, places?: number) => string;
  readonly growth: (factor: number) => string;
}

/**
 * Makes the phrasing for one reader's units.
 * @param space what stands inside a quantity, between number and unit: a no-break space on paper
 */
export function createFormat(view: View, space = ' '): Format {
  const format = phrasing(view);
  if (space === ' ') return format;
  const kept = Object.entries(format).map(([key, make]) => [
    key,
    typeof make === 'function'
      ? (...values: never[]) => (make as (...v: never[]) => string)(...values).replace(/ (?!\()/g, space)
      : make,
  ]);
  return Object.fromEntries(kept) as Format;
}

function phrasing(view: View): Format {
  const metric = view.lengthUnit === 'mm';
  const lengthIn = (mm: number, unit: LengthUnit, digits: number, showUnit: boolean): string =>
    shown(mm, () => formatLength(mm, unit, { digits, keepZeros: true, showUnit }));
  const fine = { mm: 2, in: 3 };
  const coarse = { mm: 1, in: 2 };
  const unit = view.lengthUnit;
  const otherUnit = metric ? 'in' : 'mm';
  const length = (mm: number): string => lengthIn(mm, unit, fine[unit], true);
  const roughNumber = (mm: number): string => lengthIn(mm, unit, coarse[unit], false);
  const volume = (mm3: number): string =>
    metric
      ? withUnit(decimals(mm3 / 1000, Math.abs(mm3) < 995 ? 2 : 1), 'cm³')
      : withUnit(
          decimals(mm3 / maths.pow(inch, 3), Math.abs(mm3 / maths.pow(inch, 3)) < 0.0995 ? 3 : 2),
          'in³',
        );
  const smallVolume = (mm3: number): string => {
    if (metric) return mm3 < 99.5 ? withUnit(decimals(mm3, mm3 < 9.95 ? 1 : 0), 'mm³') : volume(mm3);
    const in3 = mm3 / maths.pow(inch, 3);
    return in3 < 1 ? withUnit(decimals(in3, in3 < 0.1 ? 4 : 3), 'in³') : volume(mm3);
  };
  const mass = metric ? grams : ounces;
  const otherMass = metric ? ounces : grams;
  const degreesIn =
    (scale: TemperatureUnit) =>
    (c: number): string =>
      shown(c, () => formatTemperature(c, scale));
  const temperature = degreesIn(view.degrees);
  const otherTemperature = degreesIn(view.degrees === 'C' ? 'F' : 'C');
  const degreeUnit = `°${view.degrees}`;
  const bare = (text: string): string => text.replace(/ .*$/, '');
  const span =
    (one: (c: number) => string) =>
    ([low, high]: readonly [number, number]): string =>
      `${bare(one(low))} to ${one(high)}`;
  const step = (k: number): string => shown(k, () => formatTemperatureStep(k, view.degrees));
  return {
    view,
    lengthUnit: unit,
    degreeUnit,
    length,
    lengthNumber: (mm) => lengthIn(mm, unit, fine[unit], false),
    lengthDual: (mm) => both(length(mm), lengthIn(mm, otherUnit, fine[otherUnit], true)),
    rough: (mm) => withUnit(roughNumber(mm), unit),
    roughNumber,
    box: (size) => withUnit(size.map(roughNumber).join(' × '), unit),
    area: (mm2) =>
      metric ? withUnit(decimals(mm2, 1), 'mm²') : withUnit(decimals(mm2 / inch ** 2, 3), 'in²'),
    volume,
    smallVolume,
    mass,
    massDual: (g) => both(mass(g), otherMass(g)),
    weighed: (g, step) => (metric ? gramsWeighed(g, step) : ounces(g)),
    weighedDual: (g, step) =>
      metric ? both(gramsWeighed(g, step), ounces(g)) : both(ounces(g), gramsWeighed(g, step)),
    temperature,
    temperatureNumber: (c) => bare(temperature(c)),
    temperatureDual: (c) => both(temperature(c), otherTemperature(c)),
    temperatureRange: span(temperature),
    temperatureRangeDual: (range) => both(span(temperature)(range), span(otherTemperature)(range)),
    temperatureStep: step,
    rateNumber: (perHour) => bare(step(perHour)),
    speed: metric ? metricSpeed : inchSpeed,
    duration,
    clock: (seconds) => {
      if (!Number.isFinite(seconds)) return noNumber;
      const minutes = Math.round(seconds / 60);
      return `${Math.trunc(minutes / 60)}:${String(minutes % 60).padStart(2, '0')}`;
    },
    angle: (radians) => {
      const text = decimals(degrees(radians), 2);
      return text === noNumber ? text : `${text}°`;
    },
    energy: (joules) => {
      const other = metric
        ? withUnit(decimals(joules / 1e6, 2), 'MJ')
        : withUnit(decimals(joules / btu, 0), 'Btu');
      return both(withUnit(decimals(joules / 3.6e6, 2), 'kWh'), other);
    },
    percent: (fraction, places = 1) => withUnit(decimals(fraction * 100, places), '%'),
    growth: (factor) => decimals(factor, 4),
  };
}

/** mm/s; m/s from one metre a second up. */
const metricSpeed = (v: number): string =>
  Math.abs(v) < 999.5 ? withUnit(decimals(v, 0), 'mm/s') : withUnit(decimals(v / 1000, 2), 'm/s');

/** in/s; ft/s from four feet a second up. */
const inchSpeed = (v: number): string =>
  Math.abs(v / inch) < 47.95
    ? withUnit(decimals(v / inch, 1), 'in/s')
    : withUnit(decimals(v / inch / 12, 2), 'ft/s');

/** Seconds in words; tenths of a second where there are few, for pours. */
export function duration(seconds: number): string {
  if (!Number.isFinite(seconds)) return noNumber;
  if (seconds === 0) return '0 s';
  return seconds < 59.95 ? `${decimals(seconds, 1)} s` : formatDuration(seconds);
}
