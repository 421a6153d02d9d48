import { cellRole } from '../../../../core/freeze/cast-fields.js';
import type { FillProblem } from '../../../../core/freeze/fill/fill-mould.js';
import type { FlowProblem } from '../../../../core/freeze/fill/flow.js';
import { headsAt } from '../../../../core/freeze/fill/losses.js';
import { evenEdges, gridOf } from '../../../../core/freeze/grid.js';

export interface CellBox {
  readonly role: keyof typeof cellRole;
  /** Cells, `to` not among them. */
  readonly from: readonly [number, number, number];
  readonly to: readonly [number, number, number];
  /** s; left out: 1000. */
  readonly stops?: number;
  /** Left out: 1. */
  readonly share?: number;
}

/** What most textbooks calculate with, mm/s². */
export const gravity = 9810;

/** A gate of `area` mm² at z = `outlet` without losses, air leaving freely. */
export const plainFlow = (cupLevel: number, outlet: number, area: number): FlowProblem => ({
  cupLevel,
  cupFloor: cupLevel,
  sprue: { drag: 0, pipes: [] },
  sprueDiameter: 10,
  branches: [{ outlet, drag: headsAt(1, area), pipes: [] }],
  vents: [
    {
      name: 'vent',
      diameter: 1000,
      path: [
        [0, 0, 0],
        [0, 0, 1],
      ],
    },
  ],
  density: 8e-3,
  gravity,
});

/** A mould of boxes of cells of `step` mm, the later over the earlier. The gating's top layer is the cup's. */
export function boxMould(
  counts: readonly [number, number, number],
  step: number,
  boxes: readonly CellBox[],
  flow: FlowProblem,
): FillProblem {
  const [nx, ny, nz] = counts;
  const grid = gridOf(evenEdges(0, nx * step, nx), evenEdges(0, ny * step, ny), evenEdges(0, nz * step, nz));
  const share = new Float32Array(grid.size);
  const role = new Uint8Array(grid.size);
  const stopsAt = new Float32Array(grid.size);
  for (const { from, to, stops = 1000, share: part = 1, role: name } of boxes)
    for (let k = from[2]; k < to[2]; k++)
      for (let j = from[1]; j < to[1]; j++)
        for (let i = from[0]; i < to[0]; i++) {
          const c = i + nx * (j + ny * k);
          role[c] = cellRole[name];
          share[c] = name === 'mould' ? 0 : part;
          stopsAt[c] = name === 'mould' ? 0 : stops;
        }
  return { grid, share, role, stopsAt, present: new Uint8Array(grid.size).fill(1), flow };
}

export const cellAt = ({ grid }: FillProblem, i: number, j: number, k: number): number =>
  i + grid.counts[0] * (j + grid.counts[1] * k);
