import { nestingFields } from '../core/job/bed-schema.js';
import type { Job } from '../core/job/job.js';
import { present } from '../core/job/present.js';
import { readFields } from '../core/part/parameters.js';
import { Failure, problemInOption } from './failure.js';
import { nestingOptions } from './make-options.js';
import type { OptionRow } from './option-row.js';

/** What a run may set of its plates otherwise than its job does. */
export const nestingRows: readonly OptionRow[] = nestingOptions('mm').map(({ path: _, ...row }) => ({
  ...row,
  fallback: `the job's, or ${row.fallback}`,
}));

/**
 * The job with what the options set of its plates.
 * @throws Failure
 */
export function withNesting(job: Job, values: Readonly<Record<string, string | boolean>>): Job {
  const given = nestingOptions('mm').flatMap(({ name, path }) =>
    values[name] === undefined ? [] : [[path.at(-1) as string, values[name]] as const],
  );
  if (given.length === 0) return job;
  const raw = { ...job.nesting, ...Object.fromEntries(given) };
  const reading = readFields(nestingFields, raw, { lengthUnit: job.units });
  if (reading.ok) return { ...job, nesting: present(reading.values) };
  throw new Failure(
    2,
    reading.problems.map((p) => problemInOption(p, `nest-${p.path[0]}`)),
  );
}
