import { pairDimensions } from '../../core/job/dimension-rows.js';
import type { DimensionRow } from '../../core/job/summary.js';
import { noStock, type Stock } from '../../core/part/stock.js';
import { scaleMesh } from '../../core/solid/index.js';
import type { Kernel, Mesh } from '../../core/solid/types.js';
import { findPart } from '../../generators/index.js';
import { weldedFrom } from './expect-sound.js';
import type { WeldedMesh } from './welded-mesh.js';

export const measuredStates = ['part', 'casting', 'pattern'] as const;

export interface BuiltStates {
  readonly rows: readonly DimensionRow[];
  readonly meshes: Readonly<Record<(typeof measuredStates)[number], WeldedMesh>>;
}

/** A mesh as a generator makes it; parameters in internal units, the rest by default. */
export function buildMesh(
  kernel: Kernel,
  name: string,
  parameters: Record<string, unknown>,
  tolerance: number,
): Mesh {
  return build(kernel, name, parameters, noStock, tolerance).mesh;
}

/** Part, casting and pattern as a job makes them, with the rows of its inspection sheet. */
export function buildStates(
  kernel: Kernel,
  name: string,
  parameters: Record<string, unknown>,
  { stock, growth, tolerance = 0.01 }: { stock: Partial<Stock>; growth: number; tolerance?: number },
): BuiltStates {
  const part = build(kernel, name, parameters, noStock, tolerance);
  const casting = build(kernel, name, parameters, { ...noStock, ...stock }, tolerance);
  const factors = [growth, growth, growth] as const;
  return {
    rows: pairDimensions(part.dimensions, casting.dimensions, factors, growth),
    meshes: {
      part: weldedFrom(part.mesh),
      casting: weldedFrom(casting.mesh),
      pattern: weldedFrom(scaleMesh(casting.mesh, factors)),
    },
  };
}

function build(
  kernel: Kernel,
  name: string,
  parameters: Record<string, unknown>,
  stock: Stock,
  tolerance: number,
) {
  const part = findPart(name);
  if (!part) throw new Error(`no part ${name}`);
  return kernel.scope(() => {
    const built = part.build(part.parameters.parse(parameters), stock, { kernel, tolerance });
    if (built.solid === null) throw new Error(built.findings.map((f) => f.message).join(' '));
    return { mesh: built.solid.mesh(), dimensions: built.dimensions };
  });
}
