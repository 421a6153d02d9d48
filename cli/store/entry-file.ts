import { createHash } from 'node:crypto';
import { constants } from 'node:fs';
import { type FileHandle, open } from 'node:fs/promises';
import { type Body, type Entry, longestLine, readFirstLine, readHeader, sumOf } from './entry.js';

/** What a kept part's file holds is not what was written. */
export class BrokenEntry extends Error {
  override readonly name = 'BrokenEntry';
}

/** Neither follows a link nor waits for the other end of a pipe, where the system has such things. */
const plainly = constants.O_RDONLY | (constants.O_NOFOLLOW ?? 0) | (constants.O_NONBLOCK ?? 0);
const chunkLength = 2 ** 20;

/**
 * Opens a kept part's file, gives it to `use` and closes it.
 * @throws BrokenEntry for anything but a file
 */
export async function withEntryFile<T>(path: string, use: (file: FileHandle) => Promise<T>): Promise<T> {
  const file = await open(path, plainly).catch((error: NodeJS.ErrnoException) => {
    // A link (ELOOP; EMLINK on FreeBSD) or a socket.
    throw ['ELOOP', 'EMLINK', 'ENXIO', 'EISDIR'].includes(error.code ?? '') ? new BrokenEntry(path) : error;
  });
  try {
    if (!(await file.stat()).isFile()) throw new BrokenEntry(path);
    return await use(file);
  } finally {
    await file.close();
  }
}

/** @throws BrokenEntry where the file is not that of the key, or is damaged before its bodies, or of another length */
export async function readEntry(file: FileHandle, key: string): Promise<Entry> {
  const { size } = await file.stat();
  const line = readFirstLine(await readRange(file, 0, Math.min(longestLine, size)));
  if (line === undefined || line.start + line.length > size) throw new BrokenEntry(key);
  const header = await readBody(file, line);
  const entry = readHeader(key, header, line.start + line.length);
  if (entry === undefined || entry.length !== size) throw new BrokenEntry(key);
  return entry;
}

/** @throws BrokenEntry where the bytes are not those that were written */
export async function readBody(file: FileHandle, { start, length, sha256 }: Body): Promise<Uint8Array> {
  const bytes = await readRange(file, start, length);
  if (sumOf(bytes) !== sha256) throw new BrokenEntry(sha256);
  return bytes;
}

/**
 * Hands a body on in pieces, each good only until the next is asked for. Only when the last has been taken is it known
 * whether they were right.
 * @throws BrokenEntry where the bytes are not those that were written
 */
export async function* readPieces(
  file: FileHandle,
  { start, length, sha256 }: Body,
): AsyncGenerator<Uint8Array> {
  const sum = createHash('sha256');
  const buffer = Buffer.allocUnsafe(Math.min(chunkLength, length));
  for (let done = 0; done < length; ) {
    const { bytesRead } = await file.read(buffer, 0, Math.min(chunkLength, length - done), start + done);
    if (bytesRead === 0) throw new BrokenEntry(sha256);
    const piece = buffer.subarray(0, bytesRead);
    sum.update(piece);
    yield piece;
    done += bytesRead;
  }
  if (sum.digest('hex') !== sha256) throw new BrokenEntry(sha256);
}

async function readRange(file: FileHandle, start: number, length: number): Promise<Uint8Array> {
  const bytes = Buffer.allocUnsafeSlow(length);
  for (let done = 0; done < length; ) {
    const { bytesRead } = await file.read(bytes, done, length - done, start + done);
    if (bytesRead === 0) throw new BrokenEntry('short');
    done += bytesRead;
  }
  return bytes;
}
