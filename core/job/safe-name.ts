/** Names that become folders: the same on every file system, and never a path. */
import { type Parsed, parsed, unparsed } from '../units/parsed.js';

const longestName = 64;

/** Device names that Windows reserves in every folder (Microsoft, "Naming Files, Paths, and Namespaces"). */
const reserved = /^(con|prn|aux|nul|com[0-9]|lpt[0-9])$/;

/** Folders the output has beside those of the parts. */
const taken: readonly string[] = ['plates'];

const rule = 'use 1 to 64 lower-case letters, digits and inner hyphens, like crank-wheel';

/** Any text in lower-case letters, digits and inner hyphens: `My Bracket (3)` → `my-bracket-3`. */
export const hyphenated = (text: string): string =>
  text
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, '-')
    .replace(/^-+|-+$/g, '');

/** Checks the name of a job or a part. */
export function parseSafeName(text: string): Parsed<string> {
  if (text === '') return unparsed('is empty', rule);
  if (text.length > longestName) return unparsed(`is ${text.length} characters long`, rule);
  if (/[/\\]|\.\.|^~|^[a-zA-Z]:/.test(text)) return unparsed('is a path, not a name', rule);
  if (!/^[a-z0-9](?:[a-z0-9-]*[a-z0-9])?$/.test(text)) return unparsed('is not a safe file name', rule);
  if (reserved.test(text)) return unparsed('is a name that Windows keeps for itself', 'choose another name');
  if (taken.includes(text)) return unparsed('is the folder of the print plates', 'choose another name');
  return parsed(text);
}
