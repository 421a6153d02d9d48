import type { FileHandle } from 'node:fs/promises';
import { notAFileOfItsOwn } from './folder-error.js';
import type { FolderSystem } from './folder-system.js';

interface OutputPath {
  /** Relative to the folder, parts joined by `/`. */
  readonly path: string;
}

/** A file with all that is in it. Text is written as UTF-8. */
export interface WholeFile extends OutputPath {
  readonly bytes: Uint8Array | string;
}

/** A file that is taken in pieces, each written before the next but one is asked for. */
export interface ChunkedFile extends OutputPath {
  readonly chunks: Iterable<Uint8Array | string> | AsyncIterable<Uint8Array | string>;
}

/** A file that is put in place by its maker, who ends when it is all there. */
export interface CopiedFile extends OutputPath {
  /** Makes a file of its own at `dest`, where nothing stands: not a link, nor a second name of another file. */
  readonly copyFrom: (dest: string) => Promise<void>;
}

/** The latter two are made while the next file is asked for. */
export type OutputFile = WholeFile | ChunkedFile | CopiedFile;

/** What somebody else's code threw while a file was taken from it; passed on as it is. */
export class MakersError extends Error {
  constructor(override readonly cause: unknown) {
    super();
  }
}

/**
 * Writes a file at `dest`, where nothing may stand, and leaves it open, to be flushed.
 * @param shown where it will be, for messages
 * @throws MakersError
 */
export async function putFile(
  system: FolderSystem,
  dest: string,
  file: OutputFile,
  shown: string,
): Promise<FileHandle> {
  if ('copyFrom' in file) return copyInto(system, dest, file.copyFrom, shown);
  // wx: the file must be new, and a link in its place is not followed.
  const handle = await system.open(dest, 'wx');
  try {
    if ('chunks' in file) for await (const piece of inPieces(file.chunks)) await handle.writeFile(piece);
    else await handle.writeFile(file.bytes);
    return handle;
  } catch (error) {
    await handle.close();
    throw error;
  }
}

async function copyInto(
  system: FolderSystem,
  dest: string,
  copyFrom: CopiedFile['copyFrom'],
  shown: string,
): Promise<FileHandle> {
  await copyFrom(dest).catch((error: unknown) => {
    // The system speaks of `dest` then.
    throw error instanceof Error && 'syscall' in error ? error : new MakersError(error);
  });
  const facts = await system.lstat(dest).catch(() => undefined);
  if (!facts?.isFile() || facts.nlink > 1) throw notAFileOfItsOwn(shown);
  const handle = await system.open(dest, 'r+');
  try {
    const opened = await handle.stat();
    if (opened.ino !== facts.ino || opened.dev !== facts.dev) throw notAFileOfItsOwn(shown);
    return handle;
  } catch (error) {
    await handle.close();
    throw error;
  }
}

/** Small pieces go to the disk together. */
const leastPiece = 2 ** 16;

/** @throws MakersError */
async function* inPieces(chunks: ChunkedFile['chunks']): AsyncGenerator<Uint8Array> {
  let text = '';
  let parts: Uint8Array[] = [];
  let length = 0;
  const takeText = (all: boolean): void => {
    const end = all || !isHalfCharacter(text.charCodeAt(text.length - 1)) ? text.length : text.length - 1;
    const bytes = Buffer.from(text.slice(0, end));
    text = text.slice(end);
    parts.push(bytes);
    length += bytes.length;
  };
  const take = (): Uint8Array => {
    const piece = parts.length === 1 ? parts[0]! : Buffer.concat(parts);
    [parts, length] = [[], 0];
    return piece;
  };
  try {
    for await (const chunk of chunks) {
      if (typeof chunk === 'string') {
        text += chunk;
        if (text.length >= leastPiece) takeText(false);
      } else {
        if (text !== '') takeText(true);
        if (chunk.length >= leastPiece) {
          if (length > 0) yield take();
          yield chunk;
        } else {
          // A copy, since its maker may write over what it has handed on.
          parts.push(Buffer.from(chunk));
          length += chunk.length;
        }
      }
      if (length >= leastPiece) yield take();
    }
  } catch (error) {
    throw new MakersError(error);
  }
  if (text !== '') takeText(true);
  if (length > 0) yield take();
}

/** A character of two code units may be cut where a chunk ends: whether this is the first of them. */
const isHalfCharacter = (unit: number): boolean => unit >= 0xd800 && unit < 0xdc00;
