import { resolve } from 'node:path';
import { checkFolder, writeFolder } from '../core/files/folder.js';
import { FolderError } from '../core/files/folder-error.js';
import type { Job } from '../core/job/job.js';
import { jobFiles } from '../core/job/job-files.js';
import { makeJob, type Progress } from '../core/job/make-job.js';
import type { Finding } from '../core/part/finding.js';
import { formatConsole } from '../core/report/text-summary.js';
import { loadKernel } from '../core/solid/index.js';
import { findPart } from '../generators/index.js';
import type { ExitCode, Io } from './io.js';

export interface RunOptions {
  readonly out: string;
  readonly json: boolean;
  readonly quiet: boolean;
  readonly strict: boolean;
}

/** Makes a job and writes its folder, with messages on the way. */
export async function runJob(job: Job, options: RunOptions, io: Io): Promise<ExitCode> {
  const folder = resolve(io.cwd, options.out);
  const showsProgress = io.isTerminal && !options.quiet;
  const onProgress = (p: Progress): void => {
    if (showsProgress) io.err(`\r\u001b[K${p.done}/${p.of} ${p.stage}`);
  };
  try {
    await checkFolder(folder);
    const result = makeJob(job, { kernel: await loadKernel(), findPart, onProgress });
    if (showsProgress) io.err('\r\u001b[K');
    if ('refused' in result) return refuse(result.refused, options, io);
    const warned = options.strict ? warnings(result.summary.parts, result.summary.findings) : [];
    if (warned.length > 0) return refuse(warned, options, io);
    await writeFolder(folder, jobFiles(result, { lengthUnit: job.units, degrees: job.degrees }));
    if (options.json) io.out(`${JSON.stringify(result.summary, null, 2)}\n`);
    else if (!options.quiet)
      io.out(
        `${formatConsole(result.summary, { lengthUnit: job.units, degrees: job.degrees })}${wrote(options.out)}`,
      );
    return 0;
  } catch (error) {
    if (!(error instanceof FolderError)) throw error;
    io.err(`${error.message}\n${error.remedy}\n`);
    return 1;
  }
}

const wrote = (out: string): string =>
  `\nWrote ${out}. Open ${out}/traveller.html first; print ${out}/plates/.\n`;

type Refusals = readonly { readonly name: string; readonly findings: readonly Finding[] }[];

const warnings = (parts: Refusals, job: readonly Finding[]): Refusals =>
  [...parts, { name: '', findings: job }]
    .map(({ name, findings }) => ({ name, findings: findings.filter((f) => f.severity === 'warn') }))
    .filter(({ findings }) => findings.length > 0);

function refuse(refused: Refusals, options: RunOptions, io: Io): ExitCode {
  if (options.json) io.out(`${JSON.stringify({ refused }, null, 2)}\n`);
  for (const { name, findings } of refused) {
    for (const f of findings) {
      if (f.severity === 'note') continue;
      io.err(`${name === '' ? '' : `${name}: `}${f.severity}: ${f.message} ${f.remedy} [${f.code}]\n`);
    }
  }
  io.err('Nothing was written.\n');
  return 1;
}
