import { alloyNames } from '../../core/foundry/alloys/index.js';
import { logFileName } from '../../core/log/line.js';
import type { PourRecord } from '../../core/log/record.js';
import { reportLog } from '../../core/log/report.js';
import { showText } from '../../core/part/input-problem.js';
import { suggestRemedy } from '../../core/part/suggest.js';
import { usageFailure } from '../failure.js';
import { formatHelpPage, optionEntries } from '../help-page.js';
import type { ExitCode, Io } from '../io.js';
import { parseOptions, wantsHelp } from '../parse-options.js';
import { showOptions } from './options.js';
import { readLog } from './read-log.js';
import { formatReport } from './report-text.js';

const usage = 'patternwright log show [options]';
const summary = 'Shows what the log teaches: growth, printer error, faults';

/** `log show` */
export async function run(argv: readonly string[], io: Io): Promise<ExitCode> {
  if (wantsHelp(argv)) {
    io.out(formatHelpPage(usage, summary, optionEntries(showOptions)));
    return 0;
  }
  const { positional, values } = await parseOptions('log show', argv, showOptions);
  if (positional[0] !== undefined)
    throw usageFailure('too-many', `"${showText(positional[0])}" is one word too many`, `write ${usage}`);
  const file = String(values.file ?? logFileName);
  const { records, problems } = await readLog(io, file);
  const wanted = (['alloy', 'investment'] as const).reduce(
    (some, key) => (values[key] === undefined ? some : only(some, key, String(values[key]))),
    records,
  );
  const report = reportLog(wanted);
  io.out(
    values.json === true
      ? `${JSON.stringify({ file, ...report, problems }, null, 2)}\n`
      : formatReport(report, {
          lengthUnit: values.units === 'in' ? 'in' : 'mm',
          degrees: values.degrees === 'F' ? 'F' : 'C',
        }),
  );
  return 0;
}

/** An alloy of the table that was never poured gives an empty report; any other word is a slip. */
function only(
  records: readonly PourRecord[],
  key: 'alloy' | 'investment',
  word: string,
): readonly PourRecord[] {
  const found = records.filter((r) => r[key] === word);
  if (found.length > 0 || (key === 'alloy' && alloyNames.includes(word))) return found;
  const known = [...new Set(records.map((r) => r[key]))];
  throw usageFailure(
    'unknown-choice',
    `there is no pour with --${key} ${showText(word)}`,
    known.length === 0 ? 'the log has none' : suggestRemedy(word, known),
  );
}
