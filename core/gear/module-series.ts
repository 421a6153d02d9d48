import { maths } from '../maths/maths.js';

/** Preferred normal modules, mm, ISO 54:1996, Table 1 (from memory): series I before series II. */
export const moduleSeriesI: readonly number[] = [
  1, 1.25, 1.5, 2, 2.5, 3, 4, 5, 6, 8, 10, 12, 16, 20, 25, 32, 40, 50,
];

/** Series II; the standard asks that 6.5 be avoided. */
export const moduleSeriesII: readonly number[] = [
  1.125, 1.375, 1.75, 2.25, 2.75, 3.5, 4.5, 5.5, 6.5, 7, 9, 11, 14, 18, 22, 28, 36, 45,
];

/** mm in an inch, exact by definition (1959). */
const inch = 25.4;

/** Module, mm, from diametral pitch, teeth an inch of reference diameter. RangeError unless above 0. */
export function moduleFromDiametralPitch(diametralPitch: number): number {
  if (!(diametralPitch > 0 && Number.isFinite(diametralPitch))) {
    throw new RangeError(`diametral pitch is ${diametralPitch}; it must be above 0`);
  }
  return inch / diametralPitch;
}

/** Diametral pitch from module, mm. RangeError unless above 0. */
export function diametralPitchFromModule(module: number): number {
  if (!(module > 0 && Number.isFinite(module))) {
    throw new RangeError(`module is ${module} mm; it must be above 0`);
  }
  return inch / module;
}

/** Which series of ISO 54 a module belongs to, `undefined` for neither. */
export function moduleSeriesOf(module: number): 'I' | 'II' | undefined {
  const isIn = (series: readonly number[]) => series.some((m) => Math.abs(m - module) < 1e-9);
  if (isIn(moduleSeriesI)) return 'I';
  return isIn(moduleSeriesII) ? 'II' : undefined;
}

/** The series I module nearest to a module by ratio; series II too when `series` is 'II'. */
export function nearestModule(module: number, series: 'I' | 'II' = 'I'): number {
  const choices = series === 'I' ? moduleSeriesI : [...moduleSeriesI, ...moduleSeriesII];
  const away = (m: number) => Math.abs(maths.log(m / module));
  return choices.reduce((best, m) => (away(m) < away(best) ? m : best));
}
