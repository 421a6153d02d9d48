import type { MeshFile } from '../../core/mesh/mesh-file.js';
import { type BuildKit, type BuildResult, refuse } from '../../core/part/contract.js';
import { noStock, type Stock } from '../../core/part/stock.js';
import type { Mesh } from '../../core/solid/types.js';
import { gatesOn } from './gates.js';
import { giveStock } from './give-stock.js';
import type { MeshParameters } from './parameters.js';
import { type PreparedMesh, prepareMesh, wallOf } from './prepare.js';
import { sizesOf } from './sizes.js';

/**
 * One state of a part from a mesh: as it was drawn or scanned, with worn-off metal put back, and with its stock. Marks
 * that name an amount are stock too: the finished part has none.
 */
export function buildMesh(p: MeshParameters, file: MeshFile, stock: Stock, kit: BuildKit): BuildResult {
  const prepared = prepareMesh(p, file, kit);
  if (!prepared.ok) return refuse(prepared.findings);
  const amounts = amountsOf(prepared, stock);
  const moved = giveStock(prepared, amounts, kit);
  if (!moved.ok) return refuse([...moved.findings, ...prepared.findings]);
  const { mesh } = moved;
  const wall = wallWithStock(mesh, prepared, amounts);
  const isPart = stock === noStock;
  const gates = isPart
    ? { ok: true as const, places: [], vents: [], findings: [] }
    : gatesOn(mesh, prepared, p, kit);
  if (!gates.ok) return refuse([...gates.findings, ...prepared.findings]);
  return {
    solid: kit.kernel.fromMesh(mesh),
    surfaces: prepared.notes,
    dimensions: sizesOf(mesh, prepared, amounts),
    gates: gates.places,
    vents: gates.vents,
    ...(wall === undefined ? {} : { thinnestWall: wall }),
    findings: [...prepared.findings, ...moved.findings, ...gates.findings],
  };
}

type Prepared = PreparedMesh & { readonly ok: true };

/** A wall has on both its sides the stock that all of it has; where metal is taken off it is measured anew. */
function wallWithStock(mesh: Mesh, { thinnestWall }: Prepared, amounts: Float64Array): number | undefined {
  const least = amounts.reduce((a, b) => Math.min(a, b), Number.POSITIVE_INFINITY);
  if (least < 0) return wallOf(mesh);
  return thinnestWall === undefined ? undefined : thinnestWall + 2 * least;
}

/** mm outward, a triangle: wear put back, and stock. */
function amountsOf({ classes, own, wear }: Prepared, stock: Stock): Float64Array {
  const hasStock = stock !== noStock;
  return Float64Array.from(wear, (worn, f) => {
    const given = own[f]!;
    if (!hasStock) return worn;
    return worn + (Number.isNaN(given) ? stock[classes[f]!] : given);
  });
}
