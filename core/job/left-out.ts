/** Parts of a job that are left out, so that the rest is made. */
import { type Finding, stop } from '../part/finding.js';
import type { Job, JobPart } from './job.js';
import { present } from './present.js';
import type { PartNotMade } from './summary.js';

/** What cannot be made, and why; `name` is '' where it is the job as a whole. */
export interface RefusedPart {
  readonly name: string;
  readonly findings: readonly Finding[];
}

/**
 * All that goes when some parts are refused, in the order of the job: the parts themselves, and what came of the same
 * entry of the job, which is of no use without them.
 */
export function leftOut(job: Job, refused: readonly RefusedPart[]): readonly RefusedPart[] {
  const why = new Map<string, Finding[]>();
  for (const { name, findings } of refused) why.set(name, [...(why.get(name) ?? []), ...findings]);
  const culprits = new Map<string, string[]>();
  for (const { name, entry } of job.parts)
    if (entry !== undefined && why.has(name)) culprits.set(entry, [...(culprits.get(entry) ?? []), name]);
  return job.parts.flatMap(({ name, entry }): RefusedPart[] => {
    const findings = why.get(name);
    if (findings) return [{ name, findings }];
    const others = entry === undefined ? undefined : culprits.get(entry);
    return others ? [{ name, findings: [goesWith(others)] }] : [];
  });
}

const goesWith = (others: readonly string[]): Finding => {
  const names = others.join(' and ');
  return stop(
    'goes-with-refused',
    `Left out because ${names} cannot be made: they belong together.`,
    `Mend ${names}, or list this one in an entry of its own.`,
  );
};

/** The same with what the job says of each, for the papers. */
export function toldNotMade(job: Job, notMade: readonly RefusedPart[]): readonly PartNotMade[] {
  const requests = new Map(job.parts.map((p): readonly [string, JobPart] => [p.name, p]));
  return notMade.flatMap(({ name, findings }) => {
    const request = requests.get(name);
    if (!request) return [];
    const { part, piece, quantity, alloy } = request;
    return [{ name, part, ...present({ piece }), quantity, alloy, findings }];
  });
}
