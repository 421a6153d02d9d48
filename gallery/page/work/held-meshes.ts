import { FormatError } from '../../../core/files/format-error.js';
import type { Job } from '../../../core/job/job.js';
import type { MeshFault } from '../../../core/job/job-context.js';
import { meshFilesOf } from '../../../core/job/mesh-files-of.js';
import type { MeshFile } from '../../../core/mesh/mesh-file.js';
import { findPart } from '../../../generators/index.js';
import { loadMeshBuilding } from '../../../generators/mesh/load-building.js';
import { pageLimits } from '../mesh/limits.js';
import type { MeshRef } from '../mesh/mesh-ref.js';
import type { SentMesh, Sources } from './protocol.js';
import { readSources, type SourcesReading } from './read-sources.js';

interface Held {
  readonly blob: Blob;
  /** From when it is first wanted. */
  reading?: Promise<MeshFile | MeshFault>;
}

/** The mesh files of a worker: those of its last order, each read once. */
export class HeldMeshes {
  #held = new Map<string, Held>();

  /** At once when an order comes: takes in what it brings and lets go of what it does not name. */
  take({
    sources,
    meshes: brought = [],
  }: {
    readonly sources: Sources;
    readonly meshes?: readonly SentMesh[];
  }): void {
    const known = new Map([...this.#held, ...brought.map(({ id, blob }) => [id, { blob }] as const)]);
    const named = (sources.meshes ?? []).flatMap(({ id }) => {
      const held = known.get(id);
      return held ? [[id, held] as const] : [];
    });
    this.#held = new Map(named);
  }

  /** The job with what its mesh files hold. Never throws; a file that cannot be read is told where the job names it. */
  async read(sources: Sources): Promise<SourcesReading> {
    const reading = readSources(sources);
    if (!reading.ok) return reading;
    const { files, faults } = await this.#filesOf(reading.job, sources.meshes ?? []);
    if (faults.size > 0) return readSources(sources, faults);
    return files.size === 0 ? reading : { ok: true, job: { ...reading.job, meshFiles: files } };
  }

  async #filesOf(job: Job, refs: readonly MeshRef[]) {
    const files = new Map<string, MeshFile>();
    const faults = new Map<string, MeshFault>();
    for (const name of meshFilesOf(job, findPart)) {
      const held = this.#held.get(refs.find((ref) => ref.name === name)?.id ?? '');
      if (held) held.reading ??= readBlob(held.blob, name);
      const read = (await held?.reading) ?? lost;
      if ('mesh' in read) files.set(name, read);
      else faults.set(name, read);
    }
    return { files, faults };
  }
}

const lost: MeshFault = { message: 'is no longer held by the browser', remedy: 'open it again' };

async function readBlob(blob: Blob, name: string): Promise<MeshFile | MeshFault> {
  // Only jobs with meshes wait for the readers, and for what builds them.
  await loadMeshBuilding();
  const reader = await import('../../../core/files/mesh-read/index.js');
  let bytes: Uint8Array;
  try {
    bytes = new Uint8Array(await blob.arrayBuffer());
  } catch {
    return lost;
  }
  try {
    return await reader.readMeshFile(bytes, name, { ...reader.meshLimits, ...pageLimits });
  } catch (error) {
    if (error instanceof FormatError)
      return { message: `cannot be used: ${error.message}`, remedy: error.remedy };
    throw error;
  }
}
