import { type CastFields, cellRole, leastShare } from '../../core/freeze/cast-fields.js';
import { evenEdges, type Grid, gridOf } from '../../core/freeze/grid.js';
import { fillShares } from '../../core/freeze/voxels.js';
import { measureBounds } from '../../core/solid/mesh-bounds.js';
import type { Box, Mesh, Vec3 } from '../../core/solid/types.js';

/** Middle of a cell, mm. */
export const cellMiddle = ({ counts: [nx, ny], edges }: Grid, c: number): Vec3 => {
  const at = [c % nx, Math.floor(c / nx) % ny, Math.floor(c / (nx * ny))];
  return edges.map((e, k) => (e[at[k]!]! + e[at[k]! + 1]!) / 2) as unknown as Vec3;
};

/**
 * Fields of a mesh in cells of `step` mm, with 3 of them about it, invented: not one of them was calculated. Times by
 * `solidAt` of the cell's middle; `spent` likewise.
 */
export function madeUpFields(
  mesh: Mesh,
  step: number,
  solidAt: (at: Vec3) => number,
  spent: (at: Vec3) => number = () => 0.2,
): CastFields {
  const { min, max } = measureBounds(mesh) as Box;
  const edges = [0, 1, 2].map((k) => {
    const [from, to] = [min[k as 0]! - 3 * step, max[k as 0]! + 3 * step];
    return evenEdges(from, to, Math.round((to - from) / step));
  }) as [Float64Array, Float64Array, Float64Array];
  const grid = gridOf(...edges);
  const share = fillShares(mesh, grid);
  const metal = (value: (at: Vec3) => number): Float32Array =>
    share.map((s, c) => (s >= leastShare ? value(cellMiddle(grid, c)) : 0));
  return {
    grid,
    present: new Uint8Array(grid.size).fill(1),
    share,
    role: Uint8Array.from(share, (s) => (s >= leastShare ? cellRole.casting : cellRole.mould)),
    filledAt: metal(() => 0.5),
    spent: metal(spent),
    stopsAt: metal((at) => solidAt(at) / 2),
    solidAt: metal(solidAt),
    gradient: metal(() => 2),
    coolingRate: metal(() => 4),
    facePeak: new Float32Array(grid.size),
  };
}
