import { FormatError, type FormatErrorCode } from '../format-error.js';
import { greatestFloat32 } from './limits.js';

/** Where a coordinate stands in its file, and how it is written there. */
export interface CoordinatePlace {
  readonly where: string;
  readonly word: string;
  /** The code of what is no number at all. */
  readonly wrong: FormatErrorCode;
}

/** @throws FormatError for what is not finite, beyond float32, or no number. */
export function checkCoordinate(value: number, place: () => CoordinatePlace): void {
  if (Math.abs(value) <= greatestFloat32) return;
  const { where, word, wrong } = place();
  if (!Number.isNaN(value) || /^[+-]?(nan|inf|1\.?#)/i.test(word)) {
    throw new FormatError(
      'mesh-number',
      `${where}: the coordinate ${word} is ${Number.isFinite(value) ? 'too large' : 'not a finite number'}.`,
      'Export the file again; every coordinate must be a number of ordinary size.',
    );
  }
  throw new FormatError(
    wrong,
    `${where}: a coordinate is expected, but "${word}" stands there.`,
    word.includes(',')
      ? 'Write decimals with a point, not a comma.'
      : 'Export the file again, or copy it again if it was damaged on its way.',
  );
}
