import { formatProblem, type JobProblem } from '../../core/job/job-problem.js';
import { formatInput, type InputProblem } from '../../core/part/input-problem.js';

/** A job, or the parameters and settings of one part, that cannot be read: every problem at once. */
export class JobError extends Error {
  override readonly name = 'JobError';
  /** Those of a job's text have their place in it. */
  readonly problems: readonly (InputProblem & Partial<JobProblem>)[];

  constructor(problems: readonly (InputProblem | JobProblem)[]) {
    const lines = problems.map((p) => ('line' in p ? formatProblem(p) : formatInput(p)));
    super([...new Set(lines)].join('\n'));
    this.problems = problems;
  }
}
