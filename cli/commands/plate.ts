import { readFile } from 'node:fs/promises';
import { resolve } from 'node:path';
import { systemCode } from '../../core/files/folder-error.js';
import { formatProblem } from '../../core/job/job-problem.js';
import { parseJob } from '../../core/job/read-job.js';
import { outputOptions } from '../common-options.js';
import { type ExitCode, type Io, UsageError } from '../io.js';
import { jobContext } from '../library.js';
import { formatHelp, parseOptions } from '../parse-options.js';
import { runJob } from '../run-job.js';

export const name = 'plate';
export const summary = 'Make a plate job: every part of a YAML file';

const usage = 'patternwright plate <job.yaml> [options]\n\nMakes every part of a plate job.';

export async function run(argv: readonly string[], io: Io): Promise<ExitCode> {
  if (argv.includes('--help')) {
    io.out(await formatHelp(usage, outputOptions));
    return 0;
  }
  const { positional, values } = await parseOptions(argv, outputOptions);
  const [file, ...more] = positional;
  if (file === undefined) throw new UsageError('plate needs a job file: patternwright plate job.yaml');
  if (more.length > 0) throw new UsageError(`plate takes one job file; "${more[0]}" is one too many`);
  const source = await readSource(resolve(io.cwd, file), file);
  const reading = parseJob(source, jobContext(file));
  if (!reading.ok) {
    for (const problem of reading.problems) io.err(`${formatProblem(problem)}\n`);
    return 2;
  }
  // What the command line says of units is about the papers; the file's bare numbers stay in the file's units.
  const job = {
    ...reading.job,
    units: oneOf(values.units, 'units', ['mm', 'in'] as const) ?? reading.job.units,
    degrees: oneOf(values.degrees, 'degrees', ['C', 'F'] as const) ?? reading.job.degrees,
  };
  return runJob(
    job,
    {
      out: String(values.out ?? `out/${job.name}`),
      json: values.json === true,
      quiet: values.quiet === true,
      strict: values.strict === true,
    },
    io,
  );
}

function oneOf<const C extends readonly string[]>(
  value: string | boolean | undefined,
  option: string,
  choices: C,
): C[number] | undefined {
  if (value === undefined || choices.includes(String(value))) return value as C[number] | undefined;
  throw new UsageError(`--${option} is ${String(value)}; one of ${choices.join(', ')}`);
}

/** Larger than any job the reader takes; a device or a film is not read into memory to find that out. */
const longestSource = 8 * 1024 * 1024;

async function readSource(path: string, shown: string): Promise<Uint8Array> {
  try {
    const { stat } = await import('node:fs/promises');
    const facts = await stat(path);
    if (!facts.isFile()) throw new UsageError(`${shown} is not a file; give a plate job in YAML`);
    if (facts.size > longestSource)
      throw new UsageError(`${shown} is ${facts.size} bytes long; no plate job is`);
    return await readFile(path);
  } catch (error) {
    if (error instanceof UsageError) throw error;
    const reasons: Readonly<Record<string, string>> = {
      ENOENT: 'there is no such file',
      EACCES: 'it may not be read',
      ENAMETOOLONG: 'the name is too long',
    };
    throw new UsageError(
      `cannot read ${shown.slice(0, 200)}: ${reasons[systemCode(error)] ?? 'reading failed'}; give the path of a plate job`,
    );
  }
}
