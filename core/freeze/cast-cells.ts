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
  /** True area over that of the cells' faces to the surroundings, by axis: cells make stairs of what is round. */
  readonly exposed: readonly [number, number, number];
}

/** mm between the uprights by which a cell's share of metal is told: no wall that can be cast stands between two. */
const uprights = 0.4;
const leastUprights = { coarse: 4, fine: 2 } as const;

/** A gated pattern in its mould as cells. */
export function castCells(
  input: BlockInput & { readonly gating: GatingPlan },
  level: Exclude<FreezeLevel, 'off'>,
): CastCells {
  const edge = cellEdge(input, level);
  const grid = blockGrid(input, edge);
  const samples = Math.max(leastUprights[level], Math.ceil(edge / uprights));
  const share = fillShares(input.gated, grid, samples);
  const own = fillShares(input.standing, grid, samples);
  const present =
    input.mould.kind === 'flask' ? insideCylinder(grid) : withinShell(grid, share, input.mould.thickness);
  const role = cellRoles(grid, share, own, input.gating);
  return { grid, edge, present, share, role, exposed: exposedParts(input, grid, present) };
}

/** A flask's round wall: 2πr for 8r. A shell's: its area by that of all its cells' faces. */
function exposedParts({ mould }: BlockInput, grid: Grid, present: Uint8Array): CastCells['exposed'] {
  if (mould.kind === 'flask') return [Math.PI / 4, Math.PI / 4, 1];
  const part = Math.min(1, Math.max(leastPart, mould.outerArea / outsideOf(grid, present)));
  return [part, part, part];
}

/** Of a face that leans alike to all three axes. */
const leastPart = 1 / Math.sqrt(3);

/** mm² of the faces of cells that are there to what is not. */
function outsideOf({ counts, edges }: Grid, present: Uint8Array): number {
  const lengths = edges.map((e) => Float64Array.from({ length: e.length - 1 }, (_, i) => e[i + 1]! - e[i]!));
  const strides = [1, counts[0], counts[0] * counts[1]] as const;
  let area = 0;
  for (let c = 0; c < present.length; c++) {
    if (present[c] === 0) continue;
    const at = [c % counts[0], Math.floor(c / counts[0]) % counts[1], Math.floor(c / strides[2])] as const;
    const [x, y, z] = at.map((i, axis) => lengths[axis]![i]!) as [number, number, number];
    const faces = [y * z, x * z, x * y] as const;
    for (const axis of [0, 1, 2] as const) {
      const [i, n, stride] = [at[axis], counts[axis], strides[axis]];
      if (i === 0 || present[c - stride] === 0) area += faces[axis];
      if (i + 1 === n || present[c + stride] === 0) area += faces[axis];
    }
  }
  return area;
}
