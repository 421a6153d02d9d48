/** From what the reader opened to a job, or to what is wrong with it. */
import type { Job } from '../../../core/job/job.js';
import type { MeshFault } from '../../../core/job/job-context.js';
import type { JobProblem } from '../../../core/job/job-problem.js';
import { meshFilesOf } from '../../../core/job/mesh-files-of.js';
import { parseJob } from '../../../core/job/read-job.js';
import { showText } from '../../../core/part/input-problem.js';
import { findPart } from '../../../generators/index.js';
import { jobContext } from '../../../generators/job-context.js';
import type { Problem } from '../job/problem.js';
import type { Sources } from './protocol.js';

export type SourcesReading =
  | { readonly ok: true; readonly job: Job }
  | { readonly ok: false; readonly problems: readonly Problem[] };

/** As the job is called in messages, whatever file it came from. */
const jobFileName = 'job';

/**
 * Never throws; what is wrong is told with its place, mesh files that are not open among it. What they hold is not in
 * the job yet.
 * @param faults of mesh files, once somebody has looked into them
 */
export function readSources(
  { job, shop, meshes = [] }: Sources,
  faults?: ReadonlyMap<string, MeshFault>,
): SourcesReading {
  const profile = shop && { fileName: shop.fileName, source: shop.text };
  const context = jobContext(jobFileName, profile);
  const reading = parseJob(job, faults ? { ...context, meshFaults: faults } : context);
  if (!reading.ok) return { ok: false, problems: reading.problems.map(asProblem) };
  if (faults) return reading;
  const closed = meshFilesOf(reading.job, findPart).filter(
    (name) => !meshes.some((ref) => ref.name === name),
  );
  return closed.length === 0
    ? reading
    : readSources({ job, ...(shop ? { shop } : {}) }, new Map(closed.map((name) => [name, notOpen(name)])));
}

const notOpen = (name: string): MeshFault => ({
  message: `is ${showText(name)}, which is not open here`,
  remedy: 'open the file: jobs and links hold its name alone',
});

const asProblem = ({ code, path, message, remedy, file, line, column }: JobProblem): Problem => ({
  code,
  path,
  message,
  remedy,
  ...(file === jobFileName ? {} : { file }),
  line,
  column,
});
