/** A quick look at one state of a part, coarser than what is made. */
import type { PartDefinition } from '../part/contract.js';
import type { Finding } from '../part/finding.js';
import { noStock } from '../part/stock.js';
import type { Kernel, Mesh } from '../solid/types.js';
import type { Job, JobPart } from './job.js';
import type { LearntGrowth } from './logged-growth.js';
import { type MeshState, makePart } from './make-part.js';
import { makeRequest } from './make-request.js';
import { orRefusal } from './or-refusal.js';
import { buildState, buildStates, toleranceOf } from './part-states.js';

/** Greatest chord deviation of a sketch, mm: a third of a pixel of a 60 mm part that fills a screen. */
export const sketchTolerance = 0.1;

/** What a state shows: the casting comes with the part in it, the gated pattern with its gating by itself. */
export interface Sketch {
  readonly meshes: Readonly<Partial<Record<MeshState, Mesh>>>;
  readonly gating?: Mesh;
}

export type SketchOutcome =
  | { readonly ok: true; readonly sketch: Sketch }
  | { readonly ok: false; readonly findings: readonly Finding[] };

/**
 * Makes no more of the part than the state shows, to `tolerance` or the job's own where that is coarser.
 * @returns meshes that are for looking at alone, or the findings that refuse the part
 */
export function sketchPart(
  request: JobPart,
  definition: PartDefinition,
  job: Job,
  kernel: Kernel,
  state: MeshState,
  learntGrowth?: LearntGrowth,
): SketchOutcome {
  const coarse = { ...job, tolerance: Math.max(sketchTolerance, toleranceOf(definition, job)) };
  if (state === 'gated') {
    const outcome = makePart(request, definition, coarse, kernel, learntGrowth);
    if (!outcome.ok) return outcome;
    const { standing, gatingMesh } = outcome.made;
    return { ok: true, sketch: { meshes: { pattern: standing }, gating: gatingMesh } };
  }
  const outcome = orRefusal(() =>
    kernel.scope((): SketchOutcome => {
      if (state === 'part') {
        const { solid, findings } = buildState(request, definition, noStock, kernel, job, coarse.tolerance);
        return solid === null
          ? { ok: false, findings }
          : { ok: true, sketch: { meshes: { part: solid.mesh() } } };
      }
      const built = buildStates(request, definition, coarse, kernel, learntGrowth);
      if (!built.ok) return built;
      const { partMesh, castingMesh, patternMesh } = built.states;
      const meshes =
        state === 'pattern' ? { pattern: patternMesh } : { part: partMesh, casting: castingMesh };
      return { ok: true, sketch: { meshes } };
    }),
  );
  return 'refusal' in outcome ? { ok: false, findings: [outcome.refusal] } : outcome;
}

/** The same of a tree of several kinds: all its patterns as they stand. */
export function sketchTree(
  request: JobPart,
  findPart: (name: string) => PartDefinition | undefined,
  job: Job,
  kernel: Kernel,
  state: MeshState,
  learntGrowth?: LearntGrowth,
): SketchOutcome {
  const coarse = { ...job, tolerance: Math.max(sketchTolerance, job.tolerance ?? 0) };
  const outcome = makeRequest(request, findPart, coarse, kernel, learntGrowth);
  if (!outcome.ok) return outcome;
  const { meshes, standing, gatingMesh } = outcome.made;
  if (state === 'gated') return { ok: true, sketch: { meshes: { pattern: standing }, gating: gatingMesh } };
  const { part, casting, pattern } = meshes;
  const shown = { part: { part }, casting: { part, casting }, pattern: { pattern } };
  return { ok: true, sketch: { meshes: shown[state] } };
}
