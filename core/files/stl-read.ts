import type { Mesh } from '../solid/types.js';
import { weldMesh } from '../solid/weld.js';
import { FormatError } from './format-error.js';

export const stlHeaderLength = 80;
const bytesPerTriangle = 50;
const firstTriangle = stlHeaderLength + 4;

/**
 * Reads a binary STL: header, count, 50 bytes a triangle, little-endian float32. Equal corners become one
 * vertex; every triangle is kept, degenerate ones too. Normals and attribute bytes are not read. The format
 * states no unit: numbers are taken as mm.
 *
 * @throws FormatError for a text STL, a length that contradicts the count, a coordinate that is not finite.
 */
export function readStl(bytes: Uint8Array): Mesh {
  const count = readTriangleCount(bytes);
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const positions = new Float32Array(count * 9);
  for (let t = 0; t < count; t++) {
    const at = firstTriangle + t * bytesPerTriangle + 12;
    for (let k = 0; k < 9; k++) {
      const value = view.getFloat32(at + 4 * k, true);
      if (!Number.isFinite(value)) {
        throw new FormatError(
          'stl-number',
          `Triangle ${t + 1} of ${count} has the coordinate ${value}.`,
          'Export the file again; every coordinate must be a finite number.',
        );
      }
      positions[9 * t + k] = value;
    }
  }
  return weldMesh({ positions, triangles: Uint32Array.from({ length: count * 3 }, (_, i) => i) });
}

function readTriangleCount(bytes: Uint8Array): number {
  const length = bytes.byteLength;
  const declared =
    length < firstTriangle
      ? null
      : new DataView(bytes.buffer, bytes.byteOffset, length).getUint32(stlHeaderLength, true);
  const wanted = declared === null ? null : firstTriangle + declared * bytesPerTriangle;
  if (wanted === length && declared !== null) return declared;
  // A binary header may begin with "solid" too, so text is only suspected once the length is wrong.
  if (looksLikeText(bytes)) {
    throw new FormatError('stl-text', 'This is a text STL.', 'Export it as binary STL.');
  }
  if (declared === null || wanted === null) {
    throw new FormatError(
      'stl-short',
      `The file has ${length} bytes; a binary STL has at least ${firstTriangle}.`,
      'Check that the file is an STL and was copied whole.',
    );
  }
  throw new FormatError(
    wanted > length ? 'stl-short' : 'stl-count',
    `The STL says ${declared} triangles, which take ${wanted} bytes, but the file has ${length}.`,
    wanted > length
      ? 'The file is cut short or not an STL: copy or export it again.'
      : 'The file has more than its count says: export it again.',
  );
}

function looksLikeText(bytes: Uint8Array): boolean {
  const start = String.fromCharCode(...bytes.subarray(0, 256));
  return /^\s*solid\b/i.test(start) && !/[^\t\n\r\x20-\x7e]/.test(start.slice(0, 80));
}
