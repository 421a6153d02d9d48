import { FormatError } from '../../format-error.js';

export function damaged(what: string): never {
  throw new FormatError('zip-damaged', `The package is damaged: ${what}.`, 'Copy or export it again.');
}

/** A name of the file's as part of a sentence. */
export const shortName = (name: string): string => {
  const shown = name.replace(/[^\x20-\x7e\u00a0-\u024f]/g, '\ufffd');
  return shown.length > 60 ? `${shown.slice(0, 60)}…` : shown;
};
