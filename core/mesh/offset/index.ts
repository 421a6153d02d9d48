/** `offsetMesh`: stock on a mesh, an amount a triangle; its error measured. */

export type { OffsetError } from './measure-offset.js';
export { type OffsetOptions, offsetMesh } from './offset-mesh.js';
