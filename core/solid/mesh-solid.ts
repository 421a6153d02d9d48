import type { Manifold } from 'manifold-3d/manifold.js';
import { type Engine, isBreak } from './engine.js';
import { SolidError } from './errors.js';
import { KernelSolid } from './kernel-solid.js';
import { dropCollapsed } from './mesh-topology.js';
import { PositionTable } from './position-table.js';
import type { Solid } from './types.js';
import { weldMesh } from './weld.js';

/** A mesh on its way into the kernel: vertices in float32 or, from our own formulas, in double precision. */
export interface RawMesh {
  readonly positions: Float32Array | Float64Array;
  readonly triangles: Uint32Array;
}

/**
 * A solid of a closed, outward-facing mesh; corners at one float32 position are joined first, and triangles that
 * thereby lose a corner are left out. `what` names the operation in errors.
 */
export function solidOfMesh(engine: Engine, mesh: RawMesh, what: string): Solid {
  checkMesh(mesh, what);
  const rounded = new Float32Array(mesh.positions);
  const { positions, triangles } = dropCollapsed(weldMesh({ positions: rounded, triangles: mesh.triangles }));
  const input = new engine.wasm.Mesh({ numProp: 3, vertProperties: positions, triVerts: triangles });
  const solid = KernelSolid.make(engine, what, () => {
    const coarse = takeIn(engine, input, what);
    if (!(mesh.positions instanceof Float64Array)) return coarse;
    try {
      return unround(coarse, mesh.positions);
    } finally {
      coarse.delete();
    }
  });
  if (!(solid.volume() > 0))
    throw new SolidError(
      'bad-mesh',
      `${what}: the mesh encloses ${solid.volume()} mm³; it is inside out, or its sections run the wrong way`,
    );
  return solid;
}

function takeIn(engine: Engine, input: InstanceType<Engine['wasm']['Mesh']>, what: string): Manifold {
  try {
    return engine.wasm.Manifold.ofMesh(input);
  } catch (error) {
    if (isBreak(error)) throw error;
    const reason = error instanceof Error ? error.message : String(error);
    throw new SolidError(
      'bad-mesh',
      `${what}: the mesh is not a closed, oriented surface (${reason}); ` +
        'every edge must have exactly two triangles, one in each direction',
    );
  }
}

/**
 * The kernel takes meshes in float32 only, which would leave a lofted face at 24.3 mm a little off a box's.
 * Puts every vertex back to the double it was rounded from.
 */
function unround(manifold: Manifold, exact: Float64Array): Manifold {
  const table = new PositionTable(exact.length / 3);
  const source: number[] = [];
  for (let i = 0; i < exact.length; i += 3) {
    const position = table.add(exact[i]!, exact[i + 1]!, exact[i + 2]!);
    source[position] ??= i;
  }
  return manifold.warpBatch((vertices, count) => {
    for (let i = 0; i < 3 * count; i += 3) {
      const at = source[table.find(vertices[i]!, vertices[i + 1]!, vertices[i + 2]!)];
      if (at !== undefined) vertices.set(exact.subarray(at, at + 3), i);
    }
  });
}

function checkMesh({ positions, triangles }: RawMesh, what: string): void {
  if (positions.length === 0 || positions.length % 3 !== 0)
    throw new SolidError('bad-mesh', `${what}: ${positions.length} coordinates; three a vertex are needed`);
  if (triangles.length === 0 || triangles.length % 3 !== 0)
    throw new SolidError('bad-mesh', `${what}: ${triangles.length} corners; three a triangle are needed`);
  const bad = positions.findIndex((value) => !Number.isFinite(Math.fround(value)));
  if (bad >= 0)
    throw new SolidError(
      'bad-mesh',
      `${what}: vertex ${Math.floor(bad / 3)} is not finite in float32 (${positions[bad]})`,
    );
  const count = positions.length / 3;
  const lost = triangles.findIndex((v) => v >= count);
  if (lost >= 0)
    throw new SolidError(
      'bad-mesh',
      `${what}: triangle ${Math.floor(lost / 3)} names vertex ${triangles[lost]}; there are ${count}`,
    );
}
