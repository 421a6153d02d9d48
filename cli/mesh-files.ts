import { resolve } from 'node:path';
import { FormatError } from '../core/files/format-error.js';
import type { Job } from '../core/job/job.js';
import type { MeshFault } from '../core/job/job-context.js';
import { meshFilesOf } from '../core/job/mesh-files-of.js';
import type { JobReading } from '../core/job/read-job.js';
import type { MeshFile } from '../core/mesh/mesh-file.js';
import type { PartDefinition } from '../core/part/contract.js';
import { Failure } from './failure.js';
import { readAtMost } from './read-source.js';

/**
 * Reads a job together with its mesh files. Where one of them cannot be read, the job is read again, so that the
 * fault is told where the job names it.
 * @param read the job; told of what is wrong with its files, once that is known
 * @param open gives what a file holds, by the name that the job gives it
 */
export async function readWithMeshFiles(
  read: (meshFaults?: ReadonlyMap<string, MeshFault>) => JobReading,
  open: (name: string) => Promise<MeshFile | MeshFault>,
  findPart: (name: string) => PartDefinition | undefined,
): Promise<JobReading> {
  const reading = read();
  if (!reading.ok) return reading;
  const names = meshFilesOf(reading.job, findPart);
  if (names.length === 0) return reading;
  await (await import('../generators/mesh/load-building.js')).loadMeshBuilding();
  const meshFiles = new Map<string, MeshFile>();
  const faults = new Map<string, MeshFault>();
  for (const name of names) {
    const opened = await open(name);
    if ('mesh' in opened && trianglesOf([...meshFiles.values(), opened]) > mostTriangles)
      faults.set(name, tooMany);
    else if ('mesh' in opened) meshFiles.set(name, opened);
    else faults.set(name, opened);
  }
  if (faults.size === 0) return { ok: true, job: { ...reading.job, meshFiles } satisfies Job };
  return read(faults);
}

/** Of all the files of a job: some 2 GB while they are worked on. */
const mostTriangles = 10_000_000;
const tooMany: MeshFault = {
  message: `brings the meshes of the job to more than ${mostTriangles / 1e6} million triangles`,
  remedy: 'thin them out, or make several jobs of it',
};

const trianglesOf = (files: readonly MeshFile[]): number =>
  files.reduce((sum, { mesh }) => sum + mesh.triangles.length / 3, 0);

/** Reads one mesh file, or says why it cannot be read. */
export async function openMesh(folder: string, name: string): Promise<MeshFile | MeshFault> {
  const { largestMeshFile, readMeshFile } = await import('../core/files/mesh-read/index.js');
  try {
    return readMeshFile(await readAtMost(resolve(folder, name), name, 'mesh file', largestMeshFile), name);
  } catch (error) {
    if (error instanceof FormatError)
      return { message: `cannot be used: ${error.message}`, remedy: error.remedy };
    if (error instanceof Failure) {
      const [problem] = error.problems;
      const why = (problem?.message ?? '').replace(`cannot read ${name}: `, '');
      return { message: `cannot be read: ${why}`, remedy: problem?.remedy ?? '' };
    }
    throw error;
  }
}
