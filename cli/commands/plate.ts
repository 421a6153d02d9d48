import { dirname, resolve } from 'node:path';
import { freezeLevels } from '../../core/freeze/plans.js';
import { showText } from '../../core/part/input-problem.js';
import { jobContext } from '../../generators/job-context.js';
import { plateOutputOptions } from '../common-options.js';
import { Failure, problemInFile, usageFailure } from '../failure.js';
import { formatHelpPage, optionEntries } from '../help-page.js';
import type { ExitCode, Io } from '../io.js';
import { jobEntries, jobExample } from '../job-help.js';
import { nestingRows, withNesting } from '../nesting-options.js';
import { parseOptions, wantsHelp } from '../parse-options.js';
import { findAmong, loadPartFiles } from '../part-files.js';
import { readSource } from '../read-source.js';
import { readThreads } from '../threads-option.js';

const usage = 'patternwright plate <job.yaml> [options]';
const summary = 'Makes every part of a plate job: patterns, gating, print plates and traveller';

const options = [...plateOutputOptions, ...nestingRows];

/** A few paths, fit for a terminal. */
const listed = (paths: readonly string[]): string =>
  [...paths.slice(0, 8).map(showText), ...(paths.length > 8 ? [`${paths.length - 8} more`] : [])].join(', ');

/** `plate <job.yaml>` */
export async function run(argv: readonly string[], io: Io): Promise<ExitCode> {
  if (wantsHelp(argv)) {
    const entries = [...optionEntries(options), ...jobEntries()];
    io.out(formatHelpPage(usage, summary, entries, [jobExample]));
    return 0;
  }
  const { positional, values } = await parseOptions('plate', argv, options);
  const threads = readThreads(values.threads);
  const [file, ...more] = positional;
  if (file === undefined || file === '')
    throw usageFailure('missing', 'plate needs a job file', `write ${usage}`);
  if (more[0] !== undefined)
    throw usageFailure('too-many', `"${showText(more[0])}" is one file too many`, 'plate takes one job');
  const { openSource, shopKeyOf } = await import('../../core/job/open-source.js');
  const { readJob } = await import('../../core/job/read-job.js');
  const { partFilesOf } = await import('../../core/job/read-parts.js');
  const opened = openSource(await readSource(io.cwd, file), file, 'job');
  const { findShop } = await import('../find-shop.js');
  const { findLog } = await import('../log/find-log.js');
  const shop = await findShop({
    cwd: io.cwd,
    job: shopKeyOf(opened),
    folder: dirname(resolve(io.cwd, file)),
    option: typeof values.shop === 'string' ? values.shop : undefined,
  });
  const { openMesh, readWithMeshFiles } = await import('../mesh-files.js');
  const folder = dirname(resolve(io.cwd, file));
  const paths = partFilesOf(opened);
  if (paths.length > 0 && values.quiet !== true)
    io.err(`Running part files, which are code: ${listed(paths)}.\n`);
  const partFiles = await loadPartFiles(paths, folder, io);
  const find = findAmong(partFiles);
  const context = { ...jobContext(file, shop), partFiles };
  const reading = await readWithMeshFiles(
    (meshFaults) => readJob(opened, { ...context, ...(meshFaults && { meshFaults }) }),
    (name) => openMesh(folder, name),
    find,
  );
  if (!reading.ok) throw new Failure(2, reading.problems.map(problemInFile));
  const job = withNesting(reading.job, values);
  const freeze = freezeLevels.find((level) => level === values.freeze);
  const { findCache } = await import('../store/find-cache.js');
  const { runJob } = await import('../run-job.js');
  const { partFilePlaces } = await import('../part-file/part-file-places.js');
  return runJob(
    {
      ...job,
      units: values.units === 'mm' || values.units === 'in' ? values.units : job.units,
      degrees: values.degrees === 'C' || values.degrees === 'F' ? values.degrees : job.degrees,
      ...(freeze === undefined ? {} : { freeze }),
      ...(values.improve === true ? { improve: true } : {}),
      ...(values['freeze-fields'] === true ? { freezeFields: true } : {}),
    },
    {
      out: String(values.out ?? `out/${job.name}`),
      json: values.json === true,
      quiet: values.quiet === true,
      threads,
      cache: findCache({ cwd: io.cwd, option: typeof values.cache === 'string' ? values.cache : undefined }),
      strict: values.strict === true,
      keepGoing: values['keep-going'] !== false,
      learntGrowth: await findLog(io, folder),
      findPart: find,
      ...(paths.length > 0 ? { partFiles: await partFilePlaces(folder, paths) } : {}),
    },
    io,
  );
}
