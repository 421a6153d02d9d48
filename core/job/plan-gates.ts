import { leastFloor } from '../foundry/flask.js';
import { type GatingInput, isBuildable, moreGatesMayMend, planGating } from '../foundry/gating/index.js';
import { findInvestment } from '../foundry/investment.js';
import type { GatingPlan } from '../foundry/plans.js';
import { measureInnerDistances } from '../solid/inner-distance.js';
import type { Mesh } from '../solid/types.js';
import { flasksOf } from './flasks-of.js';
import type { Job } from './job.js';

/**
 * The gating of a pattern, and the input it was planned from. How far metal feeds is measured through the metal, which
 * takes time, only where it may matter: where one gate breaks a rule that more may mend, or lies farther from some of
 * the pattern, straight, than half of what is allowed.
 */
export function planGates(
  input: GatingInput,
  pattern: Mesh,
): { readonly input: GatingInput; readonly plan: GatingPlan } {
  const plan = planGating(input);
  const several = (input.settings?.gates ?? 1) > 1;
  const near = straightReach(plan, pattern) < plan.fill.reachLimit / 2;
  const served = !isBuildable(plan) || (near && !moreGatesMayMend(plan));
  if (!several && served) return { input, plan };
  const points = [...input.gates, ...input.vents].map((place) => place.at);
  const measured = { ...input, distances: measureInnerDistances(pattern, points) };
  return { input: measured, plan: planGating(measured) };
}

/** How high the tallest flask lets pattern and gating stand, mm; a shell has none. */
export const mouldHeightLimit = ({ flasks, investment }: Job): number =>
  findInvestment(investment)?.coats
    ? Number.POSITIVE_INFINITY
    : Math.max(...flasksOf(flasks).map((f) => f.insideHeight)) - leastFloor;

/** Distance of the pattern's farthest corner from its gate, mm. */
function straightReach({ sprue }: GatingPlan, { positions }: Mesh): number {
  let squared = 0;
  for (let i = 0; i < positions.length; i += 3) {
    const x = (positions[i] as number) - sprue.at[0];
    const y = (positions[i + 1] as number) - sprue.at[1];
    const z = (positions[i + 2] as number) - sprue.at[2];
    squared = Math.max(squared, x * x + y * y + z * z);
  }
  return Math.sqrt(squared);
}
