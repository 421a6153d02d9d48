import { leastFloor } from '../foundry/flask.js';
import {
  type GatingInput,
  isBuildable,
  moreGatesMayMend,
  planGating,
  reachLimit,
} from '../foundry/gating/index.js';
import { findInvestment } from '../foundry/investment.js';
import type { GatingPlan } from '../foundry/plans.js';
import { measureInnerDistances } from '../solid/inner-distance.js';
import type { Mesh, Vec3 } from '../solid/types.js';
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

/** The same for a tree of several kinds. @param patterns their meshes, in the order of the kinds */
export function planKindGates(
  input: GatingInput,
  patterns: readonly Mesh[],
): { readonly input: GatingInput; readonly plan: GatingPlan } {
  const plan = planGating(input);
  const kinds = input.kinds ?? [];
  const far = kinds.some(
    ({ gates, casting }, k) =>
      gates[0] !== undefined &&
      distanceTo(gates[0].at, patterns[k] as Mesh) >= reachLimit(casting, input.metal) / 2,
  );
  if (!isBuildable(plan) || !(far || moreGatesMayMend(plan))) return { input, plan };
  const measured = {
    ...input,
    kinds: kinds.map((kind, k) => {
      const points = [...kind.gates, ...kind.vents].map((place) => place.at);
      return { ...kind, distances: measureInnerDistances(patterns[k] as Mesh, points) };
    }),
  };
  return { input: measured, plan: planGating(measured) };
}

/** How high the tallest flask lets pattern and gating stand, mm; a shell has none. */
export const mouldHeightLimit = ({ flasks, investment }: Job): number =>
  findInvestment(investment)?.coats
    ? Number.POSITIVE_INFINITY
    : Math.max(...flasksOf(flasks).map((f) => f.insideHeight)) - leastFloor;

/** Distance of the pattern's farthest corner from its gate, mm. */
const straightReach = ({ sprue }: GatingPlan, pattern: Mesh): number => distanceTo(sprue.at, pattern);

/** Distance of the mesh's farthest corner from a point, mm. */
function distanceTo(at: Vec3, { positions }: Mesh): number {
  let squared = 0;
  for (let i = 0; i < positions.length; i += 3) {
    const x = (positions[i] as number) - at[0];
    const y = (positions[i + 1] as number) - at[1];
    const z = (positions[i + 2] as number) - at[2];
    squared = Math.max(squared, x * x + y * y + z * z);
  }
  return Math.sqrt(squared);
}
