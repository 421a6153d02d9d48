import { type Triangulate, triangulate } from './binding.js';
import { type Engine, type EngineOptions, guard, loadEngine, runScope } from './engine.js';
import { KernelSolid } from './kernel-solid.js';
import { loftMesh } from './loft.js';
import { solidOfMesh } from './mesh-solid.js';
import { loadModeling, type ModelingGeometries, meshOfModeling, modelingOfMesh } from './modeling.js';
import * as primitives from './primitives.js';
import type { Kernel, LoftSection, Solid } from './types.js';

interface Loaded {
  readonly engine: Engine;
  readonly kernel: Kernel;
}
let loading: Promise<Loaded> | undefined;

/**
 * The shape kernel, loaded once for the whole program, and anew where the last has ended. Loading reads manifold-3d's
 * WASM and @jscad/modeling, which importing this file does not.
 *
 * @param options only those of the call that loads it count
 */
export async function loadKernel(options: EngineOptions = {}): Promise<Kernel> {
  const last = loading;
  // Another call may have begun meanwhile.
  if ((await last)?.engine.isLost && loading === last) loading = undefined;
  loading ??= load(options);
  return (await loading).kernel;
}

async function load(options: EngineOptions): Promise<Loaded> {
  const [engine, modeling] = await Promise.all([loadEngine(options), loadModeling()]);
  return { engine, kernel: assemble(engine, modeling) };
}

function assemble(engine: Engine, modeling: ModelingGeometries): Kernel {
  const fill = fillWith(engine);
  const isSolid = (value: unknown): boolean => value instanceof KernelSolid;
  return {
    scope: (step) => runScope(engine, step, isSolid),
    fromMesh: (mesh) => solidOfMesh(engine, mesh, 'fromMesh'),
    loft: (sections, diagonal) => makeLoft(engine, sections, diagonal),
    extrude: (outlines, z0, z1) => primitives.makeExtrusion(engine, outlines, z0, z1),
    revolve: (profile, tolerance) => primitives.makeRevolution(engine, profile, tolerance),
    frustum: (at, z0, r0, z1, r1, tolerance) => primitives.makeFrustum(engine, at, z0, r0, z1, r1, tolerance),
    box: (min, max) => primitives.makeBox(engine, min, max),
    sphere: (centre, radius, tolerance) => primitives.makeSphere(engine, centre, radius, tolerance),
    hull: (parts) => primitives.makeHull(engine, parts),
    fill: (outlines) => guard(engine, 'fill', () => fill(outlines)),
    union: (parts) => primitives.makeUnion(engine, parts),
    fromModeling: (geometry) =>
      solidOfMesh(
        engine,
        guard(engine, 'fromModeling', () => meshOfModeling(modeling, geometry, fill)),
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
  const mesh = guard(engine, 'loft', () => loftMesh(sections, fillWith(engine), diagonal));
  return solidOfMesh(engine, mesh, 'loft');
}
