/** A part's gated pattern in its flask, as the freezing calculation is given it. */

import { jobContext } from '../../cli/library.js';
import { makeJob } from '../../core/job/make-job.js';
import { parseJob } from '../../core/job/read-job.js';
import { loadKernel } from '../../core/solid/index.js';
import { findPart } from '../../generators/index.js';

/** A job of one part, made. */
export async function makeOne(
  part: string,
  parameters: Readonly<Record<string, unknown>>,
  job: Readonly<Record<string, unknown>> = {},
  more: Readonly<Record<string, unknown>> = {},
) {
  const source = { job: part, ...job, parts: [{ name: part, part, parameters, ...more }] };
  const reading = parseJob(JSON.stringify(source), jobContext('options'));
  if (!reading.ok) throw new Error(reading.problems.map((p) => p.message).join('\n'));
  const result = makeJob(reading.job, { kernel: await loadKernel(), findPart });
  if ('refused' in result) throw new Error(JSON.stringify(result.refused));
  const made = result.parts.get(part);
  const told = result.summary.parts[0];
  const pour = result.summary.pour[0];
  if (!made || !told || !pour) throw new Error('nothing made');
  return { job: reading.job, made, told, pour, summary: result.summary };
}
