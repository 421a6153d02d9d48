import type { MeshFile } from '../../core/mesh/mesh-file.js';
import { type BuildKit, type BuildResult, refuse } from '../../core/part/contract.js';
import { noStock, type Stock } from '../../core/part/stock.js';
import { gatesOn } from './gates.js';
import { giveStock } from './give-stock.js';
import type { MeshParameters } from './parameters.js';
import { type PreparedMesh, prepareMesh } from './prepare.js';
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
  const { mesh } = moved;
  const isPart = stock === noStock;
  const gates = isPart ? { ok: true as const, places: [], vents: [] } : gatesOn(mesh, prepared, p, kit);
  if (!gates.ok) return refuse([...gates.findings, ...prepared.findings]);
  return {
    solid: kit.kernel.fromMesh(mesh),
    surfaces: prepared.notes,
    dimensions: sizesOf(mesh, prepared, amounts),
    gates: gates.places,
    vents: gates.vents,
    ...(prepared.thinnestWall === undefined
      ? {}
      : { thinnestWall: prepared.thinnestWall + 2 * least(amounts) }),
    findings: [...prepared.findings, ...moved.findings],
  };
}

/** Stock that all of it has, mm. */
const least = (amounts: Float64Array): number =>
  amounts.reduce((a, b) => Math.min(a, b), Number.POSITIVE_INFINITY);

/** mm outward, a triangle: wear put back, and stock. */
function amountsOf({ classes, own, wear }: PreparedMesh & { ok: true }, stock: Stock): Float64Array {
  const hasStock = stock !== noStock;
  return Float64Array.from(wear, (worn, f) => {
    const given = own[f]!;
    if (!hasStock) return worn;
    return worn + (Number.isNaN(given) ? stock[classes[f]!] : given);
  });
}
