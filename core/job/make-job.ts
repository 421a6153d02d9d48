import type { Crew } from '../freeze/kernel/crew.js';
import type { PartDefinition } from '../part/contract.js';
import { type Finding, stop } from '../part/finding.js';
import type { Kernel } from '../solid/types.js';
import { type FrozenPaper, freezeJob } from './freeze-job.js';
import type { Job } from './job.js';
import { present } from './job-reader.js';
import type { RefusedPart } from './left-out.js';
import type { LearntGrowth } from './logged-growth.js';
import { type MadePart, makePart } from './make-part.js';
import { meshKeyOf } from './mesh-files-of.js';
import type { StartTimer } from './nest-plates.js';
import { freezeFieldFile, freezeFiles } from './output-names.js';
import { type PlannedJob, planJob, type RefusedJob } from './plan-job.js';
import { forgetful, type Remember } from './remember.js';
import type { Summary } from './summary.js';

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

export interface JobResult {
  readonly summary: Summary;
  /** By name. */
  readonly parts: ReadonlyMap<string, MadePart>;
  /** How they fill and freeze, by name; none where the job wants none. */
  readonly frozen: ReadonlyMap<string, FrozenPaper>;
  /** Parts of the job that are left out, where it was to keep going. */
  readonly notMade: readonly RefusedPart[];
}

export interface MakeContext {
  readonly kernel: Kernel;
  readonly findPart: (name: string) => PartDefinition | undefined;
  readonly onProgress?: (progress: Progress) => void;
  /** What the shop measured on earlier pours. */
  readonly learntGrowth?: LearntGrowth;
  /** A clock, for plates that are improved as long as the job gives time; left out: none. */
  readonly startTimer?: StartTimer;
  /** Further threads for what takes long; left out: none. */
  readonly crew?: Crew;
  /** What was made earlier of the same; left out: all is made anew. */
  readonly remember?: Remember;
  /** Whether the papers of filling and freezing hold what colours a casting in space. */
  readonly volumes?: boolean;
  /** Whether parts that cannot be made are left out, and the rest made as if it were the whole job. */
  readonly keepGoing?: boolean | undefined;
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
  const { kernel, learntGrowth, keepGoing = false, remember = forgetful } = context;
  const refused: RefusedPart[] = [];
  const parts = new Map<string, MadePart>();
  const of = job.parts.length;
  // What the papers alone show does not change what is made.
  const {
    parts: _all,
    name: _name,
    title,
    notes,
    units,
    degrees,
    prices,
    freeze,
    nesting: _nesting,
    meshFiles: _meshes,
    ...common
  } = job;
  const meshes = meshKeyOf(job);
  for (const [done, request] of job.parts.entries()) {
    yield { stage: request.name, done, of };
    const definition = context.findPart(request.part);
    const outcome = definition
      ? remember(['make', request, common, meshes], () =>
          makePart(request, definition, job, kernel, learntGrowth),
        )
      : { ok: false as const, name: request.name, findings: [unknownPart(request.part)] };
    if (outcome.ok) parts.set(request.name, outcome.made);
    else refused.push({ name: outcome.name, findings: outcome.findings });
  }
  if (refused.length > 0 && !keepGoing) return { refused };
  yield { stage: 'plates and papers', done: of, of };
  const startTimer = isPlannedAgain(job) ? undefined : context.startTimer;
  const planned = planJob(job, parts, { learntGrowth, keepGoing, notMade: refused, startTimer });
  return 'refused' in planned ? planned : yield* freezeAll(job, planned, context);
}

/** Whether the time for plates is kept until the gatings have been tried, as their patterns may change. */
const isPlannedAgain = ({ nesting, freeze, improve }: Job): boolean =>
  improve === true && freeze !== 'off' && (nesting?.seconds ?? 0) > 0;

const unknownPart = (name: string): Finding =>
  stop('unknown-part', `There is no part called ${name}.`, 'See `patternwright list parts`.', 'part');

/** The planned job with how its moulds fill and freeze; planned anew where other gatings served better. */
function* freezeAll(
  job: Job,
  planned: PlannedJob<MadePart>,
  context: MakeContext,
): Generator<Step, JobResult | RefusedJob> {
  const { kernel, findPart, learntGrowth, crew, onProgress, volumes, remember = forgetful } = context;
  const { keepGoing, startTimer } = context;
  const { parts, notMade } = planned;
  const of = job.parts.length;
  const freezing = freezeJob({
    job,
    parts,
    told: planned.summary.parts,
    pour: planned.summary.pour,
    remake: (request) =>
      makePart(request, findPart(request.part) as PartDefinition, job, kernel, learntGrowth),
    ...present({ crew, volumes }),
    remember,
    onProgress: (name, done, share) =>
      onProgress?.({ stage: `${name}: freezing, ${Math.round(100 * share)} %`, done, of }),
  });
  let asPlanned: JobResult | undefined = { ...planned, frozen: new Map() };
  let step = freezing.next();
  while (!step.done) {
    const { name, done } = step.value;
    yield { stage: `${name}: freezing`, done, of, ...present({ planned: asPlanned }) };
    asPlanned = undefined;
    step = freezing.next();
  }
  const { papers, improved } = step.value;
  const made = new Map([...parts].map(([name, part]) => [name, improved.get(name) ?? part]));
  const isSettled = improved.size === 0 && !isPlannedAgain(job);
  const again = isSettled ? planned : planJob(job, made, { learntGrowth, keepGoing, notMade, startTimer });
  if ('refused' in again) return again;
  const told = again.summary.parts.map((p) => {
    const paper = papers.get(p.name);
    if (!paper) return p;
    const files = {
      ...p.files,
      ...freezeFiles(p.name),
      ...(paper.fields ? { freezeFields: freezeFieldFile(p.name) } : {}),
    };
    return { ...p, freeze: paper.plan, files };
  });
  return { ...again, summary: { ...again.summary, parts: told }, frozen: papers };
}
