import crc32 from 'crc-32';
import { Inflate } from 'fflate';
import { FormatError } from '../../format-error.js';
import { type MeshLimits, smallEntry } from '../limits.js';
import type { ZipEntry } from './directory.js';
import { damaged, shortName } from './words.js';

/** Bytes handed to the unfolding at a time: a thousandfold of it, the most that deflate can do, is in memory at once. */
const step = 4096;

const localSignature = 0x04034b50;
const localLength = 30;
const encrypted = 1;
const [stored, deflated] = [0, 8];

/**
 * Unfolds an entry piece by piece.
 *
 * @param budget bytes that may still be unfolded from this package; lowered by what this entry takes
 * @param take gets every piece; what it throws ends the unfolding
 * @throws FormatError for an entry that is encrypted, packed otherwise than by deflate, damaged, or too large: by what
 * it says, and again by what it gives.
 */
export function unfoldEntry(
  bytes: Uint8Array,
  entry: ZipEntry,
  limits: MeshLimits,
  budget: { left: number },
  take: (piece: Uint8Array) => void,
): void {
  const packed = packedBytes(bytes, entry);
  checkSize(entry.size, entry, limits, budget.left);
  budget.left -= entry.size;
  let size = 0;
  let crc = 0;
  const pass = (piece: Uint8Array): void => {
    size += piece.length;
    if (size > entry.size) wrongEntry(entry, 'holds more than its directory says');
    crc = crc32.buf(piece, crc);
    if (piece.length > 0) take(piece);
  };
  if (entry.method === stored)
    for (let at = 0; at < packed.length; at += step) pass(packed.subarray(at, at + step));
  else inflate(packed, entry, pass);
  if (size < entry.size) wrongEntry(entry, 'holds less than its directory says');
  if (crc >>> 0 !== entry.crc) wrongEntry(entry, 'does not match its checksum');
}

function inflate(packed: Uint8Array, entry: ZipEntry, pass: (piece: Uint8Array) => void): void {
  // What `pass` throws is told from what the unfolding throws.
  let thrown: { readonly error: unknown } | null = null;
  const stream = new Inflate((piece) => {
    try {
      pass(piece);
    } catch (error) {
      thrown = { error };
      throw error;
    }
  });
  try {
    for (let at = 0; at < packed.length || at === 0; at += step)
      stream.push(packed.subarray(at, at + step), at + step >= packed.length);
  } catch {
    const cause = thrown as { readonly error: unknown } | null;
    if (cause) throw cause.error;
    wrongEntry(entry, 'cannot be unfolded');
  }
}

function packedBytes(bytes: Uint8Array, entry: ZipEntry): Uint8Array {
  const name = shortName(entry.name);
  if (entry.flags & encrypted) {
    throw new FormatError(
      'zip-kind',
      `"${name}" in the package is encrypted.`,
      'Save the file without a password.',
    );
  }
  if (entry.method !== stored && entry.method !== deflated) {
    throw new FormatError(
      'zip-kind',
      `"${name}" in the package is packed by method ${entry.method}; only deflate is read.`,
      'Export it again, or pack it again as an ordinary zip file.',
    );
  }
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const { offset } = entry;
  if (offset + localLength > bytes.length || view.getUint32(offset, true) !== localSignature)
    wrongEntry(entry, 'is not where its directory says');
  const nameLength = view.getUint16(offset + 26, true);
  const start = offset + localLength + nameLength + view.getUint16(offset + 28, true);
  if (start + entry.packedSize > bytes.length) wrongEntry(entry, 'is cut short');
  const localName = new TextDecoder().decode(
    bytes.subarray(offset + localLength, offset + localLength + nameLength),
  );
  if (localName !== entry.name || view.getUint16(offset + 8, true) !== entry.method)
    wrongEntry(entry, 'is not what its directory says');
  if (entry.method === stored && entry.packedSize !== entry.size)
    wrongEntry(entry, 'has two sizes in its directory');
  return bytes.subarray(start, start + entry.packedSize);
}

function checkSize(size: number, entry: ZipEntry, limits: MeshLimits, left: number): void {
  const bomb = size > smallEntry && size > limits.unfolding * entry.packedSize;
  if (!bomb && size <= left) return;
  throw new FormatError(
    'zip-size',
    bomb
      ? `"${shortName(entry.name)}" in the package would unfold to ${Math.floor(size / Math.max(1, entry.packedSize))} ` +
          `times its size; ${limits.unfolding} times is allowed, more than a mesh comes to.`
      : `"${shortName(entry.name)}" in the package would unfold to ${Math.floor(size / 2 ** 20)} MiB; ` +
          `${Math.floor(limits.unfoldedBytes / 2 ** 20)} MiB in all are allowed.`,
    'Export the part alone, as an ordinary mesh.',
  );
}

function wrongEntry(entry: ZipEntry, what: string): never {
  return damaged(`"${shortName(entry.name)}" ${what}`);
}
