import type { buildMesh } from './build.js';

let loaded: typeof buildMesh | undefined;

/** Loads what builds parts from meshes: large, and wanted by those alone that have read a mesh file to build from. */
export async function loadMeshBuilding(): Promise<void> {
  loaded ??= (await import('./build.js')).buildMesh;
}

/** @throws Error before `loadMeshBuilding` */
export function meshBuilding(): typeof buildMesh {
  if (loaded === undefined) throw new Error('What builds meshes is not loaded.');
  return loaded;
}
