import type { PartDefinition } from '../part/contract.js';
import { stop } from '../part/finding.js';
import type { Kernel } from '../solid/types.js';
import type { Job, JobPart, TreeMember } from './job.js';
import type { LearntGrowth } from './logged-growth.js';
import type { PartOutcome } from './make-part.js';

/** Builds a tree of several kinds of pattern. */
export function makeTree(
  request: JobPart,
  _members: readonly TreeMember[],
  _find: (name: string) => PartDefinition,
  _job: Job,
  _kernel: Kernel,
  _learntGrowth?: LearntGrowth,
): PartOutcome {
  return { ok: false, name: request.name, findings: [stop('mixed-tree', 'Not yet.', 'Wait.')] };
}
