import { createHash } from 'node:crypto';
import { resolve } from 'node:path';
import { readLogText } from '../../core/files/log-file.js';
import { type CsvProblem, parseCsv } from '../../core/log/csv.js';
import { logFileName, parseLog } from '../../core/log/line.js';
import { showText } from '../../core/part/input-problem.js';
import { Failure, type Problem, usageFailure } from '../failure.js';
import { formatHelpPage, optionEntries } from '../help-page.js';
import type { ExitCode, Io } from '../io.js';
import { parseOptions, wantsHelp } from '../parse-options.js';
import { importOptions } from './options.js';
import { append, readText, tellProblems } from './read-log.js';

const usage = 'patternwright log import <pours.csv> [options]';
const summary = 'Adds the pours of a CSV table to the log, leaving out those it has';
const notes: readonly string[] = [
  'The table has the columns of log export, all or some of them, in any order; date, alloy and investment must be there. A row without id is one more size of the pour above if it leaves date and alloy empty, or repeats the pour with another size. Nothing is added if any row is wrong.',
];

const mostTold = 20;

/** `log import <pours.csv>` */
export async function run(argv: readonly string[], io: Io): Promise<ExitCode> {
  if (wantsHelp(argv)) {
    io.out(formatHelpPage(usage, summary, optionEntries(importOptions), notes));
    return 0;
  }
  const { positional, values } = await parseOptions('log import', argv, importOptions);
  const [table, ...more] = positional;
  if (table === undefined || table === '')
    throw usageFailure('missing', 'log import needs a table', `write ${usage}`);
  if (more[0] !== undefined)
    throw usageFailure(
      'too-many',
      `"${showText(more[0])}" is one file too many`,
      'log import takes one table',
    );
  const reading = parseCsv(await readText(io.cwd, table, 'give the path of a CSV table'), recordNumber);
  if (!reading.ok) throw refusal(table, reading.problems);
  const file = String(values.file ?? logFileName);
  const log = parseLog((await readLogText(resolve(io.cwd, file))) ?? '');
  tellProblems(io, file, log.problems);
  const known = new Set(log.records.map((r) => r.id));
  const added = reading.records.filter((r) => !known.has(r.id));
  await append(io, file, added);
  const present = reading.records.length - added.length;
  io.out(
    values.json === true
      ? `${JSON.stringify({ file, added: added.length, present, records: added }, null, 2)}\n`
      : `Added ${added.length} ${added.length === 1 ? 'pour' : 'pours'} to ${file}${present === 0 ? '' : `; ${present} it had already`}\n`,
  );
  return 0;
}

/** The same row gets the same number, so that a table imported twice adds nothing the second time. */
const recordNumber = (content: string, occurrence: number): string =>
  createHash('sha256').update(`${occurrence} ${content}`).digest('hex').slice(0, 32);

function refusal(file: string, problems: readonly CsvProblem[]): Failure {
  const told = problems.slice(0, mostTold).map(({ line, column, message, remedy }): Problem => {
    const subject = column === '' ? '' : `${showText(column)} `;
    return {
      text: `${file}:${line}: ${subject}${message}; ${remedy}`,
      code: 'unreadable-row',
      message: `${subject}${message}`,
      remedy,
      file,
      line,
    };
  });
  const left = problems.length - told.length;
  return new Failure(2, told, left === 0 ? 'Nothing was added.' : `And ${left} more. Nothing was added.`);
}
