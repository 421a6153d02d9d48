/** What is found of the job as it stands: why it is not made, or what to know of what was made. */
import type { Finding } from '../../../core/part/finding.js';
import { collectFindings, countFindings, tally } from '../../../core/report/findings.js';
import type { Problem } from '../job/problem.js';
import type { NamedFindings } from '../work/protocol.js';
import type { BenchState } from './state.js';

export interface JobFindings {
  readonly problems: readonly Problem[];
  readonly groups: readonly NamedFindings[];
}

export function jobFindings({ draft, refused, made }: BenchState): JobFindings {
  const refusal = draft.refusal ?? refused;
  if (refusal) return { problems: refusal.problems, groups: refusal.findings };
  if (!made) return { problems: [], groups: [] };
  const { summary } = made.reply;
  const groups = collectFindings(summary).map(({ part, findings }) => ({ name: part ?? '', findings }));
  return { problems: [], groups: [...(summary.notMade ?? []), ...groups] };
}

/** Those of one casting, to stand beside its sizes. */
export const findingsOf = (found: JobFindings, casting: string): readonly Finding[] =>
  found.groups.find((g) => g.name === casting)?.findings ?? [];

/** How many there are to act on, if any, and all in words. */
export function countOf({ problems, groups }: JobFindings): {
  readonly text: string;
  readonly label: string;
} {
  const count = countFindings(groups);
  const stops = problems.length + count.stop;
  const acts = stops + count.warn;
  return { text: acts === 0 ? '' : String(acts), label: tally({ ...count, stop: stops }) };
}
