import { resolve } from 'node:path';
import { checkFolder, recoverFolder, writeFolder } from '../core/files/folder.js';
import { FolderError } from '../core/files/folder-error.js';
import type { Job } from '../core/job/job.js';
import { type JobFile, jobFiles, type PaperUnits } from '../core/job/job-files.js';
import type { LearntGrowth } from '../core/job/logged-growth.js';
import { makeJob, type Progress } from '../core/job/make-job.js';
import type { PartDefinition } from '../core/part/contract.js';
import { loadKernel } from '../core/solid/index.js';
import { Failure, folderFailure, nothingWritten } from './failure.js';
import { startCrew } from './freeze-crew.js';
import type { ExitCode, HeldInterrupts, Io } from './io.js';
import { checkStrict, refusal, tellMade } from './tell-job.js';

export interface RunOptions {
  /** Folder to write, as the user named it. */
  readonly out: string;
  readonly json: boolean;
  readonly quiet: boolean;
  readonly strict: boolean;
  /** Whether parts that cannot be made are left out; otherwise one such part refuses the job. */
  readonly keepGoing?: boolean;
  readonly learntGrowth: LearntGrowth | undefined;
  /** By name, or by the path of its file. */
  readonly findPart: (key: string) => PartDefinition | undefined;
}

/**
 * Makes a job and writes its folder, with messages on the way.
 * @throws Failure when the job is refused or the folder cannot be written
 */
export async function runJob(job: Job, options: RunOptions, io: Io): Promise<ExitCode> {
  const folder = resolve(io.cwd, options.out);
  const papers: PaperUnits = { lengthUnit: job.units, degrees: job.degrees };
  const progress = progressLine(io.isTerminal && !options.quiet, io);
  const crew = job.freeze === 'off' ? undefined : startCrew();
  try {
    await recoverFolder(folder);
    await checkFolder(folder);
    const result = makeJob(job, {
      kernel: await loadKernel(),
      findPart: options.findPart,
      onProgress: progress.show,
      keepGoing: options.keepGoing,
      startTimer,
      ...(options.learntGrowth === undefined ? {} : { learntGrowth: options.learntGrowth }),
      ...(crew === undefined ? {} : { crew }),
    });
    if ('refused' in result) throw refusal(result, papers);
    if (options.strict) checkStrict(result, papers);
    progress.show({ stage: 'files', done: job.parts.length, of: job.parts.length });
    await writeHeld(folder, jobFiles(result, papers), io);
    progress.clear();
    return tellMade(result.summary, options, papers, io);
  } catch (error) {
    throw error instanceof FolderError ? folderFailure(error) : error;
  } finally {
    crew?.close();
    progress.clear();
  }
}

/** Time that begins to run now, and whether it is up. */
function startTimer(seconds: number): () => boolean {
  const end = performance.now() + 1000 * seconds;
  return () => performance.now() >= end;
}

function progressLine(shown: boolean, io: Io) {
  let isClear = true;
  return {
    show: ({ stage, done, of }: Progress): void => {
      if (shown) io.err(`\r\u001b[K${done}/${of} ${stage}`);
      isClear = !shown;
    },
    clear: (): void => {
      if (!isClear) io.err('\r\u001b[K');
      isClear = true;
    },
  };
}

/** Writes the folder; an interrupt meanwhile takes away what is begun. */
async function writeHeld(folder: string, files: Iterable<JobFile>, io: Io): Promise<void> {
  const held = io.holdInterrupts?.();
  try {
    await writeFolder(folder, held ? untilInterrupted(files, held) : files);
  } finally {
    held?.release();
  }
}

async function* untilInterrupted(
  files: Iterable<JobFile>,
  { interrupted }: HeldInterrupts,
): AsyncGenerator<JobFile> {
  for (const file of files) {
    // Signals are told to the program between turns of its event loop.
    await new Promise(setImmediate);
    if (interrupted()) {
      const message = 'Interrupted.';
      throw new Failure(1, [{ text: message, code: 'interrupted', message, remedy: '' }], nothingWritten);
    }
    yield file;
  }
}
