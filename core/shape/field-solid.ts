import type { ExactMesh, Kernel, Solid } from '../solid/types.js';
import type { Field } from './field.js';
import { fitSurface } from './fit-surface.js';
import { marchField } from './march.js';
import { SurfaceMesh } from './surface-mesh.js';

/**
 * The solid of a field, or with stock its parallel body: corners on the surface within 1e-6 mm, all else within
 * `tolerance` mm of it. Meant for smooth bodies: flat feet and sharp edges are cut after.
 *
 * @param stock mm, less than the smallest fillet
 * @param cell side of the grid that first finds the surface, mm; from the field's smallest detail when left out.
 * Whatever is thinner than the cell may be lost.
 */
export function fieldSolid(
  kernel: Kernel,
  field: Field,
  tolerance: number,
  stock = 0,
  cell = fitCell(field),
): Solid {
  return kernel.fromMesh(fieldMesh(field, tolerance, stock, cell));
}

/** Of the tolerance, for the places looked at: between them a triangle may stray a little further (the tests look closely). */
const fitShare = 0.85;

/** The mesh of `fieldSolid`, before it enters the kernel. */
export function fieldMesh(field: Field, tolerance: number, stock = 0, cell = fitCell(field)): ExactMesh {
  const mesh = new SurfaceMesh(marchField(field, stock, cell));
  fitSurface(mesh, field, stock, fitShare * tolerance);
  return mesh.take();
}

/** A little less than the smallest detail, but no more cells along the body than pay. */
function fitCell({ bounds: { min, max }, detail }: Field): number {
  const extent = Math.max(max[0] - min[0], max[1] - min[1], max[2] - min[2]);
  return Math.min(Math.max(0.8 * detail, extent / 160), extent / 16);
}
