import { FormatError } from '../../format-error.js';
import { checkCoordinate } from '../coordinate.js';
import { numberAt } from '../number-text.js';
import type { TextCursor } from '../text-cursor.js';
import { type PlyElement, type PlyProperty, type PlyType, sizeOf } from './header.js';

/** The values after a PLY header, one by one. Each method throws FormatError `ply-short` at the end of the file. */
export interface PlyValues {
  coordinate(type: PlyType): number;
  /** A whole number; NaN for what is none. */
  whole(type: PlyType): number;
  skip(type: PlyType): void;
  /** Bytes, at least, that one value of the type takes. */
  least(type: PlyType): number;
  /** Bytes left. */
  left(): number;
  /** Line or byte of the value read last. */
  where(): string;
  /** Whether nothing but blanks follows. */
  atEnd(): boolean;
}

/** Bytes a row takes at least: its single values and the counts of its lists. */
export const leastRow = ({ properties }: PlyElement, values: PlyValues): number =>
  properties.reduce((sum, p: PlyProperty) => sum + values.least(p.countType ?? p.type), 0);

export function tooShort(where: string): never {
  throw new FormatError(
    'ply-short',
    `${where}: the file ends before what its header counts.`,
    'The file is cut short: copy or export it again.',
  );
}

const isFloat = (type: PlyType): boolean => type.startsWith('float') || type === 'double';

export function textValues(text: TextCursor): PlyValues {
  const next = (): void => {
    if (!text.next()) tooShort(`Line ${text.line}`);
  };
  return {
    coordinate() {
      next();
      return text.coordinate('ply-value');
    },
    whole() {
      next();
      const value = numberAt(text.bytes, text.start, text.end);
      return Number.isInteger(value) ? value : Number.NaN;
    },
    skip: next,
    // A digit and a blank.
    least: () => 2,
    // The last value may have no blank after it.
    left: () => text.bytes.length - text.end + 1,
    where: () => text.where(),
    atEnd: () => !text.next() || text.bytes.subarray(text.start).every((c) => c === 0 || c === 26),
  };
}

export function binaryValues(bytes: Uint8Array, start: number, littleEndian: boolean): PlyValues {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  let at = start;
  const skip = (type: PlyType): void => {
    at += sizeOf(type);
    if (at > bytes.length) tooShort(`Byte ${bytes.length}`);
  };
  const number = (type: PlyType): number => {
    const from = at;
    skip(type);
    switch (type) {
      case 'char':
      case 'int8':
        return view.getInt8(from);
      case 'uchar':
      case 'uint8':
        return view.getUint8(from);
      case 'short':
      case 'int16':
        return view.getInt16(from, littleEndian);
      case 'ushort':
      case 'uint16':
        return view.getUint16(from, littleEndian);
      case 'int':
      case 'int32':
        return view.getInt32(from, littleEndian);
      case 'uint':
      case 'uint32':
        return view.getUint32(from, littleEndian);
      case 'float':
      case 'float32':
        return view.getFloat32(from, littleEndian);
      default:
        return view.getFloat64(from, littleEndian);
    }
  };
  const where = (): string => `Byte ${at}`;
  return {
    coordinate(type) {
      const value = number(type);
      checkCoordinate(value, () => ({ where: where(), word: String(value), wrong: 'ply-value' }));
      return value;
    },
    whole(type) {
      const value = number(type);
      return !isFloat(type) || Number.isInteger(value) ? value : Number.NaN;
    },
    skip,
    least: sizeOf,
    left: () => bytes.length - at,
    where,
    atEnd: () => bytes.subarray(at).every((c) => c === 0 || c === 10 || c === 13 || c === 32),
  };
}
