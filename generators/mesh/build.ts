import type { MeshFile } from '../../core/mesh/mesh-file.js';
import { offsetMesh } from '../../core/mesh/offset/index.js';
import { type BuildKit, type BuildResult, refuse } from '../../core/part/contract.js';
import { type Finding, note, warn } from '../../core/part/finding.js';
import { noStock, type Stock } from '../../core/part/stock.js';
import type { Mesh } from '../../core/solid/types.js';
import { formatNumber } from '../../core/units/index.js';
import { gatesOn } from './gates.js';
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
  const moved = offset(prepared.mesh, amounts, kit);
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

function offset(
  mesh: Mesh,
  amounts: Float64Array,
  { kernel, tolerance }: BuildKit,
): { readonly mesh: Mesh; readonly findings: readonly Finding[] } {
  if (amounts.every((amount) => amount === 0)) return { mesh, findings: [] };
  const moved = offsetMesh(kernel, mesh, amounts, { tolerance: Math.min(tolerance, offsetTolerance) });
  const { max, at, bevelled, joined } = moved.error;
  const told = `The surface with its stock is within ${mm(max)} of exact, measured at ${moved.error.samples} points; the worst near ${at.map((v) => formatNumber(v, { digits: 1 })).join(', ')} mm`;
  return {
    mesh: moved.mesh,
    findings: [
      max > tolerance
        ? warn('stock-off', told, `Up to ${mm(tolerance)} was asked for: measure the casting there.`)
        : note('stock-error', told, 'Nothing to do.'),
      ...(bevelled > 0
        ? [
            note(
              'edges-cut-off',
              `${bevelled} edges are so sharp that their stock is cut off before it comes to a point`,
              'file them to the edge of the finished part',
            ),
          ]
        : []),
      ...(joined > 0
        ? [
            note(
              'stock-joined',
              `in narrow places the stock of facing surfaces meets: ${joined} triangles`,
              'look at the casting there: what closes up is cut open in the metal',
            ),
          ]
        : []),
    ],
  };
}

/** Finer than any stock that can be filed off, mm. */
const offsetTolerance = 0.02;

const mm = (value: number): string => `${formatNumber(value, { digits: 4 })} mm`;
