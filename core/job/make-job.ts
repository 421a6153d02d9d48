import type { Crew } from '../freeze/kernel/crew.js';
import type { PartDefinition } from '../part/contract.js';
import type { Kernel } from '../solid/types.js';
import { type FrozenPaper, freezeMould, mouldAtPour } from './freeze-mould.js';
import type { Job, JobPart } from './job.js';
import {
  type Froze,
  jobStages,
  packOrdered,
  planOrdered,
  type StagedJob,
  type StageOptions,
  settleOrdered,
} from './job-stages.js';
import type { MadePart } from './make-part.js';
import { makeRequest } from './make-request.js';
import { meshKeyOf } from './mesh-files-of.js';
import type { Made } from './part-outcome.js';
import { madeFor, shapeOf, sharedInFreezing, sharedOf } from './part-shape.js';
import type { PlannedJob, RefusedJob } from './plan-job.js';
import { present } from './present.js';
import { forgetful, type Remember } from './remember.js';

export type { RefusedJob } from './plan-job.js';

/** A stage of the work, for a progress line. */
export interface Progress {
  readonly stage: string;
  readonly done: number;
  readonly of: number;
}

/** A stage that is about to begin; once, the job as it is planned before its moulds are frozen. */
export interface Step extends Progress {
  readonly planned?: JobResult;
}

/** The summary, the parts by name, how they fill and freeze, and the parts that are left out. */
export type JobResult = StagedJob<MadePart, FrozenPaper>;

export interface MakeContext extends StageOptions {
  readonly kernel: Kernel;
  readonly findPart: (name: string) => PartDefinition | undefined;
  readonly onProgress?: (progress: Progress) => void;
  /** Further threads for what takes long; left out: none. */
  readonly crew?: Crew;
  /** What was made earlier of the same; left out: all is made anew. */
  readonly remember?: Remember;
  /** Whether the papers of filling and freezing hold what colours a casting in space. */
  readonly volumes?: boolean;
}

/**
 * Takes a whole job through the states and works out what the bench needs. Every part is tried, so that all that
 * is wrong is told at once; one `stop` refuses the job, or its part where the job is to keep going.
 */
export function makeJob(job: Job, context: MakeContext): JobResult | RefusedJob {
  const steps = makeJobInSteps(job, context);
  for (;;) {
    const step = steps.next();
    if (step.done) return step.value;
    context.onProgress?.(step.value);
  }
}

/** The same, stopping before each stage, so that the caller may do other things in between or give it up. */
export function* makeJobInSteps(job: Job, context: MakeContext): Generator<Step, JobResult | RefusedJob> {
  const stages = jobStages<MadePart, FrozenPaper>(job, context);
  const of = job.parts.length;
  let stage = stages.next();
  while (!stage.done) {
    const { value } = stage;
    if (value.kind === 'make') stage = stages.next(yield* makeEach(value.requests, job, context));
    else if (value.kind === 'freeze') stage = stages.next(yield* freezeEach(value.planned, job, context));
    else if (value.kind === 'pack') stage = stages.next(packOrdered(value.order));
    else if (value.kind === 'settle') stage = stages.next(settleOrdered(value.order));
    else {
      yield { stage: 'plates and papers', done: of, of };
      stage = stages.next(planOrdered(value.order, context));
    }
  }
  return stage.value;
}

function* makeEach(
  requests: readonly JobPart[],
  job: Job,
  { kernel, findPart, learntGrowth, remember = forgetful }: MakeContext,
): Generator<Step, readonly Made<MadePart>[]> {
  const [shared, meshes] = [sharedOf(job), meshKeyOf(job)];
  const of = requests.length;
  const outcomes: Made<MadePart>[] = [];
  for (const [done, request] of requests.entries()) {
    yield { stage: request.name, done, of };
    const outcome = remember(['make', shapeOf(request), shared, meshes], () =>
      makeRequest(request, findPart, job, kernel, learntGrowth),
    );
    outcomes.push(outcome.ok ? { ok: true, made: madeFor(outcome.made, request) } : outcome);
  }
  return outcomes;
}

/** How each mould fills and freezes; the first stop has the job as it is planned. */
function* freezeEach(
  planned: PlannedJob<MadePart>,
  job: Job,
  { kernel, findPart, learntGrowth, crew, onProgress, volumes, remember = forgetful }: MakeContext,
): Generator<Step, readonly Froze<MadePart, FrozenPaper>[]> {
  const { parts, pour } = planned.summary;
  const [shared, meshes] = [sharedInFreezing(job), meshKeyOf(job)];
  const remake = (request: JobPart) => makeRequest(request, findPart, job, kernel, learntGrowth);
  const of = parts.length;
  const froze: Froze<MadePart, FrozenPaper>[] = [];
  for (const [done, told] of parts.entries()) {
    const { name } = told;
    const asPlanned = done === 0 ? { planned: { ...planned, frozen: new Map() } } : {};
    yield { stage: `${name}: freezing`, done, of, ...asPlanned };
    const made = planned.parts.get(name) as MadePart;
    const at = mouldAtPour(told, pour);
    const onShare = (share: number): void =>
      onProgress?.({ stage: `${name}: freezing, ${Math.round(100 * share)} %`, done, of });
    const from = ['freeze', shapeOf(made.request), made.growth, at, shared, meshes, volumes === true];
    const one = remember(from, () => freezeMould(made, at, { job, remake, crew, volumes, onShare }));
    froze.push(
      one && { paper: one.paper, ...(one.regated && { improved: regatedFor(one.regated, made.request) }) },
    );
  }
  return froze;
}

/** A part gated anew as another request of the same shape has it. */
const regatedFor = (made: MadePart, { name, quantity, entry }: JobPart): MadePart => {
  const { name: _name, quantity: _quantity, entry: _entry, ...shape } = made.request;
  return madeFor(made, { ...shape, name, quantity, ...present({ entry }) });
};
