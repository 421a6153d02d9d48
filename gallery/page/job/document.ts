/** Edits of a plate job's text that leave its comments and its order as they are. */
import {
  type Alias,
  type Document,
  isAlias,
  isCollection,
  isMap,
  isScalar,
  isSeq,
  parseDocument,
  stringify,
  visit,
} from 'yaml';
import type { Path } from './path.js';

/** What a key of the job may be set to. */
export type Plain = string | number | boolean | null | readonly Plain[] | { readonly [key: string]: Plain };

/** Lines as long as they are: what nobody changed is not to be broken anew. */
const written = { lineWidth: 0, aliasDuplicateObjects: false } as const;

const parse = (text: string): Document => parseDocument(text, { keepSourceTokens: false });
/** List indices are numbers to the document. */
const keysOf = (path: Path): (string | number)[] => path.map((k) => (/^\d+$/.test(k) ? Number(k) : k));

/** The text with its document changed; as it is where it is not one of keys and values, which has to be mended first. */
function edited(text: string, change: (document: Document) => void): string {
  const document = parse(text);
  if (!isGroups(document)) return text;
  change(document);
  return document.toString(written);
}

/**
 * The text as it would be with another value at a path, or with none (`undefined`): then empty groups go too. Never
 * throws; a text that is no job stays as it is.
 */
export function setValue(text: string, path: Path, value: Plain | undefined): string {
  const replaced = replaceScalar(text, parse(text), path, value);
  if (replaced !== undefined) return replaced;
  return edited(text, (document) => {
    makeWay(document, path);
    if (value === undefined) removeAt(document, path);
    else document.setIn(keysOf(path), typeof value === 'object' ? document.createNode(value) : value);
  });
}

function isGroups(document: Document): boolean {
  if (document.errors.length > 0 || !(document.contents === null || isMap(document.contents))) return false;
  try {
    document.toJS();
    return true;
  } catch {
    // Aliases of nothing, or of far too much.
    return false;
  }
}

/** What stands for another group (an alias) becomes a copy of it, and what is no group one: `parameters:` may be empty. */
function makeWay(document: Document, path: Path): void {
  const keys = keysOf(path);
  for (let depth = 1; depth < keys.length; depth++) {
    const at = keys.slice(0, depth);
    const node = document.getIn(at, true);
    if (node === undefined || isCollection(node)) continue;
    const group = typeof keys[depth] === 'number' ? [] : {};
    document.setIn(at, isAlias(node) ? copyOf(document, node) : document.createNode(group));
  }
}

const copyOf = (document: Document, alias: Alias) => document.createNode(alias.toJS(document));

/** A bare value in place of another, letter by letter: all else stays as it was typed. */
function replaceScalar(
  text: string,
  document: Document,
  path: Path,
  value: Plain | undefined,
): string | undefined {
  const node = document.getIn(keysOf(path), true);
  if (!isScalar(node) || !node.range || value === undefined || typeof value === 'object') return undefined;
  const told = stringify(value, written).trimEnd();
  // Text over several lines, or that means something in a list of one line, is left to the printer.
  if (/[\n,[\]{}]/.test(told)) return undefined;
  const changed = text.slice(0, node.range[0]) + told + text.slice(node.range[1]);
  return valueAt(changed, path) === value ? changed : undefined;
}

/** Several of them at once. */
export const setValues = (
  text: string,
  changes: readonly { readonly path: Path; readonly value: Plain | undefined }[],
): string => changes.reduce((now, { path, value }) => setValue(now, path, value), text);

function removeAt(document: Document, path: Path): void {
  // What is taken out may be what others stand for.
  visit(document, { Alias: (_, alias) => copyOf(document, alias) });
  if (!document.hasIn(keysOf(path))) return;
  document.deleteIn(keysOf(path));
  const group = path.slice(0, -1);
  // A part's own entry stays, however little is left in it.
  if (group.length === 0 || /^\d+$/.test(group.at(-1) as string)) return;
  const node = document.getIn(keysOf(group));
  if (isMap(node) && node.items.length === 0) removeAt(document, group);
}

/** The value at a path as it is written, undefined where there is none. */
function valueAt(text: string, path: Path): unknown {
  const found = parse(text).getIn(keysOf(path), false);
  return typeof found === 'object' && found !== null && 'toJSON' in found
    ? (found as { toJSON: () => unknown }).toJSON()
    : found;
}

/** The whole job as plain values. Its text must have been read without problems of form, which bounds aliases. */
export const plainJob = (text: string): Readonly<Record<string, unknown>> =>
  (parse(text).toJS() ?? {}) as Readonly<Record<string, unknown>>;

/** The job with a further entry under `parts`. */
export const addEntry = (text: string, entry: Plain): string =>
  edited(text, (document) => {
    const parts = document.get('parts');
    if (isSeq(parts)) parts.items.push(document.createNode(entry));
    else document.set('parts', [entry]);
  });

export const removeEntry = (text: string, index: number): string =>
  edited(text, (document) => {
    if (isSeq(document.get('parts'))) removeAt(document, ['parts', String(index)]);
  });
