import type { GatingPlan } from '../foundry/plans.js';
import { cellRoles } from './cell-roles.js';
import type { Grid } from './grid.js';
import { type BlockInput, blockGrid, cellEdge, insideCylinder } from './mould-block.js';
import type { FreezeLevel } from './plans.js';
import { withinShell } from './shell-cells.js';
import { fillShares } from './voxels.js';

export interface CastCells {
  readonly grid: Grid;
  /** mm: edge of the cells about the castings. */
  readonly edge: number;
  readonly present: Uint8Array;
  readonly share: Float32Array;
  readonly role: Uint8Array;
}

/** Uprights a side of a cell by which its share of metal is told. */
const samples = { coarse: 4, fine: 2 } as const;

/** A gated pattern in its mould as cells. */
export function castCells(
  input: BlockInput & { readonly gating: GatingPlan },
  level: Exclude<FreezeLevel, 'off'>,
): CastCells {
  const edge = cellEdge(input, level);
  const grid = blockGrid(input, edge);
  const share = fillShares(input.gated, grid, samples[level]);
  const own = fillShares(input.standing, grid, samples[level]);
  const present =
    input.mould.kind === 'flask' ? insideCylinder(grid) : withinShell(grid, share, input.mould.thickness);
  return { grid, edge, present, share, role: cellRoles(grid, share, own, input.gating) };
}
