/** Edits of a plate job's text that leave its comments and its order as they are. */
import { type Document, isMap, isScalar, parseDocument, stringify, type YAMLMap } from 'yaml';
import type { Path } from './path.js';

/** What a key of the job may be set to. */
export type Plain = string | number | boolean | null | readonly Plain[] | { readonly [key: string]: Plain };

/** Lines as long as they are: what nobody changed is not to be broken anew. */
const written = { lineWidth: 0, aliasDuplicateObjects: false } as const;

const parse = (text: string): Document => parseDocument(text, { keepSourceTokens: false });
/** List indices are numbers to the document. */
const keysOf = (path: Path): (string | number)[] => path.map((k) => (/^\d+$/.test(k) ? Number(k) : k));

/** The text as it would be with another value at a path, or with none (`undefined`): then empty groups go too. */
export function setValue(text: string, path: Path, value: Plain | undefined): string {
  const document = parse(text);
  const replaced = replaceScalar(text, document, path, value);
  if (replaced !== undefined) return replaced;
  if (value === undefined) removeAt(document, path);
  else document.setIn(keysOf(path), typeof value === 'object' ? document.createNode(value) : value);
  return document.toString(written);
}

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
  document.deleteIn(keysOf(path));
  const group = path.slice(0, -1);
  // A part's own entry stays, however little is left in it.
  if (group.length === 0 || /^\d+$/.test(group.at(-1) as string)) return;
  const node = document.getIn(keysOf(group));
  if (isMap(node) && (node as YAMLMap).items.length === 0) removeAt(document, group);
}

/** The value at a path as it is written, undefined where there is none. */
export function valueAt(text: string, path: Path): unknown {
  const found = parse(text).getIn(keysOf(path), false);
  return typeof found === 'object' && found !== null && 'toJSON' in found
    ? (found as { toJSON: () => unknown }).toJSON()
    : found;
}

/** The whole job as plain values. Its text must have been read without problems of form, which bounds aliases. */
export const plainJob = (text: string): Readonly<Record<string, unknown>> =>
  (parse(text).toJS() ?? {}) as Readonly<Record<string, unknown>>;

/** The job with a further entry under `parts`. */
export function addEntry(text: string, entry: Plain, after?: number): string {
  const document = parse(text);
  const parts = document.get('parts') as { items?: unknown[] } | undefined;
  const node = document.createNode(entry);
  if (!parts?.items) document.set('parts', [entry]);
  else parts.items.splice(after === undefined ? parts.items.length : after + 1, 0, node);
  return document.toString(written);
}

export const removeEntry = (text: string, index: number): string => {
  const document = parse(text);
  document.deleteIn(['parts', index]);
  return document.toString(written);
};

/** A job that makes one part with its usual sizes. */
export const newJob = (part: string): string =>
  `job: ${part}\nparts:\n  - name: ${part}\n    part: ${part}\n`;
