/** Sample meshes, and files of them by other hands than ours: the exporters and buffers of three. */
import { BufferAttribute, BufferGeometry, Mesh as ThreeMesh } from 'three';
import { OBJExporter } from 'three/examples/jsm/exporters/OBJExporter.js';
import { PLYExporter } from 'three/examples/jsm/exporters/PLYExporter.js';
import { STLExporter } from 'three/examples/jsm/exporters/STLExporter.js';
import type { MeshFile } from '../../../../core/mesh/mesh-file.js';
import type { ExactMesh, Mesh } from '../../../../core/solid/types.js';
import { bunny, teapot } from '../../../helpers/sample-meshes.js';

const toMesh = ({ positions, triangles }: ExactMesh): Mesh => ({
  positions: Float32Array.from(positions),
  triangles,
});

/** In float32, as every writer gives them. */
export const sampleMeshes: Readonly<Record<string, Mesh>> = {
  bunny: toMesh(bunny(1)),
  teapot: toMesh(teapot(1)),
};

export const utf8 = (text: string): Uint8Array => new TextEncoder().encode(text);

/** The bytes of what an exporter gives: text, a view or a buffer. */
const bytesOf = (given: string | DataView | ArrayBuffer | null): Uint8Array => {
  if (given === null) throw new Error('nothing was written');
  if (typeof given === 'string') return utf8(given);
  return given instanceof DataView ? new Uint8Array(given.buffer) : new Uint8Array(given);
};

export type ThreeForm = 'stl' | 'stl text' | 'obj' | 'ply text' | 'ply little' | 'ply big';
export const threeForms: readonly ThreeForm[] = [
  'stl',
  'stl text',
  'obj',
  'ply text',
  'ply little',
  'ply big',
];

/** A file of the mesh, written by three. */
export function writeByThree(mesh: Mesh, form: ThreeForm): Uint8Array {
  const geometry = new BufferGeometry();
  geometry.setAttribute('position', new BufferAttribute(mesh.positions, 3));
  geometry.setIndex(new BufferAttribute(mesh.triangles, 1));
  const object = new ThreeMesh(geometry);
  switch (form) {
    case 'stl':
      return bytesOf(new STLExporter().parse(object, { binary: true }));
    case 'stl text':
      return bytesOf(new STLExporter().parse(object, { binary: false }));
    case 'obj':
      return bytesOf(new OBJExporter().parse(object));
    default: {
      // The exporter calls back by the page's clock, even where there is no page.
      const page = globalThis as { requestAnimationFrame?: unknown };
      const earlier = page.requestAnimationFrame;
      page.requestAnimationFrame = () => 0;
      const options = { binary: form !== 'ply text', littleEndian: form === 'ply little' };
      const given = new PLYExporter().parse(object, () => undefined, options as { binary: false });
      page.requestAnimationFrame = earlier;
      return bytesOf(given as string | ArrayBuffer | null);
    }
  }
}

/** Corner by corner, whatever the indexing. */
export const cornersOf = (mesh: MeshFile['mesh'] | Mesh): Float64Array => {
  const corners = new Float64Array(3 * mesh.triangles.length);
  mesh.triangles.forEach((v, i) => {
    for (let k = 0; k < 3; k++) corners[3 * i + k] = mesh.positions[3 * v + k]! + 0;
  });
  return corners;
};

/** Why the mesh is not sound, in words; empty where it is. */
export function unsoundness({ positions, triangles }: MeshFile['mesh']): string {
  if (!(positions instanceof Float64Array) || !(triangles instanceof Uint32Array)) return 'other arrays';
  if (triangles.length === 0 || triangles.length % 3 !== 0) return `${triangles.length} indices`;
  if (positions.length % 3 !== 0) return `${positions.length} coordinates`;
  if (triangles.some((v) => v >= positions.length / 3)) return 'an index without its vertex';
  return positions.every((x) => Math.abs(x) <= 3.4028234663852886e38)
    ? ''
    : 'a coordinate that is no float32';
}
