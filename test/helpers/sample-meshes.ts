import { createRequire } from 'node:module';
import type { ExactMesh } from '../../core/solid/types.js';

/** Meshes from the package registry, made for anyone to try programs on. */

interface Cells {
  readonly positions: readonly (readonly [number, number, number])[];
  readonly cells: readonly (readonly [number, number, number])[];
}

const require = createRequire(import.meta.url);

/** mm in one unit of the file; the axes stay as they are (both stand along y). */
function load(name: string, unit: number): ExactMesh {
  const { positions, cells } = require(name) as Cells;
  return {
    positions: Float64Array.from(positions.flat(), (v) => v * unit),
    triangles: Uint32Array.from(cells.flat()),
  };
}

/** The Stanford bunny, 3,674 triangles, 99 mm long when a unit is 10 mm: one closed surface. */
export const bunny = (unit = 10): ExactMesh => load('bunny', unit);

/** The Utah teapot, 992 triangles, 96 mm long when a unit is 3 mm: body, lid, handle and spout, each open. */
export const teapot = (unit = 3): ExactMesh => load('teapot', unit);
