import { constants } from 'node:fs';
import { type FileHandle, open } from 'node:fs/promises';
import { resolve } from 'node:path';
import { systemCode } from '../core/files/folder-error.js';
import { largestJob } from '../core/job/source-text.js';
import { showText } from '../core/part/input-problem.js';
import { Failure, problemInFile, usageFailure } from './failure.js';

const reasons: Readonly<Record<string, string>> = {
  ENOENT: 'there is no such file',
  ENOTDIR: 'there is no such file',
  EACCES: 'it may not be read',
  EPERM: 'it may not be read',
  ENAMETOOLONG: 'the name is too long',
  ELOOP: 'its links lead in a circle',
};

/**
 * Reads a plate job's file.
 * @throws Failure
 */
export const readSource = (
  cwd: string,
  file: string,
  what: 'plate job' | 'shop profile' = 'plate job',
): Promise<Uint8Array> => readAtMost(resolve(cwd, file), file, what, largestJob);

/**
 * Reads a file. Pipes and devices are refused without waiting on them, and no more is read than it may have.
 * @param file as the user wrote it
 * @param most bytes
 * @throws Failure
 */
export async function readAtMost(
  path: string,
  file: string,
  what: string,
  most: number,
): Promise<Uint8Array> {
  // The last characters of a long path tell more than the first.
  const shown = file.length <= 200 ? file.replace(/\p{Cc}/gu, '?') : `…${showText(file.slice(-39))}`;
  const remedy = `give the path of a ${what}`;
  let handle: FileHandle | undefined;
  try {
    // Opening a pipe waits for its other end unless told not to.
    handle = await open(path, constants.O_RDONLY | constants.O_NONBLOCK);
    const facts = await handle.stat();
    if (facts.isDirectory()) throw usageFailure('not-a-file', `${shown} is a folder`, remedy);
    if (!facts.isFile()) throw usageFailure('not-a-file', `${shown} is not a file`, remedy);
    if (facts.size > most) throw tooLarge(file, facts.size, what, most);
    return await readBytes(handle, most + 1);
  } catch (error) {
    const code = systemCode(error);
    if (code === '') throw error;
    throw usageFailure(
      'unreadable-file',
      `cannot read ${shown}: ${reasons[code] ?? 'reading failed'}`,
      remedy,
    );
  } finally {
    await handle?.close();
  }
}

/** As the job reader says it of what it is given. */
function tooLarge(file: string, size: number, what: string, most: number): Failure {
  const message = `the file is ${(size / 1024 / 1024).toFixed(1)} MB`;
  const remedy = `a ${what} is at most ${most / 1024 / 1024} MB`;
  const place = { file, line: 1, column: 1, path: [], got: '' };
  return new Failure(2, [problemInFile({ code: 'too-large', message, remedy, ...place })]);
}

async function readBytes(handle: FileHandle, most: number): Promise<Uint8Array> {
  const chunks: Uint8Array[] = [];
  for (let size = 0; size < most; ) {
    const { bytesRead, buffer } = await handle.read(new Uint8Array(Math.min(1 << 20, most - size)));
    if (bytesRead === 0) break;
    chunks.push(buffer.subarray(0, bytesRead));
    size += bytesRead;
  }
  return Buffer.concat(chunks);
}
