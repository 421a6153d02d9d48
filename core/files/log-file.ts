/**
 * The pour log's file, only ever added to. Two runs may add at the same time, and any run may be killed at any
 * moment, without a lock:
 *
 * 1. Lines go out in one write to a file opened with O_APPEND. POSIX (write, fcntl) and local Windows disks place
 *    such a write at the end of the file at that moment, and no other write comes between; nothing is ever written
 *    over or cut off, so a byte that stands stays.
 * 2. A write cut short (kill, full disk) leaves a torn last line. The next run sees that the file does not end in a
 *    line break and starts with one. If it saw wrongly, because the other run was cut short in that moment, its
 *    first line hangs on the torn one: then step 3 does not find it, and it is written again.
 * 3. A record counts as written only when, after fsync, it is read back whole between line breaks. By 1 it stays so.
 *
 * Network disks without atomic appends do not keep 1: there, let one run write at a time.
 */
import { constants } from 'node:fs';
import { type FileHandle, open, stat } from 'node:fs/promises';
import { dirname } from 'node:path';
import { formatLine } from '../log/line.js';
import type { PourRecord } from '../log/record.js';
import { describeFailure, FolderError, systemCode } from './folder-error.js';
import { nodeFolderSystem, syncFolder } from './folder-system.js';

/** A run that writes at the same moment and is cut short can spoil one try; several would be no accident. */
const mostTries = 4;

/** Far more than a shop pours: a larger file is no log. */
const largestLog = 256 * 1024 * 1024;

/**
 * The text of a log or of a table to import; undefined where there is no such file.
 * @throws FolderError
 */
export async function readLogText(path: string): Promise<string | undefined> {
  let handle: FileHandle | undefined;
  try {
    // Opening a pipe waits for its other end unless told not to.
    handle = await open(path, constants.O_RDONLY | constants.O_NONBLOCK);
    const facts = await handle.stat();
    if (!facts.isFile()) throw notAFile(path);
    if (facts.size > largestLog)
      throw new FolderError('write-failed', `${path} has over 256 MB.`, 'Name the file of a pour log.');
    return await readFrom(handle, 0, facts.size);
  } catch (error) {
    const code = systemCode(error);
    if (code === 'ENOENT' || code === 'ENOTDIR') return undefined;
    if (error instanceof FolderError) throw error;
    throw new FolderError(
      'no-permission',
      `${path} cannot be read (${code}).`,
      'Name a file that may be read.',
    );
  } finally {
    await handle?.close();
  }
}

/**
 * Adds records and returns when they are on the disk, readable. Makes the file where there is none; its folder must
 * be there.
 * @throws FolderError when a record could not be written; those before it may have been
 */
export async function appendRecords(path: string, records: readonly PourRecord[]): Promise<void> {
  if (records.length === 0) return;
  let handle: FileHandle | undefined;
  try {
    handle = await open(path, 'a+');
    const before = await handle.stat();
    if (!before.isFile()) throw notAFile(path);
    let left = records.map(formatLine);
    for (let tries = 0; left.length > 0; tries++) {
      if (tries === mostTries) throw spoiled(path);
      left = await appendLines(handle, left, path);
    }
    if (before.size === 0) await syncFolder(nodeFolderSystem, dirname(path));
    const now = await stat(path);
    if (now.ino !== before.ino || now.dev !== before.dev) throw replaced(path);
  } catch (error) {
    throw explained(error, path);
  } finally {
    await handle?.close();
  }
}

/** One write; gives back the lines that do not stand whole in the file after it. */
async function appendLines(handle: FileHandle, lines: readonly string[], path: string): Promise<string[]> {
  const { size } = await handle.stat();
  const start = (await endsInBreak(handle, size)) ? '' : '\n';
  const bytes = Buffer.from(`${start}${lines.join('\n')}\n`);
  const { bytesWritten } = await handle.write(bytes);
  await handle.sync();
  if (bytesWritten < bytes.length) throw cutShort(path);
  const after = await handle.stat();
  // From the last byte that was there before, to see that the first line starts after a line break.
  const tail = await readFrom(handle, Math.max(0, size - 1), after.size);
  const whole = new Set((size === 0 ? `\n${tail}` : tail).split('\n').slice(1, -1));
  return lines.filter((line) => !whole.has(line));
}

async function endsInBreak(handle: FileHandle, size: number): Promise<boolean> {
  return size === 0 || (await readFrom(handle, size - 1, size)) === '\n';
}

async function readFrom(handle: FileHandle, from: number, to: number): Promise<string> {
  const bytes = Buffer.alloc(to - from);
  let read = 0;
  while (read < bytes.length) {
    const { bytesRead } = await handle.read(bytes, read, bytes.length - read, from + read);
    if (bytesRead === 0) break;
    read += bytesRead;
  }
  return bytes.subarray(0, read).toString('utf8');
}

const again = 'The records before it are safe; make room and enter it again.';

const cutShort = (path: string): FolderError =>
  new FolderError('disk-full', `The disk is full: the record could not be written to ${path}.`, again);

const spoiled = (path: string): FolderError =>
  new FolderError(
    'write-failed',
    `What was written to ${path} could not be read back.`,
    'Keep the log on a local disk, and let one run write at a time.',
  );

const replaced = (path: string): FolderError =>
  new FolderError(
    'busy',
    `${path} was taken away or replaced while it was written.`,
    'Enter the record again.',
  );

const notAFile = (path: string): FolderError =>
  new FolderError('write-failed', `${path} is not a file.`, 'Name a file for the log with --file.');

/** As for a folder, with what would be right for a log. */
function explained(error: unknown, path: string): FolderError {
  const code = systemCode(error);
  if (code === 'ENOENT')
    return new FolderError(
      'write-failed',
      `There is no folder ${dirname(path)}.`,
      'Make it, or name another file.',
    );
  if (code === 'EISDIR')
    return new FolderError('write-failed', `${path} is a folder.`, 'Name a file for the log with --file.');
  if (code === 'ENOSPC' || code === 'EDQUOT' || code === 'EFBIG') return cutShort(path);
  return describeFailure(error, path);
}
