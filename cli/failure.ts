import { type FolderError, systemCode } from '../core/files/folder-error.js';
import { formatProblem, type JobProblem } from '../core/job/job-problem.js';
import type { Finding, Severity } from '../core/part/finding.js';
import { formatInput, type InputProblem } from '../core/part/input-problem.js';
import { findingLines, namesOf, ofTheKind, sentence } from '../core/report/findings.js';
import type { View } from '../core/report/format.js';
import { readersUnits } from '../core/report/reader-units.js';
import { wrap } from '../core/report/wrap.js';
import type { Io } from './io.js';

/** One thing that is wrong: what `--json` prints under `problems`. */
export interface Problem {
  /** The whole of it as messages print it. */
  readonly text: string;
  /** Stable kebab-case code, for example `unknown-option`. */
  readonly code: string;
  readonly message: string;
  readonly remedy: string;
  /** Without dashes, where an option is at fault. */
  readonly option?: string;
  /** Place in a job's file; lines and columns count from 1. */
  readonly file?: string;
  readonly line?: number;
  readonly column?: number;
  /** Keys and list indices in the job, outermost first. */
  readonly path?: readonly string[];
  /** Of a finding. */
  readonly severity?: Severity;
  /** The part's name in the job, where a finding is about one. */
  readonly part?: string;
  readonly parameters?: readonly string[];
}

/** A run that ends without a result: 1 the job cannot be made as asked, 2 the request itself is wrong. */
export class Failure extends Error {
  override readonly name = 'Failure';
  constructor(
    readonly exitCode: 1 | 2,
    readonly problems: readonly Problem[],
    /** Last line of the messages. */
    readonly closing = '',
  ) {
    super(problems.map((p) => p.text).join('\n'));
  }
}

/** A request that cannot be understood. The message has no full stop: the remedy follows after a semicolon. */
export const usageFailure = (code: string, message: string, remedy: string): Failure =>
  new Failure(2, [{ text: `${message}; ${remedy}`, code, message, remedy }]);

/** `job.yaml:12:5 parts[2].parameters.tooth: unknown key; did you mean teeth?` */
export const problemInFile = (problem: JobProblem): Problem => {
  const { code, message, remedy, path, file, line, column } = problem;
  return { text: formatProblem(problem), code, message, remedy, path, file, line, column };
};

/** `--teeth is 3; a whole number from 6 to 200` */
export const problemInOption = (problem: InputProblem, option: string | undefined): Problem => {
  const { code, message, remedy } = problem;
  return option === undefined
    ? { text: formatInput(problem), code, message, remedy }
    : { text: formatInput(problem, `--${option}`), code, message, remedy, option };
};

/**
 * `stop: crank-wheel: The bore cuts the root circle. Use at most 20 mm. [bore-through-root]`. Only the text is in
 * the reader's units: what programs read stays as in the summary.
 */
export function problemOfFinding(finding: Finding, part: string | null, view: View): Problem {
  const { severity, code, message, remedy, parameters } = finding;
  const subject = part ?? '';
  const told = [message, remedy].map((text) => readersUnits(sentence(text), view)).join(' ');
  return {
    // A terminal, and who searches its output, wants plain spaces.
    text: `${headOf(severity, subject)}${told}${tailOf(code)}`.replaceAll('\u00A0', ' '),
    code,
    message,
    remedy,
    severity,
    ...(subject === '' ? {} : { part: subject }),
    ...(parameters === undefined ? {} : { parameters }),
  };
}

/** A list of problems as messages print it: findings that many parts share take a few lines, all are in the JSON. */
export function problemLines(problems: readonly Problem[]): readonly string[] {
  const groups = problems.flatMap(({ severity, code, part = null, text }) => {
    if (severity === undefined) return [];
    // As its text has it, in the reader's units, without what stands about it.
    const told = text.slice(headOf(severity, part ?? '').length, -tailOf(code).length);
    return [{ part, findings: [{ severity, code, message: told, remedy: '' }] }];
  });
  return [
    ...problems.flatMap(({ severity, text }) => (severity === undefined ? [text] : [])),
    ...findingLines(groups).map(({ severity, code, parts, finding }) => {
      const told = finding?.message ?? ofTheKind('--json');
      return `${headOf(severity, namesOf(parts))}${told}${tailOf(code)}`;
    }),
  ];
}

const narrowest = 20;
const usualColumns = 80;

/** A message as its reader sees it: on a terminal no word is cut at the edge. */
export function fitTerminal(
  line: string,
  { isTerminal, columns }: Pick<Io, 'isTerminal' | 'columns'>,
): string {
  const room = Math.max(narrowest, columns?.() || usualColumns);
  return isTerminal && line.length > room ? wrap(line, '', '  ', room) : line;
}

const headOf = (severity: Severity, subject: string): string =>
  `${severity}: ${subject === '' ? '' : `${subject}: `}`;
const tailOf = (code: string): string => ` [${code}]`;

export const nothingWritten = 'Nothing was written.';

export const folderFailure = (
  { code, message, remedy }: FolderError,
  exitCode: 1 | 2 = 1,
  closing = code === 'unconfirmed' ? '' : nothingWritten,
): Failure => new Failure(exitCode, [{ text: `${message} ${remedy}`, code, message, remedy }], closing);

/** For what nobody foresaw: one line, no stack. */
export function unforeseenFailure(error: unknown): Failure {
  const reason = error instanceof Error ? error.message : String(error);
  const message = `This should not have happened: ${reason.split('\n')[0]?.slice(0, 400)}`;
  const remedy = 'Please report it with the command that led here.';
  const code = systemCode(error) === '' ? 'unforeseen' : systemCode(error).toLowerCase();
  return new Failure(1, [{ text: message, code, message, remedy }], `${nothingWritten} ${remedy}`);
}
