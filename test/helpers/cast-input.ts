/** A job of one part, made. */

import type { PourPlan } from '../../core/foundry/plans.js';
import type { Job } from '../../core/job/job.js';
import { type JobResult, makeJob, type Progress } from '../../core/job/make-job.js';
import type { MadePart } from '../../core/job/make-part.js';
import { parseJob } from '../../core/job/read-job.js';
import type { PartSummary } from '../../core/job/summary.js';
import { loadKernel } from '../../core/solid/index.js';
import { findPart } from '../../generators/index.js';
import { jobContext } from '../../generators/job-context.js';

export interface OneJob {
  readonly job: Job;
  readonly result: JobResult;
  readonly made: MadePart;
  readonly told: PartSummary;
  readonly pour: PourPlan;
}

/** @param job keys of the job; `more`: keys of its one part, named as the part is */
export async function makeOne(
  part: string,
  parameters: Readonly<Record<string, unknown>>,
  job: Readonly<Record<string, unknown>> = {},
  more: Readonly<Record<string, unknown>> = {},
  onProgress?: (progress: Progress) => void,
): Promise<OneJob> {
  const source = { job: part, ...job, parts: [{ name: part, part, parameters, ...more }] };
  const reading = parseJob(JSON.stringify(source), jobContext('options'));
  if (!reading.ok) throw new Error(reading.problems.map((p) => p.message).join('\n'));
  const kernel = await loadKernel();
  const result = makeJob(reading.job, { kernel, findPart, ...(onProgress ? { onProgress } : {}) });
  if ('refused' in result) throw new Error(JSON.stringify(result.refused));
  const made = result.parts.get(part);
  const [told] = result.summary.parts;
  const [pour] = result.summary.pour;
  if (!made || !told || !pour) throw new Error('nothing made');
  return { job: reading.job, result, made, told, pour };
}
