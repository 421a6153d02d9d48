import { existsSync } from 'node:fs';
import { resolve } from 'node:path';
import { checkFolder, recoverFolder, writeFolder } from '../core/files/folder.js';
import { FolderError } from '../core/files/folder-error.js';
import type { Job } from '../core/job/job.js';
import type { PaperUnits } from '../core/job/job-files.js';
import type { LearntGrowth } from '../core/job/logged-growth.js';
import type { PartDefinition } from '../core/part/contract.js';
import { makeJobWith } from './crew/crew-job.js';
import { Stopped } from './crew/hands.js';
import { outputOf } from './crew/job-output.js';
import { isOwnCode } from './crew/terms.js';
import { openWorkshop } from './crew/workshop.js';
import { folderFailure } from './failure.js';
import { Interrupts } from './interrupts.js';
import type { ExitCode, Io } from './io.js';
import type { PartFilePlaces } from './part-file/part-file-places.js';
import { type ProgressEvent, progressOn } from './progress/index.js';
import { checkStrict, interrupted, refusal, tellMade } from './tell-job.js';

export interface RunOptions {
  /** Folder to write, as the user named it. */
  readonly out: string;
  readonly json: boolean;
  readonly quiet: boolean;
  readonly strict: boolean;
  /** Whether parts that cannot be made are left out; otherwise one such part refuses the job. */
  readonly keepGoing?: boolean;
  /** How many parts are made together; left out: as many as the machine has processors for. */
  readonly threads?: number | undefined;
  /** Folder that keeps parts for the next run; left out: none. */
  readonly cache?: string | undefined;
  readonly learntGrowth: LearntGrowth | undefined;
  /** The part files of the job. */
  readonly partFiles?: PartFilePlaces;
  /** By name, or by the path of its file. */
  readonly findPart: (key: string) => PartDefinition | undefined;
}

/**
 * Makes a job and writes its folder, with messages on the way.
 * @throws Failure when the job is refused or the folder cannot be written, and when the run is interrupted
 */
export async function runJob(job: Job, options: RunOptions, io: Io): Promise<ExitCode> {
  const { learntGrowth, findPart, threads, cache, keepGoing } = options;
  const folder = resolve(io.cwd, options.out);
  const papers: PaperUnits = { lengthUnit: job.units, degrees: job.degrees };
  const progress = progressOn(io, options.quiet);
  const reached = new Reached(job);
  const onProgress = (event: ProgressEvent): void => {
    reached.event(event);
    progress.event(event);
  };
  let isKept = cache !== undefined && !job.parts.some(isOwnCode);
  const note = (text: string): void => {
    isKept = false;
    if (!options.quiet) progress.print(`${text}\n`);
  };
  const hadFolder = existsSync(folder);
  const interrupts = new Interrupts(io);
  const workshop = await openWorkshop(job, {
    learntGrowth,
    findPart,
    partFiles: options.partFiles,
    threads,
    cache,
    note,
    workerFile: io.workerFile,
    letThrough: (work) => interrupts.letThrough(work),
  });
  interrupts.onFirst(() => workshop.stop());
  try {
    // Who works in this thread alone hears of nothing meanwhile: the signal is to do what it does by itself.
    if (workshop.isFree) interrupts.hold();
    await recoverFolder(folder);
    await checkFolder(folder);
    const result = await makeJobWith(job, {
      ...workshop,
      keepGoing,
      onProgress,
    });
    if ('refused' in result) throw refusal(result, papers);
    if (options.strict) checkStrict(result, papers);
    interrupts.hold();
    const of = result.summary.parts.length + result.summary.plates.length;
    onProgress({ stage: 'files', of });
    const onDone = (name: string): void => onProgress({ stage: 'files', of, name, share: 1 });
    await writeFolder(folder, outputOf(result, { ...workshop, units: papers, onDone }));
    progress.clear();
    return tellMade(result.summary, options, papers, io);
  } catch (error) {
    if (error instanceof Stopped)
      throw interrupted({
        ...reached.told(),
        out: options.out,
        hadFolder,
        kept: cache === undefined ? 'none' : isKept ? 'all' : 'some',
      });
    throw error instanceof FolderError ? folderFailure(error) : error;
  } finally {
    progress.clear();
    await workshop.close();
    interrupts.release();
  }
}

/** How far a run is, for when it is interrupted. */
class Reached {
  readonly #job: Job;
  readonly #parts = { done: 0, of: 0 };
  readonly #inWork = new Set<string>();
  #moulds: { done: number; of: number } | undefined;

  constructor(job: Job) {
    this.#job = job;
  }

  event({ stage, of, name, share }: ProgressEvent): void {
    if (stage === 'moulds') this.#moulds ??= { done: 0, of: 0 };
    const at = stage === 'parts' ? this.#parts : stage === 'moulds' ? this.#moulds : undefined;
    if (!at) return;
    // A stage begins without a name; trees are parts that are made after the others.
    if (name === undefined) at.of += of;
    else if (share !== 1) this.#inWork.add(name);
    if (share !== 1) return;
    at.done++;
    this.#inWork.delete(name ?? '');
  }

  told() {
    const moulds = this.#moulds;
    const fileOf = (name: string): string | undefined =>
      this.#job.parts.find((p) => p.name === name && isOwnCode(p) && p.tree === undefined)?.part;
    const inWork = [...this.#inWork].map((name) => {
      const file = fileOf(name);
      return file === undefined ? name : `${name} (${file})`;
    });
    return { parts: this.#parts, ...(moulds ? { moulds } : {}), inWork };
  }
}
