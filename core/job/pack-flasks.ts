import type { Finding } from '../part/finding.js';
import type { Job } from './job.js';
import type { PartRecord } from './make-part.js';

/** A job whose small patterns stand on trees. */
export interface PackedJob {
  /** The same job object where nothing was packed. Its further parts are to be made; the others are as they were. */
  readonly job: Job;
  /** About the job: what was packed, and what it spares. */
  readonly findings: readonly Finding[];
}

/**
 * Puts a job's small patterns on trees, so that fewer flasks are poured; pure.
 * @param made its parts by name, each made by itself; those that are missing are left as they are
 */
export function packFlasks(job: Job, _made: ReadonlyMap<string, PartRecord>): PackedJob {
  return { job, findings: [] };
}
