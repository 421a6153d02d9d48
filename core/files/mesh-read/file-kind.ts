import type { MeshFormat } from '../../mesh/mesh-file.js';
import { FormatError } from '../format-error.js';
import { isObjKeyword } from './obj.js';
import { isZip } from './package/directory.js';
import { isPly } from './ply/header.js';
import { isBinaryStl } from './stl-binary.js';
import { showBytes, TextCursor } from './text-cursor.js';

/** What a file's content says it is: the two forms of STL are told apart. */
export type FileKind = Exclude<MeshFormat, 'stl'> | 'stl-binary' | 'stl-text';

/** First bytes, as letters, of files that are often given instead, and what is right then. */
const others: readonly (readonly [start: RegExp, what: string, remedy: string])[] = [
  // biome-ignore lint/suspicious/noControlCharactersInRegex: so it begins
  [/^\x1f\x8b/, 'a file packed with gzip', 'Unpack it first.'],
  [/^(BZh|\xfd7zXZ|7z\xbc\xaf|\x28\xb5\x2f\xfd|Rar!)/, 'a packed archive', 'Unpack it first.'],
  [/^%PDF/, 'a PDF document', 'A drawing has no surface: export the part as a mesh.'],
  [/^(\x89PNG|\xff\xd8\xff|GIF8|RIFF)/, 'a picture', 'A picture has no surface: export the part as a mesh.'],
  [/^\s*ISO-10303-21/, 'a STEP file', 'Export the part as a mesh: STL, 3MF, OBJ or PLY.'],
  [/^glTF/, 'a glTF scene', 'Export the part as STL, 3MF, OBJ or PLY.'],
  [/^\s*(#VRML|C?OFF\s)/, 'a mesh in a format that is not read', 'Save it as STL, 3MF, OBJ or PLY.'],
  [/^\s*<(!doctype html|html)/i, 'a page of the web', 'Download the file itself, not the page about it.'],
  [/^\s*</, 'XML that is not packed', 'A 3MF is a zip with the XML in it: export the part as 3MF.'],
  [/^\s*[{[]/, 'JSON', 'Export the part as STL, 3MF, OBJ or PLY.'],
];

/**
 * What the content is, whatever the file is called. A file that begins like none is taken for what its name says, if
 * it may be that, so that the reader can say where it fails.
 *
 * @param text the bytes without a byte order mark, if it is a text
 * @throws FormatError `file-kind` with what it seems to be.
 */
export function kindOf(text: Uint8Array, fileName: string): FileKind {
  if (isZip(text)) return '3mf';
  if (isPly(text)) return 'ply';
  if (isBinaryStl(text)) return 'stl-binary';
  const start = String.fromCharCode(...text.subarray(0, 512));
  const binary = !isText(text.subarray(0, 512));
  if (/^\s*solid\s/i.test(start) && !binary) return 'stl-text';
  for (const [pattern, what, remedy] of others) {
    if (pattern.test(start)) throw new FormatError('file-kind', `The file seems to be ${what}.`, remedy);
  }
  if (!binary && beginsAsObj(text)) return 'obj';
  const extension = /\.([a-z0-9]+)$/i.exec(fileName)?.[1]?.toLowerCase();
  if (extension === 'stl') return !binary && /^[\s!-~]{84}/.test(start) ? 'stl-text' : 'stl-binary';
  if (extension === 'obj' && !binary) return 'obj';
  throw new FormatError(
    'file-kind',
    `The file begins with "${showBytes(text.subarray(0, 16))}": it is no STL, 3MF, OBJ or PLY.`,
    'Export the part as a mesh: STL, 3MF, OBJ or PLY.',
  );
}

/** Whether there are letters alone, and blanks; at the end also the zeros or the byte 26 of some old writers. */
function isText(bytes: Uint8Array): boolean {
  const last = bytes.findLastIndex((c) => c !== 0 && c !== 26);
  return last >= 0 && bytes.subarray(0, last + 1).every((c) => c >= 32 || (c >= 9 && c <= 13));
}

/** Whether the first line that says something may be one of OBJ's. */
function beginsAsObj(bytes: Uint8Array): boolean {
  const text = new TextCursor(bytes);
  do {
    if (text.nextInLine() && bytes[text.start] !== 35) return isObjKeyword(text.word().toLowerCase());
  } while (text.nextLine());
  return false;
}
