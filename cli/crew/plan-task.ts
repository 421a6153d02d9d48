/** Trees, plates and papers worked out from the records of a job's parts, which are read from the shelf. */
import type { JobPart } from '../../core/job/job.js';
import {
  type PackOrder,
  type PlanOrder,
  packOrdered,
  planOrdered,
  type SettleOrder,
  settleOrdered,
} from '../../core/job/job-stages.js';
import type { PartRecord } from '../../core/job/make-part.js';
import type { PackedJob } from '../../core/job/pack-flasks.js';
import type { PlannedJob, RefusedJob } from '../../core/job/plan-job.js';
import type { Summary } from '../../core/job/summary.js';
import { startTimer } from '../start-timer.js';
import type { Bench } from './bench.js';
import { type CrewPart, fetchPart, keyOfSource } from './freeze-task.js';
import { again } from './make-task.js';
import { type KeptRecord, readRecord } from './part-entry.js';
import { learntFrom } from './terms.js';
import { inOrder } from './together.js';

/** Works out the trees that the job's small patterns go on. */
export interface PackTask {
  readonly kind: 'pack';
  readonly order: PackOrder<CrewPart>;
}
export interface PackAnswer {
  readonly trees: readonly JobPart[];
}

/** Works out which of the trees stay, once they are made. */
export interface SettleTask {
  readonly kind: 'settle';
  readonly order: SettleOrder<CrewPart>;
}
export interface SettleAnswer extends Pick<PackedJob, 'findings'> {
  /** Of the job that is packed. */
  readonly parts: readonly JobPart[];
}

/** Works out plates and papers. */
export interface PlanTask {
  readonly kind: 'plan';
  readonly order: PlanOrder<CrewPart>;
  readonly keepGoing: boolean;
}
export type PlanAnswer =
  | RefusedJob
  | {
      readonly summary: Summary;
      /** Of the parts it tells of, in order. */
      readonly names: readonly string[];
      readonly notMade: PlannedJob['notMade'];
    };

export async function pack({ order }: PackTask, bench: Bench): Promise<PackAnswer> {
  return { trees: packOrdered({ ...order, parts: await recordsOf(order.parts, bench) }) };
}

export async function settle({ order }: SettleTask, bench: Bench): Promise<SettleAnswer> {
  const { job, findings } = settleOrdered({
    job: order.job,
    parts: await recordsOf(order.parts, bench),
    trees: await recordsOf(order.trees, bench),
  });
  return { parts: job.parts, findings };
}

export async function plan({ order, keepGoing }: PlanTask, bench: Bench): Promise<PlanAnswer> {
  const ofCopies = new Set(
    [...order.parts.values()].flatMap(({ request, source }) =>
      (request.patternsPerTree ?? 1) > 1 ? [keyOfSource(source)] : [],
    ),
  );
  const parts = await recordsOf(order.parts, bench, (record, key) =>
    ofCopies.has(key) ? record : withoutSingle(record),
  );
  const planned = planOrdered(
    { ...order, parts },
    { learntGrowth: learntFrom(bench.terms), startTimer, keepGoing },
  );
  if ('refused' in planned) return planned;
  return { summary: planned.summary, names: [...planned.parts.keys()], notMade: planned.notMade };
}

/** Entries of the shelf that are read together. */
const together = 8;

/** What trees alone are planned from is a fifth of a record. */
const withoutSingle = ({ single: _single, ...record }: KeptRecord): KeptRecord => record;

/** What is known of each, or what is taken of it; what is the same is read once and shared. */
export async function recordsOf(
  parts: ReadonlyMap<string, CrewPart>,
  bench: Bench,
  take: (record: KeptRecord, key: string) => KeptRecord = (record) => record,
): Promise<ReadonlyMap<string, PartRecord>> {
  const sources = new Map([...parts.values()].map(({ source }) => [keyOfSource(source), source]));
  const records = new Map<string, KeptRecord>();
  const read = inOrder(sources, together, async ([key, source]) => {
    const record = await again(() => fetchPart(source, bench), readRecord);
    return [key, record] as const;
  });
  for await (const [key, record] of read) records.set(key, take(record, key));
  return new Map(
    [...parts].map(([name, { request, source }]) => [
      name,
      { ...(records.get(keyOfSource(source)) as KeptRecord), request },
    ]),
  );
}
