import { parseSafeName } from '../../../core/job/safe-name.js';

/** What the job's file is saved as: after the job, where its name will do. */
export function jobFileNameOf({ job }: Readonly<Record<string, unknown>>): string {
  const name = String(job ?? '');
  return parseSafeName(name).ok ? `${name}.yaml` : 'job.yaml';
}
