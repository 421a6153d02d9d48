import type { Job } from '../../core/job/job.js';
import { type JobResult, makeJob, type RefusedJob } from '../../core/job/make-job.js';
import type { MadePart } from '../../core/job/make-part.js';
import { parseJob } from '../../core/job/read-job.js';
import type { PartSummary } from '../../core/job/summary.js';
import type { MeshFile } from '../../core/mesh/mesh-file.js';
import type { Finding } from '../../core/part/finding.js';
import type { Kernel } from '../../core/solid/types.js';
import { findPart } from '../../generators/index.js';
import { jobContext } from '../../generators/job-context.js';

/** What a job of one part comes to. */
export type Outcome =
  | { readonly ok: true; readonly made: MadePart; readonly told: PartSummary; readonly result: JobResult }
  | { readonly ok: false; readonly findings: readonly Finding[] };

/** Reads a job as it is written. */
export function jobOf(source: object): Job {
  const reading = parseJob(JSON.stringify(source), jobContext('job'));
  if (!reading.ok) throw new Error(JSON.stringify(reading.problems));
  return reading.job;
}

/** Makes a job's only part; `loadMeshBuilding` first where that is a mesh. */
export function makeOnly(job: Job, kernel: Kernel): Outcome {
  const result: JobResult | RefusedJob = makeJob(job, { kernel, findPart });
  if ('refused' in result) return { ok: false, findings: result.refused.flatMap((r) => r.findings) };
  const told = result.summary.parts[0]!;
  return { ok: true, made: result.parts.get(told.name)!, told, result };
}

/** Makes a part of a mesh; `job` and `part` hold what is set beside the part's own parameters. */
export function makeMesh(
  file: MeshFile,
  kernel: Kernel,
  parameters: object,
  { job = {}, part = {} }: { readonly job?: object; readonly part?: object } = {},
): Outcome {
  const read = jobOf({
    job: 'one',
    tolerance: '0.05mm',
    freeze: 'off',
    ...job,
    parts: [{ name: 'one', part: 'mesh', ...part, parameters: { file: 'x', ...parameters } }],
  });
  return makeOnly({ ...read, meshFiles: new Map([['x', file]]) }, kernel);
}

/** Words that only an accident puts before a person. */
export const accidents = /NaN|undefined|Infinity|\[object|null|Error\b|at Object| {2}/;
