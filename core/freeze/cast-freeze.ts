/** The whole calculation for one mould: its cells, its freezing, its filling, what they tell. */
import type { Alloy } from '../foundry/alloys/index.js';
import type { GatingSettings } from '../foundry/gating/index.js';
import type { Investment } from '../foundry/investment.js';
import type { GatingPlan } from '../foundry/plans.js';
import { edgeBasis, edgeRadius, surfaceTension } from '../foundry/surface-tension.js';
import { measureBounds } from '../solid/mesh-bounds.js';
import type { Box } from '../solid/types.js';
import { castCells } from './cast-cells.js';
import type { CastFields } from './cast-fields.js';
import { type CastStart, coolUnder, freezeCells } from './cast-heat.js';
import { substanceBases } from './cast-substances.js';
import { fillBases } from './fill/bases.js';
import { fillMould } from './fill/fill-mould.js';
import { flowProblemOf } from './fill/passages.js';
import type { Crew } from './kernel/crew.js';
import type { BlockInput } from './mould-block.js';
import type { FreezeLevel, FreezePlan } from './plans.js';
import { quenchTemperature, readFreeze } from './readings/index.js';

export interface CastInput extends BlockInput {
  readonly gating: GatingPlan;
  readonly alloy: Alloy;
  readonly investment: Investment;
  /** How well a feeder gives, as the gating was planned with. */
  readonly settings: Pick<GatingSettings, 'feederEfficiency'>;
  readonly start: CastStart;
  readonly level: Exclude<FreezeLevel, 'off'>;
}

export interface CastFreeze {
  readonly plan: FreezePlan;
  readonly fields: CastFields;
}

export interface CastOptions {
  /** Further threads; left out: none. */
  readonly crew?: Crew;
  /** Called now and then with the share of the work that is done. */
  readonly onProgress?: (share: number) => void;
}

/** Fills and freezes a mould. Pure but for the time it takes: the same input gives the same numbers. */
export function freezeCasting(input: CastInput, options: CastOptions = {}): CastFreeze {
  const { gating, alloy, investment, start, level } = input;
  const cells = castCells(input, level);
  const frozen = freezeCells(cells, input, start, options);
  const { grid, present, share, role, edge } = cells;
  const { stopsAt, solidAt, gradient, coolingRate, facePeak } = frozen;
  const flow = flowProblemOf(gating, alloy.liquidDensity);
  const { filledAt, spent, plan: fill } = fillMould({ grid, present, share, role, stopsAt, flow });
  const fields: CastFields = {
    grid,
    present,
    share,
    role,
    filledAt,
    spent,
    stopsAt,
    solidAt,
    gradient,
    coolingRate,
    facePeak,
  };
  const plan = readFreeze(fields, {
    alloy,
    investment,
    gating,
    settings: input.settings,
    level,
    cell: edge,
    steps: frozen.steps,
    imbalance: frozen.imbalance,
    start: { metal: start.metal, mould: start.mould, delay: start.delay },
    fill,
    edgeRadius: edgesOf(input),
    quenchAt: coolUnder(frozen, cells, quenchTemperature(alloy)),
    bases: { ...substanceBases, ...fillBases, sharpEdges: edgeBasis },
  });
  return { plan, fields };
}

/** Sharp edges of the castings under the metal's pressure, the cup full. */
function edgesOf({ standing, gating, alloy }: CastInput): FreezePlan['edgeRadius'] {
  const { min, max } = measureBounds(standing) as Box;
  const under = (z: number): number =>
    edgeRadius(surfaceTension[alloy.family], alloy.liquidDensity, gating.topHeight - z);
  return { lowest: under(min[2]), highest: under(max[2]) };
}
