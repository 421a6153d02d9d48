import type { MeshFile } from '../../mesh/mesh-file.js';
import type { ExactMesh } from '../../solid/types.js';
import { FormatError } from '../format-error.js';
import { kindOf } from './file-kind.js';
import { type MeshLimits, meshLimits } from './limits.js';
import { readObj } from './obj.js';
import { plainText } from './plain-text.js';
import { readPly } from './ply/ply.js';
import { isBinaryStl, readBinaryStl, readTriangleCount } from './stl-binary.js';
import { readTextStl } from './stl-text.js';
import { TextCursor } from './text-cursor.js';
import { read3mf } from './three-mf/three-mf.js';
import { checkNotEmpty, checkTriangles } from './too-large.js';

/**
 * Reads a mesh from an STL (binary, text), 3MF, OBJ or PLY (ascii, binary) file. What the file is is told by its
 * content; a wrong extension does no harm. Nothing is joined or mended; every index names a vertex, every coordinate
 * is a finite number that fits a float32. Faces of more corners come as triangles.
 *
 * Memory is taken for what the file holds, never for what it claims: at most a few times the file's size (a 3MF's: its
 * model unfolded), and 1 GB at the limits.
 *
 * @param fileName for its extension, where the content alone says nothing
 * @throws FormatError, and nothing else, with what is wrong, where, and what would be right.
 */
export function readMeshFile(bytes: Uint8Array, fileName: string, limits: MeshLimits = meshLimits): MeshFile {
  if (bytes.length === 0) {
    throw new FormatError('file-empty', 'The file is empty.', 'Copy or export it again.');
  }
  if (bytes.length > limits.fileBytes) {
    throw new FormatError(
      'file-large',
      `The file has ${Math.ceil(bytes.length / 2 ** 20)} MiB; at most ${Math.floor(limits.fileBytes / 2 ** 20)} are read.`,
      'Export the part alone, or thin the mesh out.',
    );
  }
  const text = isBinaryStl(bytes) ? bytes : plainText(bytes);
  const kind = kindOf(text, fileName);
  switch (kind) {
    case '3mf':
      return { format: '3mf', ...read3mf(text, limits) };
    case 'ply':
      return { format: 'ply', unit: null, mesh: readPly(text, limits) };
    case 'obj':
      return { format: 'obj', unit: null, mesh: readObj(new TextCursor(text), limits) };
    case 'stl-text':
      return { format: 'stl', unit: null, mesh: readTextStl(new TextCursor(text), limits) };
    case 'stl-binary':
      return { format: 'stl', unit: null, mesh: readBinary(text, limits) };
  }
}

function readBinary(bytes: Uint8Array, limits: MeshLimits): ExactMesh {
  const triangles = readTriangleCount(bytes);
  checkTriangles(triangles, limits);
  checkNotEmpty(triangles, '');
  const positions = readBinaryStl(bytes, (length) => new Float64Array(length));
  return { positions, triangles: Uint32Array.from({ length: 3 * triangles }, (_, i) => i) };
}
