/** Makes one entry of a job, whatever it is: a pattern, copies of one on a tree, or a tree of several kinds. */
import type { PartDefinition } from '../part/contract.js';
import { type Finding, stop } from '../part/finding.js';
import type { Kernel } from '../solid/types.js';
import type { Job, JobPart } from './job.js';
import type { LearntGrowth } from './logged-growth.js';
import { makePart, type PartOutcome } from './make-part.js';
import { makeTree } from './make-tree.js';
import { notMade } from './part-outcome.js';

/** Everything that a request names must be found; what is not refuses it, as data. */
export function makeRequest(
  request: JobPart,
  findPart: (name: string) => PartDefinition | undefined,
  job: Job,
  kernel: Kernel,
  learntGrowth?: LearntGrowth,
): PartOutcome {
  const names = request.tree === undefined ? [request.part] : request.tree.map((member) => member.part);
  const missing = [...new Set(names)].filter((name) => findPart(name) === undefined);
  if (missing.length > 0) return notMade(request, missing.map(unknownPart));
  const find = (name: string): PartDefinition => findPart(name) as PartDefinition;
  return request.tree === undefined
    ? makePart(request, find(request.part), job, kernel, learntGrowth)
    : makeTree(request, request.tree, find, job, kernel, learntGrowth);
}

const unknownPart = (name: string): Finding =>
  stop('unknown-part', `There is no part called ${name}.`, 'See `patternwright list parts`.', 'part');
