import type { TurnedMesh } from '../../core/mesh/stand/index.js';
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

/** Box sizes by the file's own axes: by two faces where they bound the box, else over all. */
const overall = [
  ['L', 'L_o', 'length over all, along x as drawn', [1, 0, 0]],
  ['W', 'W_o', 'width over all, along y as drawn', [0, 1, 0]],
  ['H', 'H_o', 'height over all, along z as drawn', [0, 0, 1]],
] as const satisfies readonly (readonly [string, string, string, Vec3])[];

/** mm: two faces so near to the box's sides bound it. */
const bounding = 0.05;

/**
 * What an inspector measures on a state: the box where no two faces bound it, and what was found on the mesh, moved
 * outward by mm a triangle. Named as drawn; a size grows by the way it lies in the print.
 */
export function sizesOf(
  mesh: Mesh,
  { mesh: bare, turned, surfaces }: PreparedMesh & { readonly ok: true },
  amounts: Float64Array,
): readonly Dimension[] {
  const standingSurfaces = surfaces.map((surface) => turnSurface(surface, turned));
  const measured = measureSurfaces(standingSurfaces, measureBounds(mesh) as Box, (surface) =>
    amountOn(surface, bare, amounts),
  );
  // Which rows there are is the finished part's to say, so that all states have the same.
  const finished = measureSurfaces(standingSurfaces, measureBounds(bare) as Box);
  const [bareSides, sides] = [bare, mesh].map((state) => sidesAsDrawn(state, turned));
  const boxed = overall.flatMap(([symbol, own, name, way], k) => {
    const row = finished.find((found) => found.symbol === symbol);
    if (row && Math.abs(row.value - bareSides![k]!) < bounding) return [];
    const axis = dimensionAxis(standing({ ...turned, shift: [0, 0, 0] }, way));
    return [lengthDimension(own, name, sides![k]!, axis, 'calliper')];
  });
  return [...boxed, ...measured];
}

function sidesAsDrawn({ positions: p }: Mesh, turned: TurnedMesh): readonly number[] {
  const positions = new Float32Array(p.length);
  for (let i = 0; i < p.length; i += 3) positions.set(asDrawn(turned, [p[i]!, p[i + 1]!, p[i + 2]!]), i);
  const { min, max } = measureBounds({ positions }) as Box;
  return max.map((high, k) => high - min[k]!);
}

/** What most of a surface has been moved by, mm: a box may mark a part of it. */
function amountOn({ triangles }: MeshSurface, mesh: Mesh, amounts: Float64Array): number {
  const areas = new Map<number, number>();
  for (const f of triangles) areas.set(amounts[f]!, (areas.get(amounts[f]!) ?? 0) + triangleArea(mesh, f));
  let [most, found] = [-1, 0];
  for (const [amount, area] of areas) if (area > most) [most, found] = [area, amount];
  return found;
}
