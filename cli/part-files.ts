/** Part files on the command line: which are named, what they gave, and how it is told. What runs them is loaded only then. */
import { isPartFile, type PartFileReading } from '../core/job/job-context.js';
import type { PartDefinition } from '../core/part/contract.js';
import { findPart } from '../generators/index.js';
import { Failure } from './failure.js';
import type { Io } from './io.js';

/** By the path as it was written. */
export type PartFiles = ReadonlyMap<string, PartFileReading>;

export const noPartFiles: PartFiles = new Map();

export const partFileNote =
  'A part file is code: it is run, with the rights of who runs it, whenever it is made or asked for its help.';

/** Runs part files, one after the other. `folder`: their paths are relative to it. */
export async function loadPartFiles(
  paths: readonly string[],
  folder: string,
  io: Pick<Io, 'err' | 'runsPartFiles'>,
): Promise<PartFiles> {
  const own = paths.filter(isPartFile);
  if (own.length === 0) return noPartFiles;
  const { loadPartFile } = await import('./part-file/load-part-file.js');
  io.runsPartFiles?.();
  const files = new Map<string, PartFileReading>();
  for (const path of new Set(own)) files.set(path, await loadPartFile(folder, path, io.err));
  return files;
}

/** Parts by name, or by the path of their file. */
export const findAmong =
  (files: PartFiles) =>
  (key: string): PartDefinition | undefined => {
    const file = files.get(key);
    return file === undefined ? findPart(key) : file.ok ? file.definition : undefined;
  };

/** For `make`: what is wrong with the one file it was given. */
export function partFileFailure(path: string, files: PartFiles): Failure {
  const file = files.get(path);
  const faults = file === undefined || file.ok ? [] : file.faults;
  return new Failure(
    2,
    faults.map((fault) => ({ ...fault, file: path, text: `${fault.message}; ${fault.remedy}` })),
  );
}
