import { type Triangulate, triangulate } from './binding.js';
import { type Engine, type EngineOptions, guard, loadEngine } from './engine.js';
import { KernelSolid } from './kernel-solid.js';
import { loftMesh } from './loft.js';
import { solidOfMesh } from './mesh-solid.js';
import { loadModeling, type ModelingGeometries, meshOfModeling, modelingOfMesh } from './modeling.js';
import * as primitives from './primitives.js';
import type { Kernel, LoftSection, Solid } from './types.js';

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
  const fill = fillWith(engine);
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
    fill: (outlines) => guard('fill', () => fill(outlines)),
    union: (parts) => primitives.makeUnion(engine, parts),
    fromModeling: (geometry) =>
      solidOfMesh(
        engine,
        guard('fromModeling', () => meshOfModeling(modeling, geometry, fill)),
        'fromModeling',
      ),
    toModeling: (solid) => modelingOfMesh(modeling, solid.mesh()),
  };
}

/** Triangles over outlines, from the engine's own triangulation, which bears nearly touching points. */
const fillWith =
  (engine: Engine): Triangulate =>
  (outlines) =>
    triangulate(engine.wasm, outlines);

function makeLoft(
  engine: Engine,
  sections: readonly LoftSection[],
  diagonal?: (layer: number, i: number) => boolean,
): Solid {
  const mesh = guard('loft', () => loftMesh(sections, fillWith(engine), diagonal));
  return solidOfMesh(engine, mesh, 'loft');
}
