import { isPartFile } from '../../core/job/job-context.js';
import { showText } from '../../core/part/input-problem.js';
import { suggest } from '../../core/part/suggest.js';
import { wrap } from '../../core/report/wrap.js';
import { allParts, partNames } from '../../generators/index.js';
import { jobContext } from '../../generators/job-context.js';
import { makeOutputOptions } from '../common-options.js';
import { Failure, type Problem, problemInFile, problemInOption, usageFailure } from '../failure.js';
import { formatHelpPage, optionEntries } from '../help-page.js';
import type { ExitCode, Io } from '../io.js';
import { jobFromOptions, makeOptions, optionAt } from '../make-options.js';
import { parseOptions, wantsHelp } from '../parse-options.js';
import { findAmong, loadPartFiles, noPartFiles, partFileFailure, partFileNote } from '../part-files.js';
import { readThreads } from '../threads-option.js';

/** `make <part> [--parameter value ...]` */
export async function run(argv: readonly string[], io: Io): Promise<ExitCode> {
  const [word, ...rest] = argv;
  if (word === undefined || word === '--help' || word === '-h') {
    (word === undefined ? io.err : io.out)(listOfParts());
    return word === undefined ? 2 : 0;
  }
  const files = isPartFile(word) ? await loadPartFiles([word], io.cwd, io) : noPartFiles;
  const find = findAmong(files);
  const part = find(word);
  if (!part) throw isPartFile(word) ? partFileFailure(word, files) : noSuchPart(word);
  const options = makeOptions(part, wantsInches(rest) ? 'in' : 'mm');
  const rows = [...options, ...makeOutputOptions];
  if (wantsHelp(rest)) {
    const usage = `patternwright make ${showText(word)} [options]`;
    const closing = [...notes(wantsInches(rest)), ...(isPartFile(word) ? [partFileNote] : [])];
    io.out(formatHelpPage(usage, part.summary, optionEntries(rows), closing));
    return 0;
  }
  const { positional, values } = await parseOptions(`make ${showText(word)}`, rest, rows);
  const threads = readThreads(values.threads);
  if (positional[0] !== undefined)
    throw usageFailure(
      'unreadable',
      `"${showText(positional[0])}" is not understood`,
      'options start with --, and a value with a space is put in quotes',
    );
  const { parseJob } = await import('../../core/job/read-job.js');
  const { findShop } = await import('../find-shop.js');
  const { findLog } = await import('../log/find-log.js');
  const shop = await findShop({
    cwd: io.cwd,
    folder: io.cwd,
    option: typeof values.shop === 'string' ? values.shop : undefined,
  });
  const { openMesh, readWithMeshFiles } = await import('../mesh-files.js');
  const source = JSON.stringify(jobFromOptions(part, word, options, values));
  const context = { ...jobContext('options', shop), partFiles: files };
  const reading = await readWithMeshFiles(
    (meshFaults) => parseJob(source, { ...context, ...(meshFaults && { meshFaults }) }),
    (name) => openMesh(io.cwd, name),
    find,
  );
  if (!reading.ok) {
    const problems = reading.problems.map((p) =>
      p.file === shop?.fileName ? problemInFile(p) : problemInOption(p, optionAt(options, p.path)),
    );
    throw new Failure(2, distinct(problems));
  }
  const { findCache } = await import('../store/find-cache.js');
  const { runJob } = await import('../run-job.js');
  return runJob(
    reading.job,
    {
      out: String(values.out ?? `out/${reading.job.name}`),
      json: values.json === true,
      quiet: values.quiet === true,
      threads,
      cache: findCache({ cwd: io.cwd, option: typeof values.cache === 'string' ? values.cache : undefined }),
      strict: values.strict === true,
      learntGrowth: await findLog(io, io.cwd),
      findPart: find,
    },
    io,
  );
}

function noSuchPart(word: string): Failure {
  const known = `parts are ${partNames.join(', ')}`;
  if (word.startsWith('-'))
    return usageFailure('no-part', `the part comes first: make <part> ${showText(word)}`, known);
  if (/\.(stl|3mf|obj|ply)$/i.test(word))
    return usageFailure(
      'no-part',
      `${showText(word)} is a mesh, no part`,
      `write make mesh --file ${showText(word)}`,
    );
  const near = suggest(word, partNames);
  return usageFailure(
    'unknown-part',
    `there is no part called "${showText(word)}"`,
    near === undefined ? known : `did you mean ${near}?`,
  );
}

/** One name stands in two places of the job. */
const distinct = (problems: readonly Problem[]): readonly Problem[] => [
  ...new Map(problems.map((p) => [p.text, p])).values(),
];

const wantsInches = (argv: readonly string[]): boolean =>
  argv.some((a, i) => a === '--units=in' || (a === '--units' && argv[i + 1] === 'in'));

const notes = (inches: boolean): readonly string[] => [
  `Lengths are written 38mm, 1.5in, 3/8in or 1-1/2in; bare numbers are ${inches ? 'inches' : 'mm, or inches with --units in'}. Angles are written 25deg or 30°15'; bare numbers are degrees. Options may also be spelled as in a plate job: --faceWidth for --face-width.`,
];

function listOfParts(): string {
  const entries = allParts.map((p) => wrap(p.summary, `  ${p.name}`.padEnd(24), ' '.repeat(24)));
  return [
    'patternwright make <part> [options]',
    '',
    'Makes one part: pattern, gating, print plate and traveller.',
    '',
    'Parts:',
    ...entries,
    '',
    'patternwright make <part> --help lists the parameters of a part.',
    'A part of your own is a file: patternwright make ./my-part.mjs makes it,',
    'patternwright starter my-part.mjs writes one to start from.',
    '',
  ].join('\n');
}
