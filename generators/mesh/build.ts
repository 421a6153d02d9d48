import { type BuildKit, type BuildResult, refuse } from '../../core/part/contract.js';
import { stop } from '../../core/part/finding.js';
import type { Stock } from '../../core/part/stock.js';
import type { MeshParameters } from './parameters.js';

/** One state of a part from a mesh. */
export function buildMesh(p: MeshParameters, _stock: Stock, { kernel, meshFiles }: BuildKit): BuildResult {
  const file = meshFiles?.get(p.file);
  if (file === undefined)
    return refuse([stop('no-mesh', `The file ${p.file} is not open.`, 'Open it, or give another.', 'file')]);
  const solid = kernel.fromMesh(file.mesh);
  const { min, max } = solid.bounds();
  const middle = [(min[0] + max[0]) / 2, (min[1] + max[1]) / 2] as const;
  return {
    solid,
    surfaces: [{ surfaceClass: 'skin', name: 'all over' }],
    dimensions: [],
    gates: [{ name: 'top', at: [middle[0], middle[1], max[2]], innerDiameter: 0, outerDiameter: 8 }],
    vents: [],
    findings: [],
  };
}
