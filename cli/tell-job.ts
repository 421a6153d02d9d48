/** What a run says of its job: refused, made, made in part. */
import type { PaperUnits } from '../core/job/job-files.js';
import type { JobResult, RefusedJob } from '../core/job/make-job.js';
import type { Summary } from '../core/job/summary.js';
import { collectFindings } from '../core/report/findings.js';
import { formatConsole, formatNotMade } from '../core/report/text-summary.js';
import { Failure, nothingWritten, type Problem, problemLines, problemOfFinding } from './failure.js';
import type { ExitCode, Io } from './io.js';

/** The job is not made. */
export const refusal = ({ refused }: RefusedJob, papers: PaperUnits): Failure =>
  new Failure(1, refusedProblems(refused, papers), nothingWritten);

const refusedProblems = (refused: RefusedJob['refused'], papers: PaperUnits): readonly Problem[] =>
  refused.flatMap(({ name, findings }) =>
    findings.filter((f) => f.severity !== 'note').map((f) => problemOfFinding(f, name, papers)),
  );

/**
 * What `--strict` does not let pass.
 * @throws Failure for warnings and for parts that were left out
 */
export function checkStrict(
  { summary, notMade }: Pick<JobResult, 'summary' | 'notMade'>,
  papers: PaperUnits,
) {
  if (notMade.length > 0)
    throw new Failure(
      1,
      refusedProblems(notMade, papers),
      `${nothingWritten} --strict refuses a job that is not made in full.`,
    );
  const warnings = collectFindings(summary).flatMap(({ part, findings }) =>
    findings.filter((f) => f.severity === 'warn').map((f) => problemOfFinding(f, part, papers)),
  );
  if (warnings.length > 0) throw new Failure(1, warnings, `${nothingWritten} --strict refuses warnings.`);
}

/** Says what was made and written, and what was left out; in the way that was asked for. Gives the run's exit code. */
export function tellMade(
  summary: Summary,
  options: { readonly out: string; readonly json: boolean; readonly quiet: boolean },
  papers: PaperUnits,
  io: Pick<Io, 'out' | 'err'>,
): ExitCode {
  const { notMade = [] } = summary;
  if (options.json) io.out(`${JSON.stringify(summary, null, 2)}\n`);
  else if (!options.quiet) io.out(`${formatConsole(summary, papers)}${wrote(options.out)}`);
  if (notMade.length === 0) return 0;
  // What the report does not tell is told where errors are.
  if (options.json || options.quiet)
    for (const line of problemLines(refusedProblems(notMade, papers))) io.err(`${line}\n`);
  (options.json || options.quiet ? io.err : io.out)(formatNotMade(summary));
  return 3;
}

const wrote = (out: string): string =>
  `\nWrote ${out}\nOpen first: ${out.replace(/\/+$/, '')}/traveller.html\n`;
