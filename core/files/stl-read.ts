import type { Mesh } from '../solid/types.js';
import { weldMesh } from '../solid/weld.js';
import { FormatError } from './format-error.js';
import { isBinaryStl, readBinaryStl } from './mesh-read/stl-binary.js';

export { stlHeaderLength } from './mesh-read/stl-binary.js';

/**
 * Reads a binary STL as this project writes it. Equal corners become one vertex; every triangle is kept, degenerate
 * ones too. The format states no unit: numbers are taken as mm. Files of others: `readMeshFile`.
 *
 * @throws FormatError for a text STL, a length that contradicts the count, a coordinate that is not finite.
 */
export function readStl(bytes: Uint8Array): Mesh {
  if (!isBinaryStl(bytes) && looksLikeText(bytes)) {
    throw new FormatError('stl-text', 'This is a text STL.', 'Export it as binary STL.');
  }
  const positions = readBinaryStl(bytes, (length) => new Float32Array(length));
  return weldMesh({ positions, triangles: Uint32Array.from({ length: positions.length / 3 }, (_, i) => i) });
}

function looksLikeText(bytes: Uint8Array): boolean {
  const start = String.fromCharCode(...bytes.subarray(0, 256));
  return /^\s*solid\b/i.test(start) && !/[^\t\n\r\x20-\x7e]/.test(start.slice(0, 80));
}
