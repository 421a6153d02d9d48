import { open } from 'node:fs/promises';
import { resolve } from 'node:path';
import { describeFailure, systemCode } from '../../core/files/folder-error.js';
import { formatCsv } from '../../core/log/csv.js';
import { logFileName } from '../../core/log/line.js';
import { showText } from '../../core/part/input-problem.js';
import { Failure, folderFailure, usageFailure } from '../failure.js';
import { formatHelpPage, optionEntries } from '../help-page.js';
import type { ExitCode, Io } from '../io.js';
import { parseOptions, wantsHelp } from '../parse-options.js';
import { exportOptions } from './options.js';
import { readLog } from './read-log.js';

const usage = 'patternwright log export [--out pours.csv] [options]';
const summary = 'Writes the log as a CSV table, a row a measured size, in mm, °C and hours';

/** `log export` */
export async function run(argv: readonly string[], io: Io): Promise<ExitCode> {
  if (wantsHelp(argv)) {
    io.out(formatHelpPage(usage, summary, optionEntries(exportOptions)));
    return 0;
  }
  const { positional, values } = await parseOptions('log export', argv, exportOptions);
  if (positional[0] !== undefined)
    throw usageFailure(
      'too-many',
      `"${showText(positional[0])}" is one word too many`,
      'name the table with --out',
    );
  const { records } = await readLog(io, String(values.file ?? logFileName));
  const text = values.json === true ? `${JSON.stringify(records, null, 2)}\n` : formatCsv(records);
  if (values.out === undefined) io.out(text);
  else {
    await writeNew(resolve(io.cwd, String(values.out)), text);
    io.err(`Wrote ${values.out}\n`);
  }
  return 0;
}

/** Writes a file that was not there: an old table is not lost for a new one. */
async function writeNew(path: string, text: string): Promise<void> {
  try {
    const handle = await open(path, 'wx');
    try {
      await handle.writeFile(text);
      await handle.sync();
    } finally {
      await handle.close();
    }
  } catch (error) {
    if (systemCode(error) === 'EEXIST') {
      const [message, remedy] = [`${path} is there already.`, 'Name a new file with --out.'];
      throw new Failure(1, [{ text: `${message} ${remedy}`, code: 'exists', message, remedy }]);
    }
    if (systemCode(error) === 'ENOENT') {
      const [message, remedy] = [`There is no folder for ${path}.`, 'Make it, or name another file.'];
      throw new Failure(1, [{ text: `${message} ${remedy}`, code: 'no-folder', message, remedy }]);
    }
    throw folderFailure(describeFailure(error, path));
  }
}
