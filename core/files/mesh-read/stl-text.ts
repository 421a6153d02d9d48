import type { ExactMesh } from '../../solid/types.js';
import { FormatError } from '../format-error.js';
import { growingFloats } from './growing.js';
import type { MeshLimits } from './limits.js';
import type { TextCursor } from './text-cursor.js';
import { checkNotEmpty, checkTriangles } from './too-large.js';

const remedy = 'Export the file again, or copy it again if it was damaged on its way.';

/**
 * Reads a text STL, any number of solids: `solid`, facets of three vertices each, `endsolid`. Words may stand on
 * lines as they like, but for a solid's name, which ends its line. Normals are not read.
 *
 * @throws FormatError for a word out of place, a number that is none, an end that is missing, too many triangles.
 */
export function readTextStl(text: TextCursor, limits: MeshLimits): ExactMesh {
  const positions = growingFloats();
  let triangles = 0;
  while (nextSolid(text)) {
    for (;;) {
      need(text, 'facet or endsolid');
      if (text.is('endsolid')) break;
      expectWord(text, 'facet');
      checkTriangles(++triangles, limits);
      readToLoop(text);
      expect(text, 'loop');
      for (let corner = 0; corner < 3; corner++) {
        expect(text, 'vertex');
        for (let axis = 0; axis < 3; axis++) {
          need(text, 'a coordinate');
          positions.push(text.coordinate('stl-number'));
        }
      }
      expect(text, 'endloop');
      expect(text, 'endfacet');
    }
    // The name once more.
    text.nextLine();
  }
  checkNotEmpty(triangles, '');
  return {
    positions: positions.take(),
    triangles: Uint32Array.from({ length: 3 * triangles }, (_, i) => i),
  };
}

function nextSolid(text: TextCursor): boolean {
  // Some old writers end a text with the byte 26, others with zeros.
  if (!text.next() || text.bytes.subarray(text.start).every((c) => c === 0 || c === 26)) return false;
  expectWord(text, 'solid');
  text.nextLine();
  return true;
}

/** Over the normal, whatever it says: it follows from the corners. */
function readToLoop(text: TextCursor): void {
  need(text, 'normal');
  if (text.is('normal')) {
    for (let axis = 0; axis < 3; axis++) need(text, 'a number');
    need(text, 'outer');
  }
  expectWord(text, 'outer');
}

/** The next word, which must be there. */
function need(text: TextCursor, wanted: string): void {
  if (text.next()) return;
  throw new FormatError(
    'stl-short',
    `The text ends in line ${text.line} where "${wanted}" should follow.`,
    'The file is cut short: copy or export it again.',
  );
}

/** The next word, which must be this one. */
function expect(text: TextCursor, word: string): void {
  need(text, word);
  expectWord(text, word);
}

function expectWord(text: TextCursor, word: string): void {
  if (!text.is(word))
    text.fail('stl-line', `"${word}" is expected, but "${text.word()}" stands there.`, remedy);
}
