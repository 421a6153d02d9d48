/** Fields on cells of given size, all invented but what is given. */
import { type CastFields, cellRole, leastShare } from '../../core/freeze/cast-fields.js';
import { evenEdges, type Grid, gridOf } from '../../core/freeze/grid.js';
import type { Vec3 } from '../../core/solid/types.js';

export const evenGrid = (counts: Vec3, size = 1): Grid =>
  gridOf(
    evenEdges(0, counts[0] * size, counts[0]),
    evenEdges(0, counts[1] * size, counts[1]),
    evenEdges(0, counts[2] * size, counts[2]),
  );

export function fieldsOf(
  grid: Grid,
  solidAt: ArrayLike<number>,
  role: ArrayLike<number>,
  more: Partial<CastFields> = {},
): CastFields {
  const share = more.share ?? Float32Array.from(role, (r) => (r === cellRole.mould ? 0 : 1));
  const metal = (value: (c: number) => number): Float32Array =>
    Float32Array.from(share, (s, c) => (s >= leastShare ? value(c) : 0));
  return {
    grid,
    present: new Uint8Array(grid.size).fill(1),
    share,
    role: Uint8Array.from(role),
    filledAt: metal(() => 0.5),
    spent: metal(() => 0.2),
    stopsAt: metal((c) => solidAt[c]! / 2),
    solidAt: metal((c) => solidAt[c]!),
    gradient: metal(() => 2),
    coolingRate: metal(() => 4),
    facePeak: new Float32Array(grid.size),
    ...more,
  };
}

/** A row of cells of 3 mm, time by cell: `c` casting, `g` gating, `v` vent, `.` mould. */
export function rowOf(roles: string, times: readonly number[]): CastFields {
  const grid = evenGrid([roles.length, 1, 1], 3);
  const role = [...roles].map((r) => ({ '.': 0, c: 1, g: 2, v: 3 })[r]!);
  return fieldsOf(grid, times, role);
}
