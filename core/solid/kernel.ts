import { type Engine, type EngineOptions, guard, loadEngine } from './engine.js';
import { SolidError } from './errors.js';
import { KernelSolid } from './kernel-solid.js';
import { loftMesh } from './loft.js';
import { loadModeling, type ModelingGeometries, meshOfModeling, modelingOfMesh } from './modeling.js';
import * as primitives from './primitives.js';
import type { Kernel, LoftSection, Mesh, Solid } from './types.js';
import { weldMesh } from './weld.js';

let loaded: Promise<Kernel> | undefined;

/**
 * The shape kernel, loaded once for the whole program. Loading reads manifold-3d's WASM and @jscad/modeling,
 * which importing this file does not.
 *
 * @param options only the first call's count
 */
export function loadKernel(options: EngineOptions = {}): Promise<Kernel> {
  loaded ??= Promise.all([loadEngine(options), loadModeling()]).then(([engine, modeling]) =>
    assemble(engine, modeling),
  );
  return loaded;
}

function assemble(engine: Engine, modeling: ModelingGeometries): Kernel {
  const { triangulate } = engine.wasm;
  const isSolid = (value: unknown): boolean => value instanceof KernelSolid;
  return {
    scope: (step) => engine.scopes.run(step, isSolid),
    fromMesh: (mesh) => solidOfMesh(engine, mesh, 'fromMesh'),
    loft: (sections, diagonal) => makeLoft(engine, sections, diagonal),
    extrude: (outlines, z0, z1) => primitives.makeExtrusion(engine, outlines, z0, z1),
    revolve: (profile, tolerance) => primitives.makeRevolution(engine, profile, tolerance),
    frustum: (at, z0, r0, z1, r1, tolerance) => primitives.makeFrustum(engine, at, z0, r0, z1, r1, tolerance),
    box: (min, max) => primitives.makeBox(engine, min, max),
    sphere: (centre, radius, tolerance) => primitives.makeSphere(engine, centre, radius, tolerance),
    hull: (parts) => primitives.makeHull(engine, parts),
    union: (parts) => primitives.makeUnion(engine, parts),
    fromModeling: (geometry) =>
      solidOfMesh(
        engine,
        guard('fromModeling', () => meshOfModeling(modeling, geometry, triangulate)),
        'fromModeling',
      ),
    toModeling: (solid) => modelingOfMesh(modeling, solid.mesh()),
  };
}

function makeLoft(
  engine: Engine,
  sections: readonly LoftSection[],
  diagonal?: (layer: number, i: number) => boolean,
): Solid {
  const mesh = guard('loft', () => loftMesh(sections, engine.wasm.triangulate, diagonal));
  return solidOfMesh(engine, mesh, 'loft');
}

/** A solid of a closed, outward-facing mesh; corners at one float32 position are joined first. */
function solidOfMesh(engine: Engine, mesh: Mesh, what: string): Solid {
  checkMesh(mesh, what);
  const { positions, triangles } = weldMesh(mesh);
  const solid = KernelSolid.make(engine, what, () => {
    try {
      const input = new engine.wasm.Mesh({ numProp: 3, vertProperties: positions, triVerts: triangles });
      return engine.wasm.Manifold.ofMesh(input);
    } catch (error) {
      const reason = error instanceof Error ? error.message : String(error);
      throw new SolidError(
        'bad-mesh',
        `${what}: the mesh is not a closed, oriented surface (${reason}); every edge must have exactly two triangles, one in each direction`,
      );
    }
  });
  if (!(solid.volume() > 0))
    throw new SolidError(
      'bad-mesh',
      `${what}: the mesh encloses ${solid.volume()} mm³; it is inside out, or its sections run the wrong way`,
    );
  return solid;
}

function checkMesh({ positions, triangles }: Mesh, what: string): void {
  if (positions.length === 0 || positions.length % 3 !== 0)
    throw new SolidError('bad-mesh', `${what}: ${positions.length} coordinates; three a vertex are needed`);
  if (triangles.length === 0 || triangles.length % 3 !== 0)
    throw new SolidError('bad-mesh', `${what}: ${triangles.length} corners; three a triangle are needed`);
  const bad = positions.findIndex((value) => !Number.isFinite(value));
  if (bad >= 0)
    throw new SolidError(
      'bad-mesh',
      `${what}: vertex ${Math.floor(bad / 3)} is not finite (${positions[bad]})`,
    );
  const count = positions.length / 3;
  const lost = triangles.findIndex((v) => v >= count);
  if (lost >= 0)
    throw new SolidError(
      'bad-mesh',
      `${what}: triangle ${Math.floor(lost / 3)} names vertex ${triangles[lost]} of ${count}`,
    );
}
