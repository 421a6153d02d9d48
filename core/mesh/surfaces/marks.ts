import type { SurfaceClass } from '../../part/stock.js';
import { formatLength, type LengthUnit } from '../../units/index.js';
import { formatPlace, type Place } from './place.js';

/** One place and what it gets. */
export interface Mark {
  readonly place: Place;
  /** A class of stock, or an amount in mm, outward positive. */
  readonly gets: SurfaceClass | number;
}

/** The marks as `readMarks` reads them, bare numbers in `unit`. */
export const formatMarks = (marks: readonly Mark[], unit: LengthUnit): string =>
  marks.map((mark) => formatMark(mark, unit)).join('; ');

export const formatMark = ({ place, gets }: Mark, unit: LengthUnit): string =>
  `${formatPlace(place, unit)} = ${typeof gets === 'string' ? gets : formatLength(gets, unit, { showUnit: false })}`;
