/** Telling what is wrong with values that code of somebody's own gives. */
import { type InputProblem, showValue } from './input-problem.js';

/** Notes one problem: where, what is wrong, what would be right. */
export type Report = (path: readonly string[], message: string, remedy: string, got?: unknown) => void;

export function reporter(): { readonly problems: InputProblem[]; readonly report: Report } {
  const problems: InputProblem[] = [];
  const report: Report = (path, message, remedy, got) => {
    problems.push({ code: 'part-file-definition', path, message, remedy, got: showValue(got) });
  };
  return { problems, report };
}

/** Of the type, and no list or null. NaN is no number. */
export const isTyped = <T>(value: unknown, type: 'object' | 'number' | 'string'): value is T =>
  typeof value === type && value !== null && !Array.isArray(value) && !Number.isNaN(value);
