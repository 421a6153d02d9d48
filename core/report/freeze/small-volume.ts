import { millimetresPerInch as inch } from '../../units/index.js';
import { decimals, type Format } from '../format.js';

/** Small ones in mm³, or to three or four places of a cubic inch; larger ones as everywhere. */
export function smallVolume(mm3: number, f: Format): string {
  if (f.view.lengthUnit === 'mm')
    return mm3 < 99.5 ? `${decimals(mm3, mm3 < 9.95 ? 1 : 0)} mm³` : f.volume(mm3);
  const in3 = mm3 / inch ** 3;
  return in3 < 1 ? `${decimals(in3, in3 < 0.1 ? 4 : 3)} in³` : f.volume(mm3);
}
