/** Names of mesh files, which are anybody's text. */

import { parseSafeName } from '../../../core/job/safe-name.js';
import { type MeshFormat, meshFormats } from '../../../core/mesh/mesh-file.js';
import { freeName } from '../job/free-name.js';

/** For the browser's dialog. */
export const meshEndings = meshFormats.map((format) => `.${format}`).join(',');

/** `STL, 3MF, OBJ or PLY` */
export const meshFormatWords = `${meshFormats.slice(0, -1).join(', ')} or ${meshFormats.at(-1)}`
  .toUpperCase()
  .replace(' OR ', ' or ');

export const isMeshName = (name: string): boolean =>
  meshFormats.includes(/\.([^.]*)$/.exec(name)?.[1]?.toLowerCase() as MeshFormat);

/** The last of a path. */
export const baseName = (path: string): string => path.split(/[\\/]/).at(-1) as string;

const longestName = 200;

/** As a job can hold it: on one line, all of it in print, short enough; its ending is kept. */
export function writtenName(fileName: string): string {
  const base = baseName(fileName);
  const cut = base.length <= longestName ? base : base.slice(0, longestName - 12) + base.slice(-12);
  return cut.replace(/[\p{Cc}\p{Cs}\u2028\u2029]/gu, '_');
}

const longestPieceName = 48;

/** A name for the piece that is made from a file: `My Bracket (3).stl` → `my-bracket-3`. */
export function pieceNameOf(fileName: string): string {
  const plain = baseName(fileName)
    .replace(/\.[^.]*$/, '')
    .normalize('NFKD')
    .replace(/\p{M}/gu, '')
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, '-')
    .slice(0, longestPieceName)
    .replace(/^-+|-+$/g, '');
  if (plain === '') return 'mesh';
  // What systems keep for themselves, and the folder of the plates.
  return parseSafeName(plain).ok ? plain : `${plain}-mesh`;
}

/** A job that makes a piece of each of these files. */
export function meshJob(fileNames: readonly string[]): string {
  const lines: string[] = [];
  const names: string[] = [];
  for (const file of fileNames) {
    const name = freeName(pieceNameOf(file), names);
    names.push(name);
    lines.push(
      `  - name: ${quoted(name)}`,
      '    part: mesh',
      '    parameters:',
      `      file: ${quoted(file)}`,
    );
  }
  return `job: ${quoted(names[0] ?? 'meshes')}\nparts:\n${lines.join('\n')}\n`;
}

/** Bare where no reader can take it for anything but text; else as JSON quotes it, which YAML reads. */
const quoted = (text: string): string =>
  /^[a-z][\w-]*(\.[a-z]\w*)?$/i.test(text) && !/^(y|n|yes|no|on|off|true|false|null)$/i.test(text)
    ? text
    : JSON.stringify(text);
