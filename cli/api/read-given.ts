/** A job read with what a program gives beside its text. */
import type { MeshFault } from '../../core/job/job-context.js';
import type { JobProblem } from '../../core/job/job-problem.js';
import { type JobResult, makeJob, type RefusedJob } from '../../core/job/make-job.js';
import { parseJob } from '../../core/job/read-job.js';
import { growthFromLog } from '../../core/log/growth.js';
import type { PourRecord } from '../../core/log/record.js';
import type { MeshFile } from '../../core/mesh/mesh-file.js';
import type { PartDefinition } from '../../core/part/contract.js';
import { loadKernel } from '../../core/solid/index.js';
import { findPart, partNames } from '../../generators/index.js';
import { jobContext } from '../../generators/job-context.js';
import { readWithMeshFiles } from '../mesh-files.js';
import { startTimer } from '../start-timer.js';

export interface Given {
  readonly parts?: readonly PartDefinition[] | undefined;
  readonly pourLog?: readonly PourRecord[] | undefined;
  readonly meshFiles?: ReadonlyMap<string, MeshFile> | undefined;
  readonly keepGoing?: boolean | undefined;
}

export async function readGiven(
  source: string,
  fileName: string,
  { parts: own = [], pourLog = [], meshFiles, keepGoing }: Given,
): Promise<
  { readonly problems: readonly JobProblem[] } | { readonly make: () => Promise<JobResult | RefusedJob> }
> {
  const find = (name: string): PartDefinition | undefined =>
    own.find((p) => p.name === name) ?? findPart(name);
  const context = {
    ...jobContext(fileName),
    knownParts: find,
    partNames: [...new Set([...own.map((p) => p.name), ...partNames])],
  };
  const reading = await readWithMeshFiles(
    (meshFaults) => parseJob(source, { ...context, ...(meshFaults && { meshFaults }) }),
    async (name) => givenMesh(meshFiles?.get(name)),
    find,
  );
  return reading.ok
    ? {
        make: async () =>
          makeJob(reading.job, {
            kernel: await loadKernel(),
            findPart: find,
            keepGoing,
            startTimer,
            learntGrowth: (alloy, investment) => growthFromLog(pourLog, alloy, investment),
          }),
      }
    : { problems: reading.problems };
}

/** Callers without types may give anything, such as the file's bytes. */
function givenMesh(file: unknown): MeshFile | MeshFault {
  if (file !== null && typeof file === 'object' && 'mesh' in file) return file as MeshFile;
  return {
    message: file === undefined ? 'is not among the meshFiles' : 'is among the meshFiles, but not as a mesh',
    remedy: 'read it with readMeshFile, and give it in meshFiles by this name',
  };
}
