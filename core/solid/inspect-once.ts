import { inspectMesh, type MeshReport } from './inspect.js';
import type { Mesh } from './types.js';

const reports = new WeakMap<Mesh, MeshReport>();

/** `inspectMesh`, remembered for as long as the mesh lives: meshes never change once they are made. */
export function inspectOnce(mesh: Mesh): MeshReport {
  const known = reports.get(mesh);
  if (known) return known;
  const report = inspectMesh(mesh);
  reports.set(mesh, report);
  return report;
}
