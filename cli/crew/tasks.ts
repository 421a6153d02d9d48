/** The pieces of work on a job. Each is told in plain data and answered in plain data, so that any thread may do it. */
import type { Bench } from './bench.js';
import {
  type PapersAnswer,
  type PapersTask,
  type PlateAnswer,
  type PlateTask,
  papers,
  plate,
} from './files-task.js';
import { type FreezeAnswer, type FreezeTask, freeze } from './freeze-task.js';
import { type MakeAnswer, type MakeTask, make } from './make-task.js';
import {
  type PackAnswer,
  type PackTask,
  type PlanAnswer,
  type PlanTask,
  pack,
  plan,
  type SettleAnswer,
  type SettleTask,
  settle,
} from './plan-task.js';

export interface Answers {
  readonly make: MakeAnswer;
  readonly freeze: FreezeAnswer;
  readonly pack: PackAnswer;
  readonly settle: SettleAnswer;
  readonly plan: PlanAnswer;
  readonly papers: PapersAnswer;
  readonly plate: PlateAnswer;
}
export type Task = MakeTask | FreezeTask | PackTask | SettleTask | PlanTask | PapersTask | PlateTask;
export type AnswerTo<T extends Task> = Answers[T['kind']];

export const doTask = <T extends Task>(
  task: T,
  bench: Bench,
  onShare?: (share: number) => void,
): Promise<AnswerTo<T>> => dispatch(task, bench, onShare) as Promise<AnswerTo<T>>;

function dispatch(
  task: Task,
  bench: Bench,
  onShare?: (share: number) => void,
): Promise<Answers[keyof Answers]> {
  switch (task.kind) {
    case 'make':
      return make(task, bench);
    case 'freeze':
      return freeze(task, bench, onShare);
    case 'pack':
      return pack(task, bench);
    case 'settle':
      return settle(task, bench);
    case 'plan':
      return plan(task, bench);
    case 'papers':
      return papers(task, bench);
    case 'plate':
      return plate(task, bench);
  }
}
