import { expect } from 'vitest';
import { inspectMesh } from '../../core/solid/index.js';
import type { Mesh } from '../../core/solid/types.js';
import { selfCrossings } from './crossings.js';
import { topologyOf, volumeOf, type WeldedMesh, weld } from './welded-mesh.js';

export function weldedFrom({ positions, triangles }: Mesh): WeldedMesh {
  const corners = new Float32Array(3 * triangles.length);
  triangles.forEach((v, i) => {
    corners.set(positions.subarray(3 * v, 3 * v + 3), 3 * i);
  });
  return weld(corners);
}

/** The program's own check and an independent one must both find the mesh good, and agree on its volume. */
export function expectSound(mesh: Mesh): void {
  const report = inspectMesh(mesh);
  expect(report.problems).toEqual([]);
  const welded = weldedFrom(mesh);
  const topology = topologyOf(welded);
  expect(topology).toMatchObject({ unmatchedEdges: 0, collapsed: 0, pinched: 0 });
  expect(topology.components).toBe(report.components);
  expect(topology.genus).toBe(report.genus);
  expect(selfCrossings(welded)).toEqual([]);
  expect(volumeOf(welded)).toBeCloseTo(report.volume, 3);
}
