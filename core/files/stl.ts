/**
 * The STL writer. This module loads @jscad/modeling: import it where a file is written (`await import`), not at
 * start-up; `stl-read.ts` is light.
 */
import modeling from '@jscad/modeling';
import { serializeBinary } from '@jscad/stl-serializer/CSGToStlb.js';
import { faceVectors } from '../solid/face-vectors.js';
import { inspectMesh } from '../solid/inspect.js';
import { inspectOnce } from '../solid/inspect-once.js';
import type { Mesh } from '../solid/types.js';
import { checkWritable } from './check-writable.js';
import { FormatError } from './format-error.js';
import { readStl, stlHeaderLength } from './stl-read.js';

export { readStl } from './stl-read.js';

type Vec3 = [number, number, number];
type Poly3 = ReturnType<typeof modeling.geometries.poly3.create>;

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
  const solid = modeling.geometries.geom3.create(polygonsOf(mesh));
  const [, count, body] = serializeBinary([solid], {});
  const bytes = new Uint8Array(stlHeaderLength + 4 + body.byteLength);
  bytes.set(new TextEncoder().encode(header.padEnd(stlHeaderLength, ' ')));
  bytes.set(new Uint8Array(count), stlHeaderLength);
  bytes.set(new Uint8Array(body), stlHeaderLength + 4);
  return bytes;
}

/**
 * The triangles as the serializer asks for them, by `forEach` alone: one polygon that takes their shapes in turn, since
 * making and clearing away one for each takes longer than all of its own work. Planes are as the library makes them.
 */
function polygonsOf(mesh: Mesh): Poly3[] {
  const { positions: p, triangles: t } = mesh;
  const vectors = faceVectors(mesh);
  const corners: [Vec3, Vec3, Vec3] = [
    [0, 0, 0],
    [0, 0, 0],
    [0, 0, 0],
  ];
  const plane: [number, number, number, number] = [0, 0, 0, 0];
  const polygon = modeling.geometries.poly3.fromPointsAndPlane(corners, plane);
  const forEach = (visit: (polygon: Poly3, index: number) => void): void => {
    for (let i = 0; i < t.length; i += 3) {
      for (let k = 0; k < 3; k++) {
        const v = 3 * t[i + k]!;
        const vertex = corners[k]!;
        vertex[0] = p[v]!;
        vertex[1] = p[v + 1]!;
        vertex[2] = p[v + 2]!;
      }
      const [x, y, z] = [vectors[i]!, vectors[i + 1]!, vectors[i + 2]!];
      const square = x * x + y * y + z * z;
      const scale = square > 0 ? 1 / Math.sqrt(square) : 0;
      const [ax, ay, az] = corners[0];
      plane[0] = x * scale;
      plane[1] = y * scale;
      plane[2] = z * scale;
      plane[3] = plane[0] * ax + plane[1] * ay + plane[2] * az;
      visit(polygon, i / 3);
    }
  };
  return { forEach } as Poly3[];
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
