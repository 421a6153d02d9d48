/** A whole job made by hands that may be many: what is the same is made once, and all that is made stays on the shelf. */
import { FolderError } from '../../core/files/folder-error.js';
import { mouldAtPour } from '../../core/job/freeze-mould.js';
import type { Job, JobPart } from '../../core/job/job.js';
import {
  type Froze,
  jobStages,
  type PackOrder,
  type PlanOrder,
  type SettleOrder,
  type StagedJob,
  type StageOptions,
} from '../../core/job/job-stages.js';
import type { RefusedJob } from '../../core/job/make-job.js';
import type { PackedJob } from '../../core/job/pack-flasks.js';
import type { Made } from '../../core/job/part-outcome.js';
import type { PlannedJob } from '../../core/job/plan-job.js';
import { type Finding, stop } from '../../core/part/finding.js';
import { Failure } from '../failure.js';
import { byTheClock, type ProgressEvent, tellAllowedTime } from '../progress/index.js';
import type { CrewPart, FreezeAnswer, FreezeTask } from './freeze-task.js';
import { FileChanged, type Hands, Stopped, WorkerLost } from './hands.js';
import type { JobKeys } from './keys.js';
import type { MakeAnswer, MakeTask } from './make-task.js';
import type { Task } from './tasks.js';
import { isOwnCode } from './terms.js';
import { doAll } from './together.js';

/** How a mould freezes, and where its pictures lie. */
export interface CrewPaper extends NonNullable<FreezeAnswer['paper']> {
  readonly source: FreezeTask;
}

export type CrewJob = StagedJob<CrewPart, CrewPaper>;

export interface CrewOptions extends Pick<StageOptions, 'keepGoing'> {
  readonly hands: Hands;
  /** Threads in all, which help with a mould where there are fewer moulds than threads. */
  readonly threads: number;
  readonly keys: JobKeys;
  readonly onProgress: (event: ProgressEvent) => void;
}

export async function makeJobWith(job: Job, options: CrewOptions): Promise<CrewJob | RefusedJob> {
  const stages = jobStages<CrewPart, CrewPaper>(job, options);
  let stage = stages.next();
  while (!stage.done) {
    const { value } = stage;
    let answer: unknown;
    if (value.kind === 'make') answer = await makeAll(value.requests, options);
    else if (value.kind === 'freeze') answer = await freezeAll(value.planned, options);
    else if (value.kind === 'pack') answer = await packWith(value.order, options);
    else if (value.kind === 'settle') answer = await settleWith(value.order, options);
    else answer = await planWith(value.order, options);
    stage = stages.next(answer);
  }
  return stage.value;
}

/** An order as other hands are given it, so that this thread hears of interrupts meanwhile. */
function handedOver<O extends PackOrder<CrewPart>>(order: O) {
  const { meshFiles: _meshes, ...job } = order.job;
  return { ...order, job };
}

async function packWith(order: PackOrder<CrewPart>, { hands, onProgress }: CrewOptions) {
  onProgress({ stage: 'trees', of: 1 });
  return (await hands.do({ kind: 'pack', order: handedOver(order) })).trees;
}

async function settleWith(order: SettleOrder<CrewPart>, { hands }: CrewOptions): Promise<PackedJob> {
  const { parts, findings } = await hands.do({ kind: 'settle', order: handedOver(order) });
  return { job: { ...order.job, parts }, findings };
}

async function planWith(
  order: PlanOrder<CrewPart>,
  { hands, onProgress, keepGoing = false }: CrewOptions,
): Promise<PlannedJob<CrewPart> | RefusedJob> {
  onProgress({ stage: 'plates', of: 1 });
  const seconds = order.isTimed ? (order.job.nesting?.seconds ?? 0) : 0;
  const ended = tellAllowedTime('plates', { name: 'laying out', seconds, ...byTheClock }, onProgress);
  const answer = await hands.do({ kind: 'plan', order: handedOver(order), keepGoing }).finally(ended);
  if ('refused' in answer) return answer;
  const { summary, names, notMade } = answer;
  const parts = new Map(names.map((name) => [name, order.parts.get(name) as CrewPart]));
  return { summary, parts, notMade };
}

async function makeAll(
  requests: readonly JobPart[],
  { hands, keys, onProgress }: CrewOptions,
): Promise<readonly Made<CrewPart>[]> {
  const batch = batchOf(
    requests.map((request): MakeTask => ({ kind: 'make', key: keys.ofPart(request), request })),
  );
  const progress = progressOf('parts', batch, (task) => task.request.name, onProgress);
  const answers = new Map<MakeTask, MakeAnswer>();
  const make = async (task: MakeTask): Promise<void> => {
    progress.begin(task);
    const answer = await hands.do(task).catch((error: unknown) => ({
      ok: false as const,
      findings: [faultFinding(error, task.request)],
    }));
    progress.end(task, answer.ok && answer.kept);
    answers.set(task, answer);
  };
  // Somebody's own code has one thread to itself: what waits for that keeps nothing else from being made.
  const tasksOf = (own: boolean) => batch.tasks.filter((t) => isOwnCode(t.request) === own);
  const makeOthers = (): Promise<unknown> => doAll(tasksOf(false), mostAtOnce(hands), make);
  const makeOwn = (): Promise<unknown> => doAll(tasksOf(true), 1, make);
  if (hands.count > 1) await Promise.all([makeOthers(), makeOwn()]);
  else await makeOthers().then(makeOwn);
  return requests.map((request, i): Made<CrewPart> => {
    const at = batch.index[i] as number;
    const task = batch.tasks[at] as MakeTask;
    const answer = answers.get(task);
    if (!answer?.ok) return { ok: false, name: request.name, findings: answer?.findings ?? [] };
    return { ok: true, made: { request, source: task } };
  });
}

async function freezeAll(
  { summary, parts }: PlannedJob<CrewPart>,
  { hands, threads, keys, onProgress }: CrewOptions,
): Promise<readonly Froze<CrewPart, CrewPaper>[]> {
  const asked = summary.parts.map((told): FreezeTask => {
    const part = (parts.get(told.name) as CrewPart).source as MakeTask;
    const at = mouldAtPour(told, summary.pour);
    return { kind: 'freeze', key: keys.ofMould(part.key, at), part, at, hands: 1 };
  });
  const batch = batchOf(asked);
  const together = Math.max(1, Math.floor(threads / batch.tasks.length));
  const tasks = batch.tasks.map((task) => ({ ...task, hands: together }));
  const progress = progressOf('moulds', { ...batch, tasks }, (task) => task.part.request.name, onProgress);
  const answers = await doAll(tasks, mostAtOnce(hands), async (task) => {
    progress.begin(task);
    const answer = await hands
      .do(task, (share) => progress.share(task, share))
      .catch((error: unknown) => ({ fault: faultFinding(error, task.part.request) }));
    progress.end(task, 'kept' in answer && answer.kept);
    return answer;
  });
  return asked.map((_, i): Froze<CrewPart, CrewPaper> => {
    const at = batch.index[i] as number;
    const [answer, source] = [answers[at], tasks[at] as FreezeTask];
    if (answer === undefined || 'fault' in answer) return answer;
    const { paper, regated } = answer;
    if (!paper) return undefined;
    const { request } = parts.get(summary.parts[i]?.name ?? '') as CrewPart;
    if (!regated) return { paper: { ...paper, source } };
    const improved = { request: { ...request, ...regated }, source };
    return { paper: { ...paper, source }, improved };
  });
}

/** Enough that no thread waits for its next task. */
const mostAtOnce = ({ count }: Hands): number => (count === 1 ? 1 : count + 1);

/** Tasks of which equal ones are one, and which of them is each given one. */
interface Batch<T> {
  readonly tasks: readonly T[];
  readonly index: readonly number[];
}

function batchOf<T extends { readonly key: string }>(given: readonly T[]): Batch<T> {
  const places = new Map<string, number>();
  const tasks: T[] = [];
  const index = given.map((task) => {
    const known = places.get(task.key);
    if (known !== undefined) return known;
    places.set(task.key, tasks.length);
    return tasks.push(task) - 1;
  });
  return { tasks, index };
}

function progressOf<T extends Task>(
  stage: ProgressEvent['stage'],
  { tasks }: Batch<T>,
  nameOf: (task: T) => string,
  onProgress: (event: ProgressEvent) => void,
) {
  const of = tasks.length;
  onProgress({ stage, of });
  return {
    begin: (task: T) => onProgress({ stage, of, name: nameOf(task) }),
    share: (task: T, share: number) =>
      onProgress({ stage, of, name: nameOf(task), share: Math.min(share, 0.999) }),
    end: (task: T, kept: boolean) => onProgress({ stage, of, name: nameOf(task), share: 1, kept }),
  };
}

/** A fault of the program or of its threads costs the part that they worked at. @throws what is no such fault */
function faultFinding(error: unknown, request: JobPart): Finding {
  if (error instanceof FolderError || error instanceof Failure || error instanceof Stopped) throw error;
  const message = error instanceof Error ? error.message : String(error);
  if (error instanceof FileChanged) return stop('part-file-changed', message, 'Run the command again');
  if (error instanceof WorkerLost && isOwnCode(request)) return ownFault(error, request);
  if (error instanceof WorkerLost)
    return error.outOfMemory
      ? stop(
          'out-of-memory',
          'There is not enough memory for it',
          'Give a coarser tolerance, or fewer threads with --threads',
        )
      : stop(
          'thread-ended',
          `It was not made: ${message}`,
          'Make it again by itself, and please report the job that led here',
        );
  const [line = ''] = message.split('\n');
  return stop(
    'unforeseen',
    `This should not have happened: ${line.slice(0, 400)}`,
    'Please report it with the command that led here',
  );
}

/** What somebody's own code did to the thread that it ran in. */
function ownFault({ outOfMemory, stray, message }: WorkerLost, { part, tree }: JobPart): Finding {
  const file = tree === undefined ? part : tree.map((m) => m.part).join(', ');
  if (outOfMemory)
    return stop(
      'out-of-memory',
      `In ${file}, build takes more memory than there is`,
      'Look for a list or a loop without end, or give a coarser tolerance',
    );
  return stop(
    stray ? 'part-file-late' : 'thread-ended',
    stray
      ? `What build of ${file} had begun failed when it had ended, at ${stray.told}`
      : `It was not made: ${message} as ${file} was run`,
    'Let build do all of its work before it returns, without timers or promises',
  );
}
