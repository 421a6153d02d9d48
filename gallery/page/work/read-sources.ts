/** From what the reader opened to a job, or to what is wrong with it. */
import type { Job } from '../../../core/job/job.js';
import type { JobProblem } from '../../../core/job/job-problem.js';
import { parseJob } from '../../../core/job/read-job.js';
import { jobContext } from '../../../generators/job-context.js';
import type { Problem } from '../job/problem.js';
import type { Sources } from './protocol.js';

export type SourcesReading =
  | { readonly ok: true; readonly job: Job }
  | { readonly ok: false; readonly problems: readonly Problem[] };

/** As the job is called in messages, whatever file it came from. */
const jobFileName = 'job';

/** Never throws; what is wrong is told with its place. */
export function readSources({ job, shop }: Sources): SourcesReading {
  const profile = shop && { fileName: shop.fileName, source: shop.text };
  const reading = parseJob(job, jobContext(jobFileName, profile));
  return reading.ok ? reading : { ok: false, problems: reading.problems.map(asProblem) };
}

const asProblem = ({ code, path, message, remedy, file, line, column }: JobProblem): Problem => ({
  code,
  path,
  message,
  remedy,
  ...(file === jobFileName ? {} : { file }),
  line,
  column,
});
