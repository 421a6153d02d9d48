/** A whole job, made by a program. */
import type { JobResult, RefusedJob } from '../../core/job/make-job.js';
import type { PourRecord } from '../../core/log/record.js';
import type { MeshFile } from '../../core/mesh/mesh-file.js';
import type { PartDefinition } from '../../core/part/contract.js';
import { JobError } from './job-error.js';
import { readGiven } from './read-given.js';

/**
 * Makes a whole plate job from its YAML text.
 * @param options.parts part definitions of your own that the job may name
 * @param options.pourLog the shop's records, for `growth: log`
 * @param options.meshFiles what the mesh files hold that the job names, by those names
 * @param options.keepGoing leaves out parts that cannot be made, which `notMade` of the result then tells, and makes the
 * rest; left out, one such part refuses the job
 * @throws JobError when the job cannot be read
 */
export async function plate(
  yaml: string,
  options: {
    readonly fileName?: string;
    readonly parts?: readonly PartDefinition[];
    readonly pourLog?: readonly PourRecord[];
    readonly meshFiles?: ReadonlyMap<string, MeshFile>;
    readonly keepGoing?: boolean;
  } = {},
): Promise<JobResult | RefusedJob> {
  const reading = await readGiven(yaml, options.fileName ?? 'job', options);
  if ('problems' in reading) throw new JobError(reading.problems);
  return reading.make();
}
