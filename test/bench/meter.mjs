/** Loaded before a program that is measured: tells what the process has used, as it ends. */
import { writeFileSync } from 'node:fs';
import { isMainThread } from 'node:worker_threads';

if (isMainThread)
  process.on('exit', () => writeFileSync(process.env.BENCH_METER, JSON.stringify(process.resourceUsage())));
