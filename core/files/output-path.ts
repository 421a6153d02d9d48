import { FolderError } from './folder-error.js';

/** Names that some systems keep for devices, with or without an extension. */
const deviceName = /^(con|prn|aux|nul|com[\d¹²³]|lpt[\d¹²³]|con(in|out)\$|clock\$) *(\.|$)/i;
// biome-ignore lint/suspicious/noControlCharactersInRegex: control characters are what is refused
const forbidden = /[\x00-\x1f\x7f\\:*?"<>|]|\p{Surrogate}/u;
const longestName = 200;

/**
 * Checks a path inside an output folder: parts joined by `/`, each a plain name on any common system. Gives
 * the parts.
 *
 * @throws FolderError `path-trick` for absolute paths, `..`, empty parts and names a file system would refuse.
 */
export function checkOutputPath(path: string): readonly string[] {
  const parts = path.split('/');
  for (const part of parts) {
    const trouble = namesTrouble(part);
    if (trouble !== null) {
      throw new FolderError(
        'path-trick',
        `The output path ${JSON.stringify(path)} ${trouble}.`,
        'Use plain names joined by "/", relative to the output folder.',
      );
    }
  }
  return parts;
}

function namesTrouble(part: string): string | null {
  if (part === '') return 'is absolute or has an empty part';
  if (part === '.' || part === '..') return `steps out of its place by "${part}"`;
  if (forbidden.test(part)) return 'has a character that file names cannot have';
  if (deviceName.test(part)) return `uses "${part}", which some systems keep for devices`;
  if (/[. ]$/.test(part) || part.startsWith(' '))
    return 'has a name that begins or ends with a space, or ends with a dot';
  if (new TextEncoder().encode(part).length > longestName)
    return `has a name of more than ${longestName} bytes`;
  return null;
}

/** Remembers paths and refuses one that would be the same file, or a folder and a file at once, on any system. */
export class PathSet {
  private readonly files = new Set<string>();
  private readonly folders = new Set<string>();

  add(parts: readonly string[]): void {
    const key = folded(parts.join('/'));
    const folders = parts.slice(0, -1).map((_, i) => folded(parts.slice(0, i + 1).join('/')));
    if (this.files.has(key) || this.folders.has(key) || folders.some((f) => this.files.has(f))) {
      throw new FolderError(
        'duplicate-path',
        `Two outputs would be the same file: ${parts.join('/')}.`,
        'Give every pattern a name of its own; capital letters alone do not tell names apart.',
      );
    }
    this.files.add(key);
    for (const folder of folders) this.folders.add(folder);
  }
}

/** The same for all paths that some system takes for one. */
const folded = (path: string): string => path.toUpperCase().toLowerCase().normalize('NFC');
