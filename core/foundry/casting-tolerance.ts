import { castingTolerance, largestToleranceDimension } from './iso-8062.js';
import type { CastingTolerancePlan } from './plans.js';

/**
 * ISO 8062:1994 Table A.1 gives investment castings in copper and light alloys CT 5 to 8, for patterns of wax from
 * a metal die. A printed pattern in a plaster mould adds the printer's error: the coarser half of that range.
 */
export const castingTolerancePlan: CastingTolerancePlan = {
  grade: 7,
  basis: {
    rule: '± half of the DCTG 7 width at the casting’s own size; expected of the process, not what the gear or fitting needs',
    source:
      'ISO 8062-3 (DCTG, from memory); grade: investment casting 5 to 8 for copper and light alloys, printed pattern in plaster in the coarser half; measured pieces replace it',
  },
};

/**
 * The ± of a casting's linear size, mm: half of the tolerance width. `undefined` where ISO 8062-3 gives none: sizes
 * of nought and over 400 mm.
 */
export const plusMinusOf = (size: number): number | undefined =>
  size > 0 && size <= largestToleranceDimension
    ? castingTolerance(size, castingTolerancePlan.grade) / 2
    : undefined;
