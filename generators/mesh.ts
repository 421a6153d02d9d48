import { definePart, freeFormTolerance, refuse } from '../core/part/contract.js';
import { stop } from '../core/part/finding.js';
import { meshBuilding } from './mesh/load-building.js';
import { parameters } from './mesh/parameters.js';

/** A part that exists as a mesh: a scan, a model from elsewhere. */
export default definePart({
  name: 'mesh',
  summary: 'Part from a mesh file',
  parameters,
  tolerance: freeFormTolerance,
  build(p, stock, kit) {
    const file = kit.meshFiles?.get(p.file);
    return file === undefined
      ? refuse([
          stop(
            'no-mesh',
            `the mesh file ${p.file} is not open`,
            'open it, or give the name of another',
            'file',
          ),
        ])
      : meshBuilding()(p, file, stock, kit);
  },
});
