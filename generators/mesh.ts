import { definePart, freeFormTolerance } from '../core/part/contract.js';
import { buildMesh } from './mesh/build.js';
import { parameters } from './mesh/parameters.js';

/** A part that exists as a mesh: a scan, a model from elsewhere. */
export default definePart({
  name: 'mesh',
  summary: 'Part from a mesh file',
  parameters,
  tolerance: freeFormTolerance,
  build: buildMesh,
});
