import { smoothNormals } from '../../../core/report/render/smooth-normals.js';
import type { Mesh } from '../../../core/solid/types.js';
import { weldMesh } from '../../../core/solid/weld.js';

/** A mesh as the graphics card wants it. */
export interface ShadedMesh {
  /** x, y, z a triangle corner. */
  readonly positions: Float32Array;
  readonly normals: Float32Array;
  /** Ends of the creases, x, y, z each. */
  readonly creases: Float32Array;
}

/** Smooth shading split at creases. Quick: 30,000 triangles in about 20 ms. */
export function shadeMesh(mesh: Mesh): ShadedMesh {
  const welded = weldMesh(mesh);
  const { positions: p, triangles: t } = welded;
  const { corners, creases, twins } = smoothNormals(welded);
  const positions = new Float32Array(3 * t.length);
  let lines = 0;
  for (let h = 0; h < t.length; h++) {
    const v = 3 * t[h]!;
    positions[3 * h] = p[v]!;
    positions[3 * h + 1] = p[v + 1]!;
    positions[3 * h + 2] = p[v + 2]!;
    if (isDrawn(h, creases, twins)) lines++;
  }
  const ends = new Float32Array(6 * lines);
  let at = 0;
  for (let h = 0; h < t.length; h++) {
    if (!isDrawn(h, creases, twins)) continue;
    const next = h % 3 === 2 ? h - 2 : h + 1;
    ends.set(positions.subarray(3 * h, 3 * h + 3), at);
    ends.set(positions.subarray(3 * next, 3 * next + 3), at + 3);
    at += 6;
  }
  return { positions, normals: corners, creases: ends };
}

/** A crease belongs to two triangles and is drawn once. */
const isDrawn = (h: number, creases: Uint8Array, twins: Int32Array): boolean =>
  creases[h] === 1 && (twins[h]! < 0 || h < twins[h]!);
