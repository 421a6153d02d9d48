/** What a run says of its job: refused, made, made in part. */
import type { PaperUnits } from '../core/job/job-files.js';
import type { JobResult, RefusedJob } from '../core/job/make-job.js';
import type { Summary } from '../core/job/summary.js';
import { collectFindings, namesOf } from '../core/report/findings.js';
import { formatConsole, formatNotMade } from '../core/report/text-summary.js';
import {
  Failure,
  fitTerminal,
  nothingWritten,
  type Problem,
  problemLines,
  problemOfFinding,
} from './failure.js';
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

/** How far a run came before it was interrupted. */
export interface Interruption {
  /** The output folder, as the user named it, and whether there is an older one of that name. */
  readonly out: string;
  readonly hadFolder: boolean;
  readonly parts: { readonly done: number; readonly of: number };
  /** Where moulds had begun to be frozen. */
  readonly moulds?: { readonly done: number; readonly of: number };
  /** Parts that were being worked at, the longest first; those of somebody's own with their files. */
  readonly inWork?: readonly string[];
  /** How much of what was made is kept for the next run; some: the cache took no more, or a part is somebody's own code. */
  readonly kept: 'all' | 'some' | 'none';
}

/** Names of parts in work that are told. */
const mostInWork = 4;

/** What an interrupted run leaves, and how to go on. */
export function interrupted({ out, hadFolder, parts, moulds, inWork = [], kept }: Interruption): Failure {
  const message = 'Interrupted.';
  const before = hadFolder ? `; ${out} is as it was before` : '';
  const written = `${nothingWritten.slice(0, -1)}${before}.`;
  const share = ({ done, of }: Interruption['parts']): string =>
    done === of ? `all ${of}` : `${done} of ${of}`;
  const made = [
    ...(parts.done > 0 ? [`${share(parts)} ${parts.of === 1 ? 'part' : 'parts'} made`] : []),
    ...(moulds && moulds.done > 0 ? [`${share(moulds)} ${moulds.of === 1 ? 'mould' : 'moulds'} frozen`] : []),
  ].join(' and ');
  const remedy =
    made === ''
      ? 'The same command begins anew.'
      : kept === 'all'
        ? `Kept: ${made}. The same command goes on from there.`
        : kept === 'some'
          ? `${capital(made)}, of which not all is kept: the same command makes the rest anew.`
          : `Without a cache nothing is kept (${made}): the same command begins anew.`;
  return new Failure(
    1,
    [{ text: message, code: 'interrupted', message, remedy }],
    `${written}\n${inWork.length === 0 ? '' : `In work, the longest first: ${namesOf(inWork, mostInWork)}.\n`}${remedy}`,
  );
}

const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

/** Says what was made and written, and what was left out; in the way that was asked for. Gives the run's exit code. */
export function tellMade(
  summary: Summary,
  options: { readonly out: string; readonly json: boolean; readonly quiet: boolean },
  papers: PaperUnits,
  io: Pick<Io, 'out' | 'err' | 'isTerminal' | 'columns'>,
): ExitCode {
  const { notMade = [] } = summary;
  if (options.json) io.out(`${JSON.stringify(summary, null, 2)}\n`);
  else if (!options.quiet) io.out(`${formatConsole(summary, papers)}${wrote(options.out)}`);
  if (notMade.length === 0) return 0;
  // What the report does not tell is told where errors are.
  if (options.json || options.quiet)
    for (const line of problemLines(refusedProblems(notMade, papers))) io.err(`${fitTerminal(line, io)}\n`);
  (options.json || options.quiet ? io.err : io.out)(formatNotMade(summary));
  return 3;
}

const wrote = (out: string): string =>
  `\nWrote ${out}\nOpen first: ${out.replace(/\/+$/, '')}/traveller.html\n`;
