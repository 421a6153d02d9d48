import type { ExactMesh } from '../../../solid/types.js';
import { FormatError } from '../../format-error.js';
import { Faces } from '../faces.js';
import { type GrowingFloats, growingFloats } from '../growing.js';
import type { MeshLimits } from '../limits.js';
import { TextCursor } from '../text-cursor.js';
import { checkTriangles, checkVertices } from '../too-large.js';
import { type PlyElement, type PlyProperty, readPlyHeader } from './header.js';
import { binaryValues, leastRow, type PlyValues, textValues, tooShort } from './values.js';

/**
 * Reads a PLY file, ascii or binary: the elements `vertex` (x, y, z), `face` and `tristrips` (a list
 * `vertex_indices`); what else it holds is passed over. Values may stand on lines as they like.
 *
 * @throws FormatError for a header that is none, counts the file does not bear out, a number that is none, an index
 * without its vertex, too many triangles.
 */
export function readPly(bytes: Uint8Array, limits: MeshLimits): ExactMesh {
  const header = readPlyHeader(bytes);
  const values =
    header.format === 'ascii'
      ? textValues(new TextCursor(bytes, header.end, header.line))
      : binaryValues(bytes, header.end, header.format === 'binary_little_endian');
  const positions = growingFloats();
  const faces = new Faces(limits);
  for (const element of header.elements) {
    checkCount(element, values, limits);
    if (element.name === 'vertex') readVertices(element, values, positions);
    else if (element.name === 'face') readFaces(element, values, faces);
    else if (element.name === 'tristrips') readStrips(element, values, faces);
    else passOver(element, values);
  }
  if (!values.atEnd()) {
    throw new FormatError(
      'ply-count',
      `${values.where()}: the file goes on after all that its header counts.`,
      'The header counts too little, or the file is damaged: export it again.',
    );
  }
  const all = positions.take();
  return { positions: all, triangles: faces.triangles(all, (face) => `Face ${face}`) };
}

/** Before a row is read: what the header claims must be allowed, and fit into the file. */
function checkCount(element: PlyElement, values: PlyValues, limits: MeshLimits): void {
  if (element.name === 'vertex') checkVertices(element.count, limits);
  if (element.name === 'face') checkTriangles(element.count, limits);
  const least = element.count * leastRow(element, values);
  if (least > values.left()) {
    throw new FormatError(
      'ply-short',
      `The header says ${element.count} of "${element.name}", which take ${least} bytes or more, ` +
        `but ${values.left()} bytes are left.`,
      'The file is cut short, or its header is wrong: copy or export it again.',
    );
  }
}

function readVertices({ count, properties }: PlyElement, values: PlyValues, positions: GrowingFloats): void {
  const axes = properties.map((p) => (p.countType === null ? ['x', 'y', 'z'].indexOf(p.name) : -1));
  if ([0, 1, 2].some((axis) => axes.filter((a) => a === axis).length !== 1)) {
    throw new FormatError(
      'ply-header',
      'The vertices of the file have no x, y and z, each once.',
      'Export the file again; a vertex needs x, y and z.',
    );
  }
  const vertex = [0, 0, 0];
  for (let row = 0; row < count; row++) {
    for (let i = 0; i < properties.length; i++) {
      const axis = axes[i]!;
      if (axis >= 0) vertex[axis] = values.coordinate(properties[i]!.type);
      else passOverProperty(properties[i]!, values);
    }
    for (const value of vertex) positions.push(value);
  }
}

function readFaces(element: PlyElement, values: PlyValues, faces: Faces): void {
  readLists(element, values, (corners, size) => {
    const face = faces.count + 1;
    for (let i = 0; i < size; i++) faces.addCorner(readIndex(corners, values), face);
    faces.endFace(() => `Face ${face}, ${values.where().toLowerCase()}`);
  });
}

/** Strips of triangles, each with the last two corners of the one before; −1 ends a strip. */
function readStrips(element: PlyElement, values: PlyValues, faces: Faces): void {
  readLists(element, values, (corners, size) => {
    let strip: [number, number] = [-1, -1];
    let turned = false;
    for (let i = 0; i < size; i++) {
      const corner = readIndex(corners, values, -1);
      const [a, b] = strip;
      if (corner >= 0 && a >= 0) {
        const face = faces.count + 1;
        for (const c of turned ? [b, a, corner] : [a, b, corner]) faces.addCorner(c, face);
        faces.endFace(() => `Face ${face}`);
        turned = !turned;
      }
      if (corner < 0) turned = false;
      strip = corner < 0 ? [-1, -1] : [b, corner];
    }
  });
}

/** Goes to each row's list of corners, past all else. */
function readLists(
  element: PlyElement,
  values: PlyValues,
  read: (corners: PlyProperty, size: number) => void,
): void {
  const corners = cornerList(element);
  for (let row = 0; row < element.count; row++)
    for (const property of element.properties)
      if (property === corners) read(corners, readSize(corners, values));
      else passOverProperty(property, values);
}

function cornerList({ name, properties }: PlyElement): PlyProperty {
  const corners = properties.filter(
    (p) => p.countType !== null && (p.name === 'vertex_indices' || p.name === 'vertex_index'),
  );
  if (corners.length === 1) return corners[0]!;
  throw new FormatError(
    'ply-header',
    `The element "${name}" has no list "vertex_indices", or several.`,
    'Export the file again; a face needs one list of its vertices.',
  );
}

function passOver({ count, properties }: PlyElement, values: PlyValues): void {
  if (properties.length === 0) return;
  for (let row = 0; row < count; row++) for (const property of properties) passOverProperty(property, values);
}

function passOverProperty(property: PlyProperty, values: PlyValues): void {
  const size = property.countType === null ? 1 : readSize(property, values);
  for (let i = 0; i < size; i++) values.skip(property.type);
}

/** How many values a list has; that they can be there is asked at once. */
function readSize({ name, type, countType }: PlyProperty, values: PlyValues): number {
  const size = values.whole(countType ?? type);
  if (!(size >= 0)) {
    throw new FormatError(
      'ply-value',
      `${values.where()}: a list "${name}" whose number of values is no number from 0 up.`,
      'The file is damaged: copy or export it again.',
    );
  }
  if (size * values.least(type) > values.left()) tooShort(values.where());
  return size;
}

function readIndex({ type }: PlyProperty, values: PlyValues, least = 0): number {
  const index = values.whole(type);
  if (index >= least) return index;
  throw new FormatError(
    'mesh-index',
    `${values.where()}: a face names a vertex by ${Number.isNaN(index) ? 'what is no whole number' : index}.`,
    'Vertices count from 0: the file is damaged or was written wrongly; export it again.',
  );
}
