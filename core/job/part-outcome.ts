/** What making one entry of a job comes to: all that is known of it, or why it cannot be made. */
import type { Finding } from '../part/finding.js';
import type { Kernel } from '../solid/types.js';
import type { JobPart } from './job.js';
import { orRefusal } from './or-refusal.js';
import { distinct } from './pattern.js';

export type Made<P> = { readonly ok: true; readonly made: P } | NotMade;
export interface NotMade {
  readonly ok: false;
  readonly name: string;
  readonly findings: readonly Finding[];
}

export const notMade = ({ name }: JobPart, findings: readonly Finding[]): NotMade => ({
  ok: false,
  name,
  findings: distinct(findings),
});

/** Makes it in a scope of the kernel; what the kernel or the foundry cannot bear is told, never thrown. */
export function makeInScope<P>(request: JobPart, kernel: Kernel, make: () => Made<P>): Made<P> {
  const outcome = orRefusal(() => kernel.scope(make));
  return 'refusal' in outcome ? notMade(request, [outcome.refusal]) : outcome;
}
