/** Keys of what is made for a job: of all that it is made of, so that what is the same is made once. */
import type { MouldAtPour } from '../../core/job/freeze-mould.js';
import type { Job, JobPart } from '../../core/job/job.js';
import { meshFilesOf } from '../../core/job/mesh-files-of.js';
import { shapeOf, sharedInFreezing, sharedOf } from '../../core/job/part-shape.js';
import type { MeshFile } from '../../core/mesh/mesh-file.js';
import type { PartDefinition } from '../../core/part/contract.js';
import { keyOf } from '../store/key.js';
import { isOwnCode, type Terms } from './terms.js';

export interface JobKeys {
  /** Of a part in all its states. */
  readonly ofPart: (request: JobPart) => string;
  /** Of how its mould freezes. */
  readonly ofMould: (partKey: string, at: MouldAtPour) => string;
}

/**
 * @param program which program makes it; what another makes may differ
 * @param run stands for this run alone: nobody knows what somebody's own code makes of the same numbers next time
 */
export function jobKeys(
  { job, learnt }: Terms,
  program: string,
  run: string,
  findPart: (name: string) => PartDefinition | undefined,
): JobKeys {
  const shared = keyOf(['part', program, asData(sharedOf(job))]);
  const inFreezing = keyOf(['mould', program, asData(sharedInFreezing(job))]);
  const meshes = new Map<string, string>();
  const meshKey = (name: string): string => {
    const known = meshes.get(name) ?? keyOfMesh(name, job);
    meshes.set(name, known);
    return known;
  };
  return {
    ofPart: (request) => {
      const files = meshFilesOf({ parts: [request] }, findPart).map((name) => [name, meshKey(name)]);
      const from = [shared, asData(shapeOf(request)), asData(learnt.get(request.alloy) ?? null), files];
      return keyOf(isOwnCode(request) ? [...from, run] : from);
    },
    ofMould: (partKey, at) => keyOf([inFreezing, partKey, asData(at)]),
  };
}

function keyOfMesh(name: string, { meshFiles }: Pick<Job, 'meshFiles'>): string {
  const file = meshFiles?.get(name);
  return file === undefined ? '' : keyOf(meshData(file));
}

const meshData = ({ format, unit, mesh: { positions, triangles } }: MeshFile) => [
  format,
  unit,
  bytesOf(positions),
  bytesOf(triangles),
];

const bytesOf = ({ buffer, byteOffset, byteLength }: Float64Array | Uint32Array): Uint8Array =>
  new Uint8Array(buffer, byteOffset, byteLength);

/** Without what JSON leaves out, such as a field of a definition that is a function; numbers that it has no word for in words. */
const asData = (value: unknown): unknown =>
  JSON.parse(JSON.stringify(value, (_, v: unknown) => (isWordless(v) ? numberWord(v) : v)));

const isWordless = (v: unknown): v is number =>
  typeof v === 'number' && (!Number.isFinite(v) || Object.is(v, -0));
const numberWord = (v: number): string => (v === 0 ? '-0' : String(v));
