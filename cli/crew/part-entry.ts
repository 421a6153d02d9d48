/** A made part on the shelf: its record, and its large things each as a file. */
import { deserialize, serialize } from 'node:v8';
import { pictureOf, stlOf } from '../../core/job/file-bytes.js';
import type { PartInMould } from '../../core/job/freeze-part.js';
import type { JobPart } from '../../core/job/job.js';
import {
  type MadePart,
  type MemberState,
  memberStates,
  meshStates,
  type PartRecord,
} from '../../core/job/make-part.js';
import type { DrawnPart } from '../../core/report/drawing/index.js';
import type { Mesh } from '../../core/solid/types.js';
import type { KeptFile } from '../store/entry.js';
import type { StoredPart } from '../store/store.js';

/** A record as it is kept: equal parts have one, whatever asked for them. */
export type KeptRecord = Omit<PartRecord, 'request'>;

/** Files that go into the output as they are. */
export const wholeFiles = {
  part: 'part.stl',
  casting: 'casting.stl',
  pattern: 'pattern.stl',
  gated: 'gated.stl',
  preview: 'preview.png',
} as const;

/** Of a kind on a tree of several. */
export const memberFile = (index: number, state: MemberState): string =>
  `member ${index} ${wholeFiles[state]}`;

export function filesOf(made: MadePart): readonly KeptFile[] {
  const { request, meshes, standing, gatingMesh: _gating, drawing, memberBodies = [], ...record } = made;
  return [
    { name: 'record', bytes: serialize(record) },
    { name: 'drawings', bytes: serialize([drawing, ...memberBodies.map((m) => m.drawing)]) },
    ...meshFilesOf('gated', meshes.gated),
    ...meshFilesOf('standing', standing),
    ...meshStates.map((state) => ({
      name: wholeFiles[state],
      bytes: stlOf(request.name, state, meshes[state]),
    })),
    { name: wholeFiles.preview, bytes: pictureOf(made) },
    ...memberBodies.flatMap((member, i) =>
      memberStates.map((state) => ({
        name: memberFile(i, state),
        bytes: stlOf(`${request.name}, kind ${i + 1}`, state, member.meshes[state]),
      })),
    ),
  ];
}

export const readRecord = async (stored: StoredPart): Promise<KeptRecord> =>
  deserialize(await stored.read('record')) as KeptRecord;

/** Its own, and those of the kinds on a tree of several. */
export const readDrawings = async (stored: StoredPart): Promise<readonly DrawnPart[]> =>
  deserialize(await stored.read('drawings')) as readonly DrawnPart[];

export const readGated = (stored: StoredPart): Promise<Mesh> => readMesh(stored, 'gated');

export async function readInMould(stored: StoredPart, request: JobPart): Promise<PartInMould> {
  const record = await readRecord(stored);
  const [gated, standing] = [await readGated(stored), await readMesh(stored, 'standing')];
  return { ...record, request, meshes: { gated }, standing };
}

const meshFilesOf = (name: string, { positions, triangles }: Mesh): readonly KeptFile[] => [
  { name: `${name} positions`, bytes: bytesOf(positions) },
  { name: `${name} triangles`, bytes: bytesOf(triangles) },
];

async function readMesh(stored: StoredPart, name: string): Promise<Mesh> {
  const positions = aligned(await stored.read(`${name} positions`));
  const triangles = aligned(await stored.read(`${name} triangles`));
  return {
    positions: new Float32Array(positions.buffer, positions.byteOffset, positions.length / 4),
    triangles: new Uint32Array(triangles.buffer, triangles.byteOffset, triangles.length / 4),
  };
}

const bytesOf = ({ buffer, byteOffset, byteLength }: Float32Array | Uint32Array): Uint8Array =>
  new Uint8Array(buffer, byteOffset, byteLength);

const aligned = (bytes: Uint8Array): Uint8Array => (bytes.byteOffset % 4 === 0 ? bytes : bytes.slice());
