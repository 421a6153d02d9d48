import { FormatError } from '../../format-error.js';
import { wholeNumberAt } from '../number-text.js';
import { showBytes } from '../text-cursor.js';

/** Bytes of each type, by both of its names. */
const sizes = {
  char: 1,
  int8: 1,
  uchar: 1,
  uint8: 1,
  short: 2,
  int16: 2,
  ushort: 2,
  uint16: 2,
  int: 4,
  int32: 4,
  uint: 4,
  uint32: 4,
  float: 4,
  float32: 4,
  double: 8,
  float64: 8,
} as const;
export type PlyType = keyof typeof sizes;
export const sizeOf = (type: PlyType): number => sizes[type];

export interface PlyProperty {
  readonly name: string;
  /** of the value, or of each value in a list */
  readonly type: PlyType;
  /** of the number of values in a list; null for a single value */
  readonly countType: PlyType | null;
}
export interface PlyElement {
  readonly name: string;
  readonly count: number;
  readonly properties: readonly PlyProperty[];
}
export interface PlyHeader {
  readonly format: 'ascii' | 'binary_little_endian' | 'binary_big_endian';
  readonly elements: readonly PlyElement[];
  /** Where the values begin, bytes. */
  readonly end: number;
  /** The line they begin in. */
  readonly line: number;
}

/** Real headers have some 500 bytes. */
const longestHeader = 65536;
const mostProperties = 256;

const [lineFeed, carriageReturn] = [10, 13];

/** Whether the bytes begin as a PLY file does. */
export const isPly = (bytes: Uint8Array): boolean =>
  bytes[0] === 112 &&
  bytes[1] === 108 &&
  bytes[2] === 121 &&
  [lineFeed, carriageReturn, 32, 9].includes(bytes[3] ?? 0);

/** @throws FormatError `ply-header` with the line. */
export function readPlyHeader(bytes: Uint8Array): PlyHeader {
  const elements: { name: string; count: number; properties: PlyProperty[] }[] = [];
  let format: PlyHeader['format'] | null = null;
  let properties = 0;
  for (const line of headerLines(bytes)) {
    const [keyword = '', ...words] = line.words;
    switch (keyword) {
      case '':
      case 'comment':
      case 'obj_info':
      case 'ply':
        break;
      case 'end_header':
        if (format === null) return fail(line.number, 'the header names no format.');
        return { format, elements, end: line.end, line: line.number + 1 };
      case 'format':
        if (words[1] !== '1.0' || !isFormat(words[0]))
          return fail(line.number, `the format "${words.join(' ')}" is not one of PLY 1.0.`);
        format = words[0];
        break;
      case 'element':
        elements.push({ name: words[0] ?? '', count: readCount(words[1], line.number), properties: [] });
        break;
      case 'property': {
        const element = elements.at(-1);
        if (!element) return fail(line.number, 'a property before any element.');
        if (++properties > mostProperties)
          return fail(line.number, `more than ${mostProperties} properties.`);
        element.properties.push(readProperty(words, line.number));
        break;
      }
      default:
        return fail(line.number, `"${keyword}" is no word of a PLY header.`);
    }
  }
  return fail(1, 'the header has no end ("end_header").');
}

const isFormat = (word: string | undefined): word is PlyHeader['format'] =>
  word === 'ascii' || word === 'binary_little_endian' || word === 'binary_big_endian';
const isType = (word: string | undefined): word is PlyType =>
  word !== undefined && Object.hasOwn(sizes, word);

function readCount(word: string | undefined, line: number): number {
  const bytes = new TextEncoder().encode(word ?? '');
  const count = wholeNumberAt(bytes, 0, bytes.length);
  if (Number.isNaN(count)) return fail(line, `the number of elements is "${word ?? ''}".`);
  return count;
}

function readProperty(words: readonly string[], line: number): PlyProperty {
  const list = words[0] === 'list';
  const [type, name] = list ? words.slice(2) : words;
  const countType = list ? words[1] : undefined;
  if (!isType(type) || (list && !isType(countType)) || name === undefined)
    return fail(line, `"property ${words.join(' ')}" names no type of PLY, or no name.`);
  return { name, type, countType: list && isType(countType) ? countType : null };
}

function fail(line: number, message: string): never {
  throw new FormatError(
    'ply-header',
    `Line ${line}: ${message}`,
    'Export the file again as PLY 1.0, or copy it again if it was damaged on its way.',
  );
}

interface HeaderLine {
  readonly words: readonly string[];
  /** from 1 */
  readonly number: number;
  /** where the next line begins, bytes */
  readonly end: number;
}

function* headerLines(bytes: Uint8Array): Generator<HeaderLine> {
  // The first line shows how lines end: after the header a byte 10 may already be a value.
  const first = bytes.findIndex((c) => c === lineFeed || c === carriageReturn);
  const last = bytes[first] ?? lineFeed;
  const pair = last === carriageReturn && bytes[first + 1] === lineFeed;
  const limit = Math.min(bytes.length, longestHeader);
  let start = 0;
  for (let number = 1; start < limit; number++) {
    let end = start;
    while (end < limit && bytes[end] !== last) end++;
    const next = end + (pair && bytes[end + 1] === lineFeed ? 2 : 1);
    const words = String.fromCharCode(...bytes.subarray(start, Math.min(end, start + 1000)))
      .split(/\s+/)
      .filter((word) => word !== '')
      .map((word) => showBytes(new TextEncoder().encode(word)));
    yield { words, number, end: Math.min(next, bytes.length) };
    start = next;
  }
}
