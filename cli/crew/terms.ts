/** What all the work on a job shares: plain data that goes to every thread once. */
import type { Job, JobPart } from '../../core/job/job.js';
import { isPartFile } from '../../core/job/job-context.js';
import type { LearntGrowth } from '../../core/job/logged-growth.js';
import type { RatioEstimate } from '../../core/log/ratio-estimate.js';
import type { MeshFile } from '../../core/mesh/mesh-file.js';

export interface Terms {
  /** Without its parts; its mesh files lie in memory that threads share. */
  readonly job: Job;
  /** What the shop measured, by alloy, in the job's investment. */
  readonly learnt: ReadonlyMap<string, RatioEstimate>;
}

export function termsOf(job: Job, learntGrowth: LearntGrowth | undefined): Terms {
  const alloys = new Set(job.parts.map((p) => p.alloy));
  const learnt = [...alloys].flatMap((alloy): (readonly [string, RatioEstimate])[] => {
    const estimate = learntGrowth?.(alloy, job.investment);
    return estimate === undefined ? [] : [[alloy, estimate]];
  });
  return { job: { ...job, parts: [] }, learnt: new Map(learnt) };
}

export const learntFrom =
  ({ job, learnt }: Terms): LearntGrowth =>
  (alloy, investment) =>
    investment === job.investment ? learnt.get(alloy) : undefined;

/** The same terms with their meshes where every thread can read them without a copy of its own. */
export function shareMeshes(terms: Terms): Terms {
  const { meshFiles } = terms.job;
  if (meshFiles === undefined || meshFiles.size === 0) return terms;
  const shared = [...meshFiles].map(([name, file]) => [name, sharedFile(file)] as const);
  return { ...terms, job: { ...terms.job, meshFiles: new Map(shared) } };
}

function sharedFile(file: MeshFile): MeshFile {
  const { positions, triangles } = file.mesh;
  const mesh = {
    positions: new Float64Array(new SharedArrayBuffer(positions.byteLength)),
    triangles: new Uint32Array(new SharedArrayBuffer(triangles.byteLength)),
  };
  mesh.positions.set(positions);
  mesh.triangles.set(triangles);
  return { ...file, mesh };
}

/** Whether a request is for somebody's own code, which runs where it was loaded and nowhere else. */
export const isOwnCode = ({ part, tree }: JobPart): boolean =>
  (tree ?? [{ part }]).some((member) => isPartFile(member.part));
