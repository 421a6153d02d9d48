import {
  dimensionAxis,
  type MeshSurface,
  measureSurfaces,
  triangleArea,
} from '../../core/mesh/surfaces/index.js';
import type { Dimension } from '../../core/part/contract.js';
import { lengthDimension } from '../../core/part/dimension.js';
import { measureBounds } from '../../core/solid/mesh-bounds.js';
import type { Box, Mesh, Vec3 } from '../../core/solid/types.js';
import type { PreparedMesh } from './prepare.js';
import { asDrawn, standing } from './stand-up.js';
import { turnSurface } from './turn-surface.js';

/** Box sizes by the file's own axes. */
const overall = [
  ['L', 'length over all, along x as drawn', [1, 0, 0]],
  ['W', 'width over all, along y as drawn', [0, 1, 0]],
  ['H', 'height over all, along z as drawn', [0, 0, 1]],
] as const satisfies readonly (readonly [string, string, Vec3])[];

/**
 * What an inspector measures on a state: what was found on the mesh, moved outward by mm a triangle, and the box where no
 * two faces bound it. Named as drawn; a size grows by the way it lies in the print.
 */
export function sizesOf(
  mesh: Mesh,
  { mesh: bare, turned, surfaces }: PreparedMesh & { readonly ok: true },
  amounts: Float64Array,
): readonly Dimension[] {
  const measured = measureSurfaces(
    surfaces.map((surface) => turnSurface(surface, turned)),
    measureBounds(mesh) as Box,
    (surface) => amountOn(surface, bare, amounts),
  );
  const known = new Set(measured.map((row) => row.symbol));
  const positions = new Float32Array(mesh.positions.length);
  for (let i = 0; i < positions.length; i += 3) {
    const at: Vec3 = [mesh.positions[i]!, mesh.positions[i + 1]!, mesh.positions[i + 2]!];
    positions.set(asDrawn(turned, at), i);
  }
  const { min, max } = measureBounds({ positions }) as Box;
  const boxed = overall.flatMap(([symbol, name, way], k) =>
    known.has(symbol)
      ? []
      : [
          lengthDimension(
            symbol,
            name,
            max[k]! - min[k]!,
            dimensionAxis(standing({ ...turned, shift: [0, 0, 0] }, way)),
            'calliper',
          ),
        ],
  );
  return [...boxed, ...measured];
}

/** What most of a surface has been moved by, mm: a box may mark a part of it. */
function amountOn({ triangles }: MeshSurface, mesh: Mesh, amounts: Float64Array): number {
  const areas = new Map<number, number>();
  for (const f of triangles) areas.set(amounts[f]!, (areas.get(amounts[f]!) ?? 0) + triangleArea(mesh, f));
  let [most, found] = [-1, 0];
  for (const [amount, area] of areas) if (area > most) [most, found] = [area, amount];
  return found;
}
