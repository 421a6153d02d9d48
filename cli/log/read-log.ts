import { resolve } from 'node:path';
import { FolderError } from '../../core/files/folder-error.js';
import { appendRecords, readLogText } from '../../core/files/log-file.js';
import { type LogReading, parseLog } from '../../core/log/line.js';
import type { PourRecord } from '../../core/log/record.js';
import { folderFailure, usageFailure } from '../failure.js';
import type { Io } from '../io.js';

const mostTold = 20;

/**
 * Reads a file's text.
 * @throws Failure, exit 2, where it is not there or cannot be read
 */
export async function readText(cwd: string, file: string, what: string): Promise<string> {
  let text: string | undefined;
  try {
    text = await readLogText(resolve(cwd, file));
  } catch (error) {
    throw error instanceof FolderError ? folderFailure(error, 2, '') : error;
  }
  if (text === undefined) throw usageFailure('unreadable-file', `there is no file ${file}`, what);
  return text;
}

/** Reads the log and tells, on standard error, every line that gives no record. */
export async function readLog(io: Io, file: string): Promise<LogReading> {
  const text = await readText(io.cwd, file, 'patternwright log add makes one; --file names another');
  const reading = parseLog(text);
  tellProblems(io, file, reading.problems);
  return reading;
}

export function tellProblems(io: Io, file: string, problems: LogReading['problems']): void {
  for (const { line, message, remedy } of problems.slice(0, mostTold))
    io.err(`${file}:${line}: ${message}; ${remedy}\n`);
  if (problems.length > mostTold) io.err(`${file}: and ${problems.length - mostTold} more such lines\n`);
}

/** Tells of a last line that was never finished, when there is still somebody who remembers the pour. */
export async function tellTornEnd(io: Io, file: string): Promise<void> {
  // What cannot be read will be told when it is written.
  const text = await readLogText(resolve(io.cwd, file)).catch(() => undefined);
  if (text === undefined || text.endsWith('\n')) return;
  const { problems } = parseLog(text);
  const last = text.split('\n').length;
  tellProblems(
    io,
    file,
    problems.filter((p) => p.line === last),
  );
}

/** @throws Failure, exit 1, where the log cannot be written */
export async function append(io: Io, file: string, records: readonly PourRecord[]): Promise<void> {
  try {
    await appendRecords(resolve(io.cwd, file), records);
  } catch (error) {
    throw error instanceof FolderError ? folderFailure(error, 1, 'The record was not added.') : error;
  }
}
