import type { ReadParameters } from './toothed-member.js';

/** A gear, ring or rack of the job, as the job's reader gives it. */
export interface ChosenPart {
  readonly name: string;
  readonly part: string;
  /** mm, radians, words; defaults filled in. */
  readonly parameters: ReadParameters;
  /** Where it is not the job's own. */
  readonly alloy?: string | undefined;
}
