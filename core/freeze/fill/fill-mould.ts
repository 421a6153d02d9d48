/**
 * How a mould fills: flow through the gating by Bernoulli with losses and the back pressure of the air, metal always
 * into the lowest place it can come to, and what heat its front has lost. What it leaves out: momentum (no jet, no
 * wave), splashing and waves of the surface, surface tension (which keeps metal out of sharp corners and thin slots),
 * the viscosity of metal half frozen, metal that freezes and narrows the way, and air that the mould itself lets
 * through. The level that acts against the head is one for all castings, the highest; a casting that is full leaves its
 * flow to the others; vents count until the castings are full. Walls that share a cell are joined there. Air shut in
 * above a casting's vents is the air plan's matter.
 */
import type { CastFields } from '../cast-fields.js';
import type { FillPlan } from '../plans.js';
import { type FillOrder, fillOrder } from './fill-order.js';
import { fillTimes } from './fill-times.js';
import type { FlowProblem } from './flow.js';
import { spentHeat } from './spent.js';
import { findThinPlaces } from './thin-places.js';

/** A mould and what runs into it. `stopsAt`: s until each cell's metal flows no more, of the freezing calculation. */
export interface FillProblem extends Pick<CastFields, 'grid' | 'present' | 'share' | 'role' | 'stopsAt'> {
  readonly flow: FlowProblem;
  /** Least margin asked for; left out: 2. */
  readonly marginLimit?: number;
}

export interface FillResult extends Pick<CastFields, 'filledAt' | 'spent'> {
  readonly plan: FillPlan;
}

/** Fills a mould; see above. Pure. */
export function fillMould(problem: FillProblem): FillResult {
  const { flow } = problem;
  const order: FillOrder = fillOrder(problem, flow.cupFloor);
  const { filledAt, cells, ...times } = fillTimes(problem, order, flow);
  const spent = spentHeat(problem, { cells, filledAt });
  return {
    filledAt,
    spent,
    plan: { ...times, ...findThinPlaces({ ...problem, spent }, problem.marginLimit) },
  };
}
