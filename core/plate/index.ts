export { checkPlate, type PlateProblem } from './check-plate.js';
export type { KeepOut, NestBed, NestItem, NestOptions, NestRefusal, NestResult } from './contract.js';
export { defaultGap, findRefused, nest } from './nest.js';
export { joinMeshes, type PlacedMesh, type Placing, placeMesh, plateMeshes, turnOf } from './place.js';
