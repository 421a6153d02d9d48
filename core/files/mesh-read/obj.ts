import type { ExactMesh } from '../../solid/types.js';
import { Faces } from './faces.js';
import { growingFloats } from './growing.js';
import type { MeshLimits } from './limits.js';
import { wholeNumberAt } from './number-text.js';
import type { TextCursor } from './text-cursor.js';
import { checkVertices } from './too-large.js';

/** What says nothing of where the surface is: names, groups, looks, points and lines, what curves would need. */
const passedOver = new Set(
  (
    'vt vn vp g o s mg l p usemtl mtllib usemap maplib lod bevel c_interp d_interp shadow_obj trace_obj ' +
    'cstype deg bmat step curv curv2 parm trim hole scrv sp end con ctech stech'
  ).split(' '),
);
/** Surfaces that are no polygons. */
const curved = new Set('surf bzp bsp cdc cdp res'.split(' '));

/** Whether a line that begins so may stand in an OBJ file. */
export const isObjKeyword = (word: string): boolean =>
  ['v', 'f', 'fo', 'call'].includes(word) || passedOver.has(word) || curved.has(word);

const minus = 45;
const slash = 47;
const hash = 35;

/**
 * Reads the polygons of an OBJ file, all objects and groups together. Indices count from 1, or backwards from the
 * last vertex so far.
 *
 * @throws FormatError for a line that is none of OBJ's, a number that is none, an index without its vertex, curved
 * surfaces, a call of another file, too many triangles.
 */
export function readObj(text: TextCursor, limits: MeshLimits): ExactMesh {
  const positions = growingFloats();
  const faces = new Faces(limits);
  do {
    if (!text.nextInLine() || text.bytes[text.start] === hash) continue;
    if (text.is('v')) {
      readVertex(text, positions.push.bind(positions));
      checkVertices(positions.length / 3, limits);
    } else if (text.is('f') || text.is('fo')) {
      const { line } = text;
      while (text.nextInLine() && text.bytes[text.start] !== hash) {
        faces.addCorner(readIndex(text, positions.length / 3), line);
      }
      faces.endFace(() => `Line ${line}`);
    } else if (!text.is('vn') && !text.is('vt')) checkKeyword(text);
  } while (text.nextLine());
  const all = positions.take();
  return { positions: all, triangles: faces.triangles(all, (line) => `Line ${line}`) };
}

function readVertex(text: TextCursor, push: (value: number) => void): void {
  for (let axis = 0; axis < 3; axis++) {
    if (!text.nextInLine()) {
      text.fail(
        'obj-line',
        `a vertex with ${axis} of its three coordinates.`,
        'The file is cut short or damaged: copy or export it again.',
      );
    }
    push(text.coordinate('obj-line'));
  }
}

/** The vertex, from 0, that a corner like `7`, `7/2/3` or `-1//4` names. */
function readIndex(text: TextCursor, vertices: number): number {
  const { bytes, start, end } = text;
  let to = start;
  while (to < end && bytes[to] !== slash) to++;
  const backwards = bytes[start] === minus;
  const index = wholeNumberAt(bytes, backwards ? start + 1 : start, to);
  if (Number.isNaN(index)) {
    text.fail(
      'obj-line',
      `a corner of the face is "${text.word()}", which is no index.`,
      'A corner is a whole number, alone or before a slash: export the file again.',
    );
  }
  if (index === 0 || (backwards && index > vertices)) {
    text.fail(
      'mesh-index',
      `a face names vertex ${text.word()}, with ${vertices} vertices before it.`,
      'Indices count from 1, or backwards from −1: export the file again.',
    );
  }
  return backwards ? vertices - index : index - 1;
}

function checkKeyword(text: TextCursor): void {
  const word = text.word();
  if (passedOver.has(word)) return;
  if (curved.has(word)) {
    text.fail(
      'obj-line',
      `"${word}" is a curved surface; only faces are read.`,
      'Export the part as a mesh of triangles.',
    );
  }
  // Some old writers end a text with the byte 26, others with zeros.
  if (text.bytes.subarray(text.start).every((c) => c === 0 || c === 26)) return;
  text.fail(
    'obj-line',
    word === 'call'
      ? 'the line calls another file, which is not read.'
      : `the line begins with "${word}", which OBJ files do not have.`,
    'Export the part as one OBJ file, or check that the file is one and undamaged.',
  );
}
