/** `findSurfaces`: planes and cylinders of a mesh, named by position. */
export { findSurfaces } from './find-surfaces.js';
export type { CylinderForm, Facing, Place, SurfacePlace } from './place.js';
export type { CylinderSurface, FitError, MeshSurface, PlaneSurface } from './surface.js';
