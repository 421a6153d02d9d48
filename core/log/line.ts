/**
 * The log's file: JSON Lines, one record a line, each with the version of its form and a checksum:
 * `{"v":1,"crc":"5d3a0c11","record":{…}}`. Lines are only ever added, so a line that a killed run or a full disk
 * left torn harms no other.
 */
export { logFileName } from './file-name.js';

import crc32 from 'crc-32';
import { checkRecord, type PourRecord } from './record.js';

/** The version of a record's form. */
export const logVersion = 1;

const form = /^\{"v":(\d{1,9}),"crc":"([0-9a-f]{8})","record":(\{.*\})\}$/s;

/** CRC-32 (ISO 3309, as in zip) of the UTF-8 bytes, eight hex digits: finds every torn line but one in 4 × 10⁹. */
const checksum = (text: string): string => (crc32.str(text) >>> 0).toString(16).padStart(8, '0');

/** One line without its line break. JSON escapes every line break inside. */
export function formatLine(record: PourRecord): string {
  const text = JSON.stringify(record);
  return `{"v":${logVersion},"crc":"${checksum(text)}","record":${text}}`;
}

export type LogProblemCode = 'torn' | 'changed' | 'newer' | 'unreadable' | 'repeated';

/** A line that gives no record. */
export interface LogProblem {
  readonly code: LogProblemCode;
  /** From 1. */
  readonly line: number;
  readonly message: string;
  readonly remedy: string;
}

export type LineReading =
  | { readonly ok: true; readonly record: PourRecord }
  | { readonly ok: false; readonly problem: Omit<LogProblem, 'line'> };

const remedies = {
  torn: 'the record was never finished; enter that pour again',
  changed: 'put the line back as it was, or enter that pour again with log add',
  newer: 'read it with the newer program',
} as const;

/** Reads one line of the file, without its line break. Never throws. */
export function parseLine(text: string): LineReading {
  const found = form.exec(text);
  const refuse = (code: LogProblemCode, message: string, remedy: string): LineReading => ({
    ok: false,
    problem: { code, message, remedy },
  });
  if (!found) return refuse('torn', 'the line is torn: a run was killed or the disk was full', remedies.torn);
  const [, version, sum, content] = found as unknown as [string, string, string, string];
  if (checksum(content) !== sum)
    return refuse(
      'changed',
      'the checksum is wrong: the line is torn or was changed by hand',
      remedies.changed,
    );
  if (Number(version) !== logVersion)
    return refuse(
      'newer',
      `the record has form ${version}; this program reads form ${logVersion}`,
      remedies.newer,
    );
  let data: unknown;
  try {
    data = JSON.parse(content);
  } catch {
    return refuse('unreadable', 'the record is no JSON', remedies.changed);
  }
  const check = checkRecord(data);
  if (check.ok) return check;
  const [first] = check.problems;
  return refuse('unreadable', `${first?.path.join('.')} ${first?.message}`, remedies.changed);
}

export interface LogReading {
  readonly records: readonly PourRecord[];
  /** Lines that gave no record, in the order of the file. */
  readonly problems: readonly LogProblem[];
}

/** Reads a whole log. A line that cannot be read is told, and the others are read. Blank lines count for nothing. */
export function parseLog(text: string): LogReading {
  const records: PourRecord[] = [];
  const problems: LogProblem[] = [];
  const lines = new Map<string, number>();
  for (const [i, raw] of text
    .replace(/^\uFEFF/, '')
    .split('\n')
    .entries()) {
    const content = raw.endsWith('\r') ? raw.slice(0, -1) : raw;
    if (content.trim() === '') continue;
    const reading = parseLine(content);
    if (!reading.ok) {
      problems.push({ ...reading.problem, line: i + 1 });
      continue;
    }
    const first = lines.get(reading.record.id);
    if (first === undefined) {
      lines.set(reading.record.id, i + 1);
      records.push(reading.record);
    } else
      problems.push({
        code: 'repeated',
        line: i + 1,
        message: `the record stands on line ${first} already`,
        remedy: 'take one of the two lines out',
      });
  }
  return { records, problems };
}
