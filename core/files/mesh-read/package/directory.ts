/** The directory of a zip file. Offsets and signatures: APPNOTE.TXT 6.3, sections 4.3.7, 4.3.12, 4.3.16, from memory. */
import { FormatError } from '../../format-error.js';
import type { MeshLimits } from '../limits.js';
import { checkEntryName } from './part-name.js';
import { damaged, shortName } from './words.js';

export interface ZipEntry {
  readonly name: string;
  readonly flags: number;
  /** 0 stored, 8 deflated */
  readonly method: number;
  readonly crc: number;
  readonly packedSize: number;
  readonly size: number;
  /** of the entry's own header */
  readonly offset: number;
}

/** By name in small letters: part names do not tell large letters from small (Open Packaging Conventions). */
export type ZipDirectory = ReadonlyMap<string, ZipEntry>;

const endSignature = 0x06054b50;
const endLength = 22;
const entrySignature = 0x02014b50;
const entryLength = 46;
const zip64LocatorSignature = 0x07064b50;
const zip64LocatorLength = 20;
const longestComment = 0xffff;

export const isZip = (bytes: Uint8Array): boolean =>
  bytes[0] === 0x50 &&
  bytes[1] === 0x4b &&
  ((bytes[2] === 3 && bytes[3] === 4) || (bytes[2] === 5 && bytes[3] === 6));

/**
 * Reads the directory at the end of the file; the entries themselves are not touched.
 *
 * @throws FormatError for a file without directory, one in several pieces or zip64, names that lead out of the
 * package or come twice, too many entries.
 */
export function readZipDirectory(bytes: Uint8Array, limits: MeshLimits): ZipDirectory {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const end = findEnd(view);
  const count = view.getUint16(end + 10, true);
  const size = view.getUint32(end + 12, true);
  const start = view.getUint32(end + 16, true);
  const zip64 =
    end >= zip64LocatorLength && view.getUint32(end - zip64LocatorLength, true) === zip64LocatorSignature;
  if (zip64 || count === 0xffff || size === 0xffffffff || start === 0xffffffff) refuseZip64();
  if (view.getUint16(end + 4, true) !== 0 || view.getUint16(end + 8, true) !== count) {
    throw new FormatError(
      'zip-kind',
      'The package is one piece of a zip file in several.',
      'Save it in one piece.',
    );
  }
  if (count > limits.entries) {
    throw new FormatError(
      'zip-size',
      `The package says it holds ${count} files; at most ${limits.entries} are read.`,
      'Export the part alone.',
    );
  }
  if (start + size > end || count * entryLength > size) damaged('its directory does not fit into it');
  return readEntries(bytes, view, start, count, start + size);
}

function readEntries(
  bytes: Uint8Array,
  view: DataView,
  start: number,
  count: number,
  end: number,
): ZipDirectory {
  const entries = new Map<string, ZipEntry>();
  const text = new TextDecoder();
  let at = start;
  for (let i = 0; i < count; i++) {
    if (at + entryLength > end || view.getUint32(at, true) !== entrySignature)
      damaged(`entry ${i + 1} of its directory is none`);
    const nameLength = view.getUint16(at + 28, true);
    const next =
      at + entryLength + nameLength + view.getUint16(at + 30, true) + view.getUint16(at + 32, true);
    if (next > end) damaged(`entry ${i + 1} of its directory is cut short`);
    const name = text.decode(bytes.subarray(at + entryLength, at + entryLength + nameLength));
    checkEntryName(name);
    const entry: ZipEntry = {
      name,
      flags: view.getUint16(at + 8, true),
      method: view.getUint16(at + 10, true),
      crc: view.getUint32(at + 16, true),
      packedSize: view.getUint32(at + 20, true),
      size: view.getUint32(at + 24, true),
      offset: view.getUint32(at + 42, true),
    };
    if (entry.packedSize === 0xffffffff || entry.size === 0xffffffff || entry.offset === 0xffffffff)
      refuseZip64();
    const key = name.toLowerCase();
    if (entries.has(key)) {
      throw new FormatError(
        'zip-path',
        `The package holds "${shortName(name)}" twice.`,
        'Two programs could read two different parts from it: export it again.',
      );
    }
    entries.set(key, entry);
    at = next;
  }
  return entries;
}

function findEnd(view: DataView): number {
  const last = view.byteLength - endLength;
  for (let at = last; at >= 0 && at >= last - longestComment; at--) {
    if (
      view.getUint32(at, true) === endSignature &&
      at + endLength + view.getUint16(at + 20, true) === view.byteLength
    )
      return at;
  }
  throw new FormatError(
    'zip-short',
    'The package has no directory at its end.',
    'The file is cut short or damaged: copy or export it again.',
  );
}

function refuseZip64(): never {
  throw new FormatError(
    'zip-kind',
    'The package is a zip64 file, made for sizes beyond 4 GB.',
    'Export the part alone, or save it as an ordinary zip file.',
  );
}
