/** Text of a job that makes one part with its usual sizes. */
export const newJob = (part: string): string =>
  `job: ${part}\nparts:\n  - name: ${part}\n    part: ${part}\n`;
