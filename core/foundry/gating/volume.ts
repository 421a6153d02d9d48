import type { GatingPlan } from '../plans.js';
import { circleArea } from './choke.js';
import type { GatingCasting } from './input.js';
import { sprueShape, sprueVolume } from './sprue.js';
import { pathLength } from './vents.js';

/** What sprue, cup, runners and vents hold, mm³: what of them is sunk into each other or the pattern counts twice. */
export const gatingVolume = (plan: GatingPlan): number =>
  sprueVolume(sprueShape(plan)) +
  plan.gates.reduce(
    (sum, { runner }) => sum + (runner ? circleArea(runner.diameter) * pathLength(runner.path) : 0),
    0,
  ) +
  plan.vents.reduce((sum, v) => sum + circleArea(v.diameter) * pathLength(v.path), 0);

/**
 * g of metal in a tree's gating of so many mm³, which is drawn at pattern size: it shrinks as the castings do, and where
 * they differ in that as those that shrink least, so that there is enough.
 */
export const gatingMass = (volume: number, castings: readonly GatingCasting[]): number =>
  volume * Math.max(...castings.map((c) => c.mass / c.volume));
