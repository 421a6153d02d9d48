/** The order of the work on a job, whoever does it: in one thread or in many. */
import type { FreezePlan } from '../freeze/plans.js';
import type { Finding } from '../part/finding.js';
import type { Asked, Job, JobPart } from './job.js';
import { leftOut, type RefusedPart } from './left-out.js';
import type { LearntGrowth } from './logged-growth.js';
import type { PartRecord } from './make-part.js';
import type { StartTimer } from './nest-plates.js';
import { freezeFieldFile, freezeFiles } from './output-names.js';
import { type PackedJob, packFlasks, settlePacking } from './pack-flasks.js';
import type { Made } from './part-outcome.js';
import { madeFor } from './part-shape.js';
import { type PlannedJob, planJob, type RefusedJob } from './plan-job.js';
import type { Summary } from './summary.js';

/** What the summary tells of a mould that was frozen. */
export interface FrozenRecord {
  readonly plan: FreezePlan;
  /** There where what was worked out of every cell is written. */
  readonly fields?: unknown;
}

/**
 * What became of a mould: how it freezes, and its part where another gating served better; a fault of the program that
 * worked it out; undefined: not worked out.
 */
export type Froze<P extends Asked, F extends FrozenRecord> =
  | { readonly paper: F; readonly improved?: P }
  | { readonly fault: Finding }
  | undefined;

/** What is to be done next; `next` takes the answer. */
export type Stage<P extends Asked> =
  /** Answer: `Made` of each request, in order. */
  | { readonly kind: 'make'; readonly requests: readonly JobPart[] }
  /** Answer: what `packOrdered` gives. */
  | { readonly kind: 'pack'; readonly order: PackOrder<P> }
  /** Answer: what `settleOrdered` gives. */
  | { readonly kind: 'settle'; readonly order: SettleOrder<P> }
  /** Answer: what `planOrdered` gives. */
  | { readonly kind: 'plan'; readonly order: PlanOrder<P> }
  /** Answer: `Froze` of each part of the summary, in order. */
  | { readonly kind: 'freeze'; readonly planned: PlannedJob<P> };

/** What trees are worked out from: a job, and what could be made of it. */
export interface PackOrder<P extends Asked> {
  readonly job: Job;
  readonly parts: ReadonlyMap<string, P>;
}

export const packOrdered = <P extends PartRecord>({ job, parts }: PackOrder<P>): readonly JobPart[] =>
  packFlasks(job, parts);

/** The same with the trees that could be made, by name. */
export interface SettleOrder<P extends Asked> extends PackOrder<P> {
  readonly trees: ReadonlyMap<string, P>;
}

export const settleOrdered = ({ job, parts, trees }: SettleOrder<PartRecord>): PackedJob =>
  settlePacking(job, parts, [...trees.values()]);

/** What plates and papers are worked out from. */
export interface PlanOrder<P extends Asked> {
  readonly job: Job;
  readonly parts: ReadonlyMap<string, P>;
  readonly notMade: readonly RefusedPart[];
  /** Whether plates are improved as long as the job gives time. */
  readonly isTimed: boolean;
}

export const planOrdered = <P extends PartRecord>(
  { job, parts, notMade, isTimed }: PlanOrder<P>,
  { learntGrowth, startTimer, keepGoing }: StageOptions,
): PlannedJob<P> | RefusedJob =>
  planJob(job, parts, { learntGrowth, keepGoing, notMade, ...(isTimed && { startTimer }) });

export interface StagedJob<P extends Asked, F extends FrozenRecord> extends PlannedJob<P> {
  /** By name; none where the job wants none. */
  readonly frozen: ReadonlyMap<string, F>;
}

export interface StageOptions {
  readonly learntGrowth?: LearntGrowth | undefined;
  /** A clock, for plates that are improved as long as the job gives time; left out: none. */
  readonly startTimer?: StartTimer | undefined;
  /** Whether parts that cannot be made are left out, and the rest made as if it were the whole job. */
  readonly keepGoing?: boolean | undefined;
}

/**
 * Takes a job from its requests to its summary. Every part is tried, so that all that is wrong is told at once; one
 * `stop` refuses the job, or its part where the job is to keep going.
 */
export function* jobStages<P extends Asked, F extends FrozenRecord>(
  given: Job,
  { keepGoing = false }: Pick<StageOptions, 'keepGoing'>,
): Generator<Stage<P>, StagedJob<P, F> | RefusedJob, unknown> {
  const parts = new Map<string, P>();
  const notMade: RefusedPart[] = [];
  const make = function* (requests: readonly JobPart[]): Generator<Stage<P>, void, unknown> {
    const outcomes = (yield { kind: 'make', requests }) as readonly Made<P>[];
    for (const [i, outcome] of outcomes.entries()) {
      const { name } = requests[i] as JobPart;
      if (outcome.ok) parts.set(name, outcome.made);
      else notMade.push({ name, findings: outcome.findings });
    }
  };
  yield* make(given.parts);
  const isRefused = notMade.length > 0 && !keepGoing;
  // What goes with a part that is left out does not stand on another tree.
  if (!isRefused) for (const { name } of leftOut(given, notMade)) parts.delete(name);
  const pack = function* (): Generator<Stage<P>, PackedJob, unknown> {
    const trees = (yield { kind: 'pack', order: { job: given, parts } }) as readonly JobPart[];
    const outcomes = trees.length === 0 ? [] : yield { kind: 'make', requests: trees };
    const hung = (outcomes as readonly Made<P>[]).flatMap((outcome) => (outcome.ok ? [outcome.made] : []));
    const made = new Map(hung.map((tree) => [tree.request.name, tree]));
    const packed = (yield { kind: 'settle', order: { job: given, parts, trees: made } }) as PackedJob;
    const all = new Map([...parts, ...made]);
    parts.clear();
    // What is over of a part stays by itself, in its smaller number.
    for (const request of packed.job.parts) {
      const made = all.get(request.name);
      if (made) parts.set(request.name, madeFor(made, request));
    }
    return packed;
  };
  // A job that is refused is planned all the same, to tell what else is wrong.
  const { job, findings } = given.packFlasks && !isRefused ? yield* pack() : { job: given, findings: [] };
  const plan = function* (
    order: Omit<PlanOrder<P>, 'job'>,
  ): Generator<Stage<P>, PlannedJob<P> | RefusedJob, unknown> {
    const planned = (yield { kind: 'plan', order: { job, ...order } }) as PlannedJob<P> | RefusedJob;
    return 'refused' in planned ? planned : { ...planned, summary: withFindings(planned.summary, findings) };
  };
  const planned = yield* plan({ parts, notMade, isTimed: !isPlannedAgain(job) });
  if ('refused' in planned) return planned;
  if (job.freeze === 'off') return { ...planned, frozen: new Map() };

  const told = planned.summary.parts;
  const froze = (yield { kind: 'freeze', planned }) as readonly Froze<P, F>[];
  const papers = new Map<string, F>();
  const made = new Map(planned.parts);
  const failed: RefusedPart[] = [];
  for (const [i, { name }] of told.entries()) {
    const one = froze[i];
    if (!one) continue;
    if ('fault' in one) {
      failed.push({ name, findings: [one.fault] });
      made.delete(name);
      continue;
    }
    papers.set(name, one.paper);
    if (one.improved) made.set(name, one.improved);
  }
  if (failed.length > 0 && !keepGoing) return { refused: failed };
  const isSettled =
    told.every(({ name }) => made.get(name) === planned.parts.get(name)) && !isPlannedAgain(job);
  const again = isSettled
    ? planned
    : yield* plan({ parts: made, notMade: [...planned.notMade, ...failed], isTimed: true });
  if ('refused' in again) return again;
  return { ...again, summary: withPapers(again.summary, papers), frozen: papers };
}

/** Whether the time for plates is kept until the gatings have been tried, as their patterns may change. */
const isPlannedAgain = ({ nesting, freeze, improve }: Job): boolean =>
  improve === true && freeze !== 'off' && (nesting?.seconds ?? 0) > 0;

const withFindings = (summary: Summary, findings: readonly Finding[]): Summary =>
  findings.length === 0 ? summary : { ...summary, findings: [...findings, ...summary.findings] };

const withPapers = (summary: Summary, papers: ReadonlyMap<string, FrozenRecord>): Summary => ({
  ...summary,
  parts: summary.parts.map((part) => {
    const paper = papers.get(part.name);
    if (!paper) return part;
    const fields = paper.fields === undefined ? {} : { freezeFields: freezeFieldFile(part.name) };
    return { ...part, freeze: paper.plan, files: { ...part.files, ...freezeFiles(part.name), ...fields } };
  }),
});
