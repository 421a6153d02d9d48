/**
 * A kept part is one file: a line that says what it is, a header in JSON, the bodies one after the other.
 *
 *     patternwright part 1 <length of the header> <its SHA-256>\n
 *     {"key":…,"record":…,"files":[{"name":…,"length":…,"sha256":…}]}
 *     …bodies
 *
 * So every byte is under a sum, and the file is of one length only.
 */
import { createHash } from 'node:crypto';

export interface KeptFile {
  readonly name: string;
  readonly bytes: Uint8Array;
}

/** Where a body lies in the file, and its sum. */
export interface Body {
  readonly start: number;
  readonly length: number;
  readonly sha256: string;
}

export interface Entry {
  readonly record: unknown;
  readonly bodies: ReadonlyMap<string, Body>;
  /** Of the whole file, bytes. */
  readonly length: number;
}

const firstWords = 'patternwright part 1';
/** The first line is never longer. */
export const longestLine = 128;
/** A longer header is not written and not read, bytes: a record is some tens of kilobytes. */
export const longestHeader = 64 * 2 ** 20;

export const sumOf = (bytes: Uint8Array): string => createHash('sha256').update(bytes).digest('hex');

/** The pieces of the file, or undefined where the record is too long to keep. */
export function entryPieces(
  key: string,
  record: unknown,
  files: readonly KeptFile[],
): readonly Uint8Array[] | undefined {
  const told = files.map(({ name, bytes }) => ({ name, length: bytes.length, sha256: sumOf(bytes) }));
  const header = Buffer.from(JSON.stringify({ key, record, files: told }));
  if (header.length > longestHeader) return undefined;
  const line = Buffer.from(`${firstWords} ${header.length} ${sumOf(header)}\n`);
  return [line, header, ...files.map((f) => f.bytes)];
}

/** Where the header lies and its sum, from the file's first bytes; undefined where they are not such a line. */
export function readFirstLine(bytes: Uint8Array): Body | undefined {
  const match = /^patternwright part 1 (\d{1,9}) ([0-9a-f]{64})\n/.exec(
    Buffer.from(bytes).toString('latin1'),
  );
  if (match === null) return undefined;
  const length = Number(match[1]);
  return length > longestHeader ? undefined : { start: match[0].length, length, sha256: match[2]! };
}

/** Reads a header whose sum is right; undefined where it is of another key or form. */
export function readHeader(key: string, header: Uint8Array, end: number): Entry | undefined {
  const told: unknown = JSON.parse(Buffer.from(header).toString());
  if (!isObject(told) || told.key !== key || !('record' in told) || !Array.isArray(told.files))
    return undefined;
  const bodies = new Map<string, Body>();
  let start = end;
  for (const file of told.files as readonly unknown[]) {
    if (!isObject(file)) return undefined;
    const { name, length, sha256 } = file;
    if (typeof name !== 'string' || typeof sha256 !== 'string' || bodies.has(name)) return undefined;
    if (typeof length !== 'number' || !Number.isSafeInteger(length) || length < 0) return undefined;
    bodies.set(name, { start, length, sha256 });
    start += length;
  }
  return { record: told.record, bodies, length: start };
}

const isObject = (value: unknown): value is Record<string, unknown> =>
  typeof value === 'object' && value !== null;
