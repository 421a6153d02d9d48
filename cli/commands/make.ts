import { parseJob } from '../../core/job/read-job.js';
import { formatInput } from '../../core/part/input-problem.js';
import { suggest } from '../../core/part/suggest.js';
import { findPart, partNames, parts } from '../../generators/index.js';
import { outputOptions } from '../common-options.js';
import { type ExitCode, type Io, UsageError } from '../io.js';
import { jobContext } from '../library.js';
import { jobFromOptions, makeOptions, optionAt } from '../make-options.js';
import { formatHelp, parseOptions } from '../parse-options.js';
import { runJob } from '../run-job.js';

export const name = 'make';
export const summary = 'Make one part: pattern, gating, plate and traveller';

/** `make <part> [--parameter value ...]` */
export async function run(argv: readonly string[], io: Io): Promise<ExitCode> {
  const [word, ...rest] = argv;
  if (word === undefined || word === '--help') {
    io.out(listOfParts());
    return word === undefined ? 2 : 0;
  }
  const part = word.startsWith('-') ? undefined : findPart(word);
  if (!part) {
    const near = suggest(word, partNames);
    throw new UsageError(
      word.startsWith('-')
        ? `make needs the part's name first: patternwright make <part> ${word}`
        : `there is no part called "${word.slice(0, 60)}"${near === undefined ? '' : `; did you mean ${near}?`} (parts: ${partNames.join(', ')})`,
    );
  }
  const unit = wantsInches(rest) ? 'in' : 'mm';
  const options = makeOptions(part, unit);
  const rows = [...options, ...outputOptions];
  if (rest.includes('--help')) {
    io.out(await formatHelp(`patternwright make ${part.name} [options]\n\n${part.summary}.`, rows));
    return 0;
  }
  const { positional, values } = await parseOptions(rest, rows);
  if (positional.length > 0)
    throw new UsageError(`"${positional[0]}" is not understood; options start with --`);
  const source = JSON.stringify(jobFromOptions(part, options, values));
  const reading = parseJob(source, jobContext('command line'));
  if (!reading.ok) {
    for (const problem of reading.problems) {
      const option = optionAt(options, problem.path);
      io.err(`${option === undefined ? formatInput(problem) : formatInput(problem, `--${option}`)}\n`);
    }
    return 2;
  }
  return runJob(
    reading.job,
    {
      out: String(values.out ?? `out/${reading.job.name}`),
      json: values.json === true,
      quiet: values.quiet === true,
      strict: values.strict === true,
    },
    io,
  );
}

const wantsInches = (argv: readonly string[]): boolean =>
  argv.some((a, i) => a === '--units=in' || (a === '--units' && argv[i + 1] === 'in'));

const listOfParts = (): string =>
  [
    'patternwright make <part> [options]',
    '',
    ...parts.map((p) => `  ${p.name.padEnd(22)}${p.summary}`),
    '',
    '`patternwright make <part> --help` lists the part’s parameters.',
    '',
  ].join('\n');
