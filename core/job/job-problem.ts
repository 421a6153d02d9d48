import { formatInput, type InputProblem, showText } from '../part/input-problem.js';

/** An input problem with its place in the job's file. Lines and columns count from 1. */
export interface JobProblem extends InputProblem {
  readonly file: string;
  readonly line: number;
  readonly column: number;
}

/** How many problems are told before the rest are only counted. */
export const mostJobProblems = 20;

/** `job.yaml:12:5 parts[2].parameters.tooth: unknown key; did you mean teeth?` */
export const formatProblem = (p: JobProblem): string =>
  `${showFile(p.file)}:${p.line}:${p.column} ${formatInput(p)}`;

// Paths may be long, but must not carry control characters to the terminal.
const showFile = (file: string): string =>
  file.length <= 200 ? file.replace(/\p{Cc}/gu, '?') : showText(file);

/** In the order of the file; beyond `mostJobProblems` only the number of the rest. */
export function capProblems(problems: readonly JobProblem[]): readonly JobProblem[] {
  const sorted = [...problems].sort((a, b) => a.line - b.line || a.column - b.column);
  const rest = sorted[mostJobProblems];
  if (rest === undefined) return sorted;
  const count = sorted.length - mostJobProblems;
  return [
    ...sorted.slice(0, mostJobProblems),
    {
      ...rest,
      code: 'more-problems',
      path: [],
      got: '',
      message: `and ${count} more ${count === 1 ? 'problem' : 'problems'} from here on`,
      remedy: 'mend the ones above first',
    },
  ];
}
