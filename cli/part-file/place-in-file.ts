/** Where in a part's file, or in a file that it imports, something went wrong. */
import { execFile } from 'node:child_process';
import { readFile } from 'node:fs/promises';
import { relative, resolve } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { ownFolder } from './own-package.js';

/** Lines and columns count from 1. */
export interface FilePlace {
  /** Absolute path. */
  readonly file: string;
  readonly line: number;
  readonly column?: number;
}

/** As messages name a part file: as it was written; files that it imports relative to where the user stands. */
export const shownFile = (file: string): string => file.replace(/\p{Cc}/gu, '?');

/** `./my-part.mjs:3:7` */
export function shownPlace(place: FilePlace, part: PartPath): string {
  const way = relative(part.folder, place.file).replaceAll('\\', '/');
  const file = place.file === part.absolute ? part.written : way.startsWith('../') ? way : `./${way}`;
  return [shownFile(file), place.line, ...(place.column === undefined ? [] : [place.column])].join(':');
}

/** A part file as its user wrote it, and where it is. */
export interface PartPath {
  readonly written: string;
  /** Written paths are relative to it. */
  readonly folder: string;
  readonly absolute: string;
}

export const partPath = (folder: string, written: string): PartPath => ({
  written,
  folder,
  absolute: resolve(folder, written),
});

/** The innermost call that stands in the part's file, or in one that is neither ours nor a package's. */
export function placeInStack(error: unknown, { absolute }: PartPath): FilePlace | undefined {
  let stack: unknown;
  try {
    stack = (error as { stack?: unknown } | null | undefined)?.stack;
  } catch {
    return undefined;
  }
  if (typeof stack !== 'string') return undefined;
  const places = [...stack.slice(0, 50_000).matchAll(/(file:\/\/\S+?):(\d+)(?::(\d+))?\)?$/gm)].flatMap(
    ([, url, line, column]): readonly FilePlace[] => {
      try {
        const place = { file: fileURLToPath((url as string).replace(/\?.*$/, '')), line: Number(line) };
        return [column === undefined ? place : { ...place, column: Number(column) }];
      } catch {
        return [];
      }
    },
  );
  const own = ownFolder();
  const isPackaged = (file: string) => file.startsWith(own) || /[\\/]node_modules[\\/]/.test(file);
  return places.find(({ file }) => file === absolute || !isPackaged(file)) ?? placeInHeader(stack);
}

/** What Node cannot leave the types out of stands over the stack: the path and line, the text, a mark under it. */
function placeInHeader(stack: string): FilePlace | undefined {
  const [, file, line, indent] = /^(\/.+|[A-Za-z]:\\.+):(\d+)\n.*\n( *)\^/.exec(stack) ?? [];
  return file === undefined ? undefined : { file, line: Number(line), column: (indent ?? '').length + 1 };
}

const mostFiles = 50;

/**
 * Node does not say where a module cannot be parsed; its own checker does. Looks into the part's file, then into the
 * files that it imports by a path.
 */
export async function placeOfSyntax(part: PartPath): Promise<FilePlace | undefined> {
  const waiting = [part.absolute];
  const seen = new Set(waiting);
  for (let file = waiting.shift(); file !== undefined && seen.size <= mostFiles; file = waiting.shift()) {
    const source = await readFile(file, 'utf8').catch(() => '');
    const place = await checkSyntax(file, source);
    if (place) return place;
    for (const [, name] of source.matchAll(/(?:from|import)\s*\(?\s*['"](\.{1,2}\/[^'"\n]+)['"]/g)) {
      const next = fileURLToPath(new URL(name as string, pathToFileURL(file)));
      if (!seen.has(next)) waiting.push(next);
      seen.add(next);
    }
  }
  return undefined;
}

const checkSyntax = (file: string, source: string): Promise<FilePlace | undefined> =>
  new Promise((tell) => {
    const checker = execFile(
      process.execPath,
      ['--check', '--input-type=module', '-'],
      { timeout: 10_000, env: { ...process.env, NODE_OPTIONS: '' } },
      (_, __, said) => {
        const [, line, carets] = /^\[stdin\]:(\d+)\n.*\n( *)\^/m.exec(said) ?? [];
        tell(
          line === undefined ? undefined : { file, line: Number(line), column: (carets ?? '').length + 1 },
        );
      },
    );
    checker.stdin?.on('error', () => undefined);
    checker.stdin?.end(source);
  });

/** The one line of a source that begins with a key: where a definition says what is wrong with it. */
export function placeOfKey(source: string, key: string, { absolute }: PartPath): FilePlace | undefined {
  const name = key.replace(/[^\w-]/g, '');
  if (name === '') return undefined;
  const starts = new RegExp(`^\\s*(?:async\\s+)?(['"]?)${name}\\1\\s*[:(,]`);
  const lines = source.split(/\r?\n/).flatMap((text, i) => (starts.test(text) ? [i + 1] : []));
  return lines.length === 1 ? { file: absolute, line: lines[0] as number } : undefined;
}
