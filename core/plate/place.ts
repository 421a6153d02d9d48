import { closeRoundedMesh } from '../files/rounded-mesh.js';
import type { PlatePlacement } from '../job/summary.js';
import { inspectOnce } from '../solid/inspect-once.js';
import type { Mesh } from '../solid/types.js';
import { turnOf } from './turn.js';

export { turnOf } from './turn.js';

/** Turn about Z by `turn` radians, then move by x, y, z mm. */
export interface Placing {
  readonly x: number;
  readonly y: number;
  readonly z: number;
  readonly turn: number;
}

export interface PlacedMesh {
  readonly name: string;
  readonly copy: number;
  /** In bed coordinates, lowest point at z = 0. */
  readonly mesh: Mesh;
  /** What takes the pattern's own mesh there: for files that carry placements, such as 3MF. */
  readonly placing: Placing;
}

/**
 * The plate's meshes in bed coordinates. Quarter turns are exact; turns and moves round x and y to float32, which can
 * make vertices closer than about 10 nm one: they are welded and the triangles that vanish are left out, so a
 * closed mesh stays closed by its edges. Where rounding yet makes surfaces cross, the pattern is laid some micrometres
 * beside, which its `placing` tells. z is unchanged when the lowest point is 0, otherwise the mesh is lifted.
 *
 * @throws RangeError for a placement without a mesh.
 */
export function plateMeshes(
  placements: readonly PlatePlacement[],
  meshes: ReadonlyMap<string, Mesh>,
): readonly PlacedMesh[] {
  return placements.map((placement) => {
    const mesh = meshes.get(placement.name);
    if (mesh === undefined) throw new RangeError(`no mesh for the placed pattern ${placement.name}`);
    const placing = { x: placement.x, y: placement.y, z: -lowest(mesh), turn: placement.turn };
    return { name: placement.name, copy: placement.copy, ...placeSoundly(mesh, placing) };
  });
}

/** mm that a pattern is moved at a time where rounding spoils its surface. */
const nudge = 5e-4;
/** Places tried beside the wanted one, none farther from it than 4 µm. */
const nudges = [
  [1, 0],
  [0, 1],
  [-1, 0],
  [0, -1],
  [3, 2],
  [-2, 3],
  [-3, -2],
  [2, -3],
  [7, 1],
  [-1, 7],
  [-7, -1],
  [1, -7],
] as const;

/** The mesh at its place, or at the nearest one tried at which it is sound; where none is, its check when written tells. */
function placeSoundly(mesh: Mesh, placing: Placing): { mesh: Mesh; placing: Placing } {
  const placed = placeMesh(mesh, placing);
  if (inspectOnce(placed).ok || !inspectOnce(mesh).ok) return { mesh: placed, placing };
  for (const [dx, dy] of nudges) {
    const beside = { ...placing, x: placing.x + dx * nudge, y: placing.y + dy * nudge };
    const moved = placeMesh(mesh, beside);
    if (inspectOnce(moved).ok) return { mesh: moved, placing: beside };
  }
  return { mesh: placed, placing };
}

/** The mesh turned and moved; see `plateMeshes` for its rounding. */
export function placeMesh(mesh: Mesh, placing: Placing): Mesh {
  const [c, s] = turnOf(placing.turn);
  const from = mesh.positions;
  const positions = new Float32Array(from.length);
  for (let i = 0; i < from.length; i += 3) {
    const x = from[i]!;
    const y = from[i + 1]!;
    positions[i] = c * x - s * y + placing.x;
    positions[i + 1] = s * x + c * y + placing.y;
    positions[i + 2] = from[i + 2]! + placing.z;
  }
  return closeRoundedMesh({ positions, triangles: mesh.triangles });
}

/** Several meshes as one, for files that hold one list of triangles. They must stand apart. */
export function joinMeshes(meshes: readonly Mesh[]): Mesh {
  const positions = new Float32Array(meshes.reduce((n, m) => n + m.positions.length, 0));
  const triangles = new Uint32Array(meshes.reduce((n, m) => n + m.triangles.length, 0));
  let p = 0;
  let t = 0;
  for (const mesh of meshes) {
    positions.set(mesh.positions, p);
    for (let i = 0; i < mesh.triangles.length; i++) triangles[t + i] = mesh.triangles[i]! + p / 3;
    p += mesh.positions.length;
    t += mesh.triangles.length;
  }
  return { positions, triangles };
}

function lowest(mesh: Mesh): number {
  let z = Number.POSITIVE_INFINITY;
  for (let i = 2; i < mesh.positions.length; i += 3) z = Math.min(z, mesh.positions[i]!);
  return z === 0 || !Number.isFinite(z) ? 0 : z;
}
