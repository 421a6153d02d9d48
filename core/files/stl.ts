/**
 * The STL writer. This module loads @jscad/modeling: import it where a file is written (`await import`), not at
 * start-up; `stl-read.ts` is light.
 */
import modeling from '@jscad/modeling';
import { serializeBinary } from '@jscad/stl-serializer/CSGToStlb.js';
import { faceVectors } from '../solid/face-vectors.js';
import { inspectMesh } from '../solid/inspect.js';
import { inspectOnce } from '../solid/inspect-once.js';
import type { Mesh, Vec3 } from '../solid/types.js';
import { checkWritable } from './check-writable.js';
import { FormatError } from './format-error.js';
import { readStl, stlHeaderLength } from './stl-read.js';

export { readStl } from './stl-read.js';

/** Exactly what the header says. It must not begin with "solid", which marks text STL. */
const header = 'Patternwright binary STL, unit: millimetre';

/**
 * Writes a binary STL, 84 + 50 bytes a triangle, mm. Goes through the binary writer of @jscad/stl-serializer
 * alone: its public `serialize` snaps vertices to a grid, which can open a closed mesh.
 *
 * @throws FormatError for a mesh no file can carry. Does not ask whether it is closed: `writeCheckedStl` does.
 */
export function writeStl(mesh: Mesh): Uint8Array {
  checkWritable(mesh);
  const { poly3, geom3 } = modeling.geometries;
  const { positions: p, triangles: t } = mesh;
  const corners: [number, number, number][] = [];
  for (let v = 0; v < p.length; v += 3) corners.push([p[v]!, p[v + 1]!, p[v + 2]!]);
  const vectors = faceVectors(mesh);
  const polygons = [];
  for (let i = 0; i < t.length; i += 3) {
    const a = corners[t[i]!]!;
    const plane = planeAlong(vectors[i]!, vectors[i + 1]!, vectors[i + 2]!, a);
    polygons.push(poly3.fromPointsAndPlane([a, corners[t[i + 1]!]!, corners[t[i + 2]!]!], plane));
  }
  const [, count, body] = serializeBinary([geom3.create(polygons)], {});
  const bytes = new Uint8Array(stlHeaderLength + 4 + body.byteLength);
  bytes.set(new TextEncoder().encode(header.padEnd(stlHeaderLength, ' ')));
  bytes.set(new Uint8Array(count), stlHeaderLength);
  bytes.set(new Uint8Array(body), stlHeaderLength + 4);
  return bytes;
}

/** The plane through a point as the library works it out for itself, more slowly. */
function planeAlong(x: number, y: number, z: number, [ax, ay, az]: Vec3): [number, number, number, number] {
  const square = x * x + y * y + z * z;
  const scale = square > 0 ? 1 / Math.sqrt(square) : square;
  const [nx, ny, nz] = [x * scale, y * scale, z * scale];
  return [nx, ny, nz, nx * ax + ny * ay + nz * az];
}

/**
 * Writes the STL, reads its bytes back and checks that what is in them is a closed, oriented mesh.
 *
 * @param what names the shape in the error, for example `pulls/gated.stl`.
 * @throws FormatError `mesh-open` with the problems found.
 */
export function writeCheckedStl(mesh: Mesh, what = 'The mesh'): Uint8Array {
  const bytes = writeStl(mesh);
  // The bytes hold the very triangles that were inspected, or they are inspected themselves.
  const found = holdsTriangles(bytes, mesh) ? inspectOnce(mesh) : inspectMesh(readStl(bytes));
  if (!found.ok) {
    throw new FormatError(
      'mesh-open',
      `${what}, read back from its STL, is not a closed solid: ${found.problems.join('; ')}.`,
      'Parts that join must overlap by a real amount; parts that do not must stand clear of each other.',
    );
  }
  return bytes;
}

/** Whether the file's triangles are the mesh's, corner by corner, bit for bit. */
function holdsTriangles(bytes: Uint8Array, { positions, triangles }: Mesh): boolean {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const count = triangles.length / 3;
  const start = stlHeaderLength + 4;
  if (bytes.byteLength !== start + 50 * count || view.getUint32(stlHeaderLength, true) !== count)
    return false;
  for (let i = 0; i < triangles.length; i++) {
    // A record: normal, three corners, two bytes.
    const at = start + 50 * Math.floor(i / 3) + 12 + 12 * (i % 3);
    const vertex = 3 * triangles[i]!;
    for (let k = 0; k < 3; k++) {
      if (!Object.is(view.getFloat32(at + 4 * k, true), positions[vertex + k]!)) return false;
    }
  }
  return true;
}
