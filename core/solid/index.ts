/** `SolidError`, the kernel's one error, and its codes; `ToleranceError`. */
export * from './errors.js';
/** `inspectMesh`: is a mesh closed, oriented, manifold and free of self-intersection? */
export { inspectMesh, type MeshReport } from './inspect.js';
/** `inspectOnce`: the same, remembered by mesh. */
export { inspectOnce } from './inspect-once.js';
/** `loadKernel`: the shape kernel. */
export { loadKernel } from './kernel.js';
/** `measureMesh`: volume, area, centroid and inertia of a closed mesh. */
export { measureMesh } from './mass-properties.js';
/** `measureBounds`, `measurePlanRadius`: the room a mesh takes. */
export { measureBounds, measurePlanRadius } from './mesh-bounds.js';
/** `scaleMesh`: a pattern from its casting. */
export { scaleMesh } from './scale-mesh.js';
/** `segmentsOfCircle`, `segmentsOfSphere`: sides from the chord tolerance. */
export { segmentsOfCircle, segmentsOfSphere } from './segments.js';
/** Solid, Mesh, Kernel and the other shapes of data. */
export type * from './types.js';
/** `weldMesh`: one vertex for each float32 position, as STL is read. */
export { weldMesh } from './weld.js';
