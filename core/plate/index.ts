export { defaultGap, type NestBed, type NestItem, type NestRefusal, type NestResult, nest } from './nest.js';
export { joinMeshes, type PlacedMesh, type Placing, placeMesh, plateMeshes, turnOf } from './place.js';
