// Text and PLY are read here, not by a library: the usual readers round doubles to float32, fan out faces with bays,
// leave out faces of five corners and pass over indices that name no vertex. The tests hold both side by side.
export { largestMeshFile, type MeshLimits, meshLimits } from './limits.js';
export { readMeshFile } from './read-mesh-file.js';
