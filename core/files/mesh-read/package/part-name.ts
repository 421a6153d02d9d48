import { FormatError } from '../../format-error.js';
import { shortName } from './words.js';

/** @throws FormatError `zip-path` for a name that leads out of the package, or is read differently elsewhere. */
export function checkEntryName(name: string): void {
  const trick = trickOf(name.endsWith('/') ? name.slice(0, -1) : name);
  if (trick !== null) {
    throw new FormatError(
      'zip-path',
      `The package holds a file named "${shortName(name)}", ${trick}.`,
      'Names in a package are plain, with / between folders: export it again.',
    );
  }
}

/**
 * The entry, by its name in the directory, that a target like `/3D/3dmodel.model` names.
 *
 * @throws FormatError `zip-path` for one that leads out of the package.
 */
export function partKey(target: string): string {
  let name: string;
  try {
    name = decodeURIComponent(target.replace(/^\//, ''));
  } catch {
    name = '';
  }
  const trick = trickOf(name);
  if (trick !== null) {
    throw new FormatError(
      'zip-path',
      `The package points to "${shortName(target)}", ${trick}.`,
      'It must name a file of its own, like /3D/3dmodel.model: export it again.',
    );
  }
  return name.toLowerCase();
}

function trickOf(name: string): string | null {
  const steps = name.split('/');
  if (name === '') return 'which is no name';
  if (steps.includes('..')) return 'which leads out of its folder';
  if (/^[a-z][a-z0-9+.-]*:/i.test(name)) return 'which leads out of the package';
  if (name.startsWith('/')) return 'which begins at the root of the disk';
  if (name.includes('\\')) return 'with a \\ in it';
  // biome-ignore lint/suspicious/noControlCharactersInRegex: these are what is looked for
  if (/[\x00-\x1f\x7f]/.test(name)) return 'with a character that cannot be seen';
  if (steps.includes('') || steps.includes('.')) return 'with a step that goes nowhere';
  return null;
}
