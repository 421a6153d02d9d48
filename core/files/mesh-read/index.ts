export { largestMeshFile, type MeshLimits, meshLimits } from './limits.js';
export { readMeshFile } from './read-mesh-file.js';
