import { FormatError } from '../format-error.js';
import { greatestFloat32 } from './limits.js';

export const stlHeaderLength = 80;
const bytesPerTriangle = 50;
const firstTriangle = stlHeaderLength + 4;

/** Whether the length is what the triangle count in it asks for. No text has that: four letters count 10⁸ and more. */
export const isBinaryStl = (bytes: Uint8Array): boolean =>
  bytes.length >= firstTriangle && wantedLength(declaredCount(bytes)) === bytes.length;

/**
 * The corners of a binary STL, x, y, z each, three to a triangle: header, count, 50 bytes a triangle, little-endian
 * float32. Every triangle is kept, degenerate ones too. Normals and attribute bytes are not read.
 *
 * @param make the array that takes so many numbers; asked only once the file is known to hold them
 * @throws FormatError for a length that contradicts the count, a coordinate that is not finite.
 */
export function readBinaryStl<A extends Float32Array | Float64Array>(
  bytes: Uint8Array,
  make: (length: number) => A,
): A {
  const count = readTriangleCount(bytes);
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const positions = make(count * 9);
  for (let t = 0; t < count; t++) {
    const at = firstTriangle + t * bytesPerTriangle + 12;
    for (let k = 0; k < 9; k++) {
      const value = view.getFloat32(at + 4 * k, true);
      if (!(Math.abs(value) <= greatestFloat32)) {
        throw new FormatError(
          'stl-number',
          `Triangle ${t + 1} of ${count} has the coordinate ${value}.`,
          'Export the file again; every coordinate must be a finite number.',
        );
      }
      positions[9 * t + k] = value;
    }
  }
  return positions;
}

/** The triangle count of a binary STL. @throws FormatError for a file of another length. */
export function readTriangleCount(bytes: Uint8Array): number {
  const { length } = bytes;
  if (length < firstTriangle) {
    throw new FormatError(
      'stl-short',
      `The file has ${length} bytes; a binary STL has at least ${firstTriangle}.`,
      'Check that the file is an STL and was copied whole.',
    );
  }
  const declared = declaredCount(bytes);
  const wanted = wantedLength(declared);
  if (wanted === length) return declared;
  throw new FormatError(
    wanted > length ? 'stl-short' : 'stl-count',
    `The STL says ${declared} triangles, which take ${wanted} bytes, but the file has ${length}.`,
    wanted > length
      ? 'The file is cut short or not an STL: copy or export it again.'
      : 'The file has more than its count says: export it again.',
  );
}

const declaredCount = (bytes: Uint8Array): number =>
  new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength).getUint32(stlHeaderLength, true);
const wantedLength = (triangles: number): number => firstTriangle + triangles * bytesPerTriangle;
