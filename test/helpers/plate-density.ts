import type { Job } from '../../core/job/job.js';
import { makePart } from '../../core/job/make-part.js';
import { parseJob } from '../../core/job/read-job.js';
import { mouldsFor } from '../../core/job/tree.js';
import type { PartDefinition } from '../../core/part/contract.js';
import { leastBeds } from '../../core/plate/bound.js';
import type { NestItem } from '../../core/plate/contract.js';
import { nest } from '../../core/plate/nest.js';
import { packRectangles } from '../../core/plate/rectangles.js';
import { roomOf } from '../../core/plate/room.js';
import { type Shape, sortShapes } from '../../core/plate/shapes.js';
import type { Kernel } from '../../core/solid/types.js';
import { findPart } from '../../generators/index.js';
import { jobContext } from '../../generators/job-context.js';

/** How full plates get. */
export interface Density {
  readonly patterns: number;
  /** Beds for the rectangles round the patterns, straight or turned a quarter, the best of several orders and rules. */
  readonly rectangles: number;
  /** No fewer beds can hold them. */
  readonly least: number;
  /** Beds for their silhouettes. */
  readonly plates: number;
  /** Share of each of these that is covered. */
  readonly filled: readonly number[];
  readonly rounds: number;
}

/** The gated patterns of a job as they are nested. */
export function itemsOf(
  text: string,
  kernel: Kernel,
): { readonly job: Job; readonly items: readonly NestItem[] } {
  const reading = parseJob(text, jobContext('job.yaml'));
  if (!reading.ok) throw new Error(reading.problems.map((p) => p.message).join('\n'));
  const { job } = reading;
  const items = job.parts.flatMap((request) => {
    const outcome = makePart(request, findPart(request.part) as PartDefinition, job, kernel);
    if (!outcome.ok) throw new Error(`${request.name}: ${outcome.findings.map((f) => f.message).join(' ')}`);
    const { silhouette, footprint, gatedBox } = outcome.made;
    return Array.from({ length: mouldsFor(request) }, (_, i) => ({
      name: request.name,
      copy: i + 1,
      outline: silhouette,
      foot: footprint,
      height: gatedBox.max[2] - gatedBox.min[2],
    }));
  });
  return { job, items };
}

/** Nests a job's patterns by their silhouettes and by the rectangles round them, on the same bed. */
export function measureDensity(text: string, kernel: Kernel): Density {
  const { job, items } = itemsOf(text, kernel);
  const { shapes, of } = sortShapes(items);
  const all = items.map((_, i) => i);
  const rectangles = packRectangles(all, (i) => shapes[of[i] as number] as Shape, roomOf(job.bed));
  if (rectangles === null) throw new Error('the rectangles do not fit the bed');
  const { plates, densities, rounds } = nest(items, job.bed);
  return {
    patterns: items.length,
    rectangles: rectangles.length,
    least: leastBeds(shapes, of, roomOf(job.bed)),
    plates: plates.length,
    filled: densities,
    rounds,
  };
}
