/** The patterns of one mould with their gating: all of a made part that does not depend on how many kinds they are. */
import { type VentedGating, ventGating } from '../foundry/air/index.js';
import type { GatingInput } from '../foundry/gating/index.js';
import { massOf } from '../foundry/material.js';
import type { GatingPlan } from '../foundry/plans.js';
import { measureBounds, measurePlanRadius, measureReach } from '../solid/mesh-bounds.js';
import type { Box, Kernel, Mesh, Vec2 } from '../solid/types.js';
import type { Job } from './job.js';
import { measureFacts, type PartStates } from './part-states.js';
import { present } from './present.js';
import { shellBaseOf } from './shell-base.js';

/** What is gated. */
export interface Ungated {
  readonly input: GatingInput;
  readonly plan: GatingPlan;
  /** The patterns as they stand. */
  readonly standing: Mesh;
  /** Of which gaps are measured for a shell: one pattern, or all of them. */
  readonly pattern: Mesh;
  /** Of one of them: alloy and growth are those of all. */
  readonly states: PartStates;
  readonly tolerance: number;
}

/** A tree stands in its flask by its sprue, where it then takes less room. */
function flaskPlace(gated: Mesh, { sprue }: GatingPlan, { kinds, tree = [] }: GatingInput) {
  const about = measurePlanRadius(gated);
  if (kinds === undefined && tree.length < 2) return { gatedRadius: about };
  const [x, y] = sprue.at;
  const gatedRadius = measureReach(gated, [x, y]);
  return gatedRadius < about ? { gatedRadius, flaskAxis: [x, y] as Vec2 } : { gatedRadius: about };
}

/** Builds the gating on the patterns and vents them. */
export function gateMould(
  { input, plan, standing, pattern, states, tolerance }: Ungated,
  job: Job,
  kernel: Kernel,
) {
  const vented: VentedGating = ventGating(plan, input, standing, kernel, tolerance);
  const { gating, gatingSolid, gated, air } = vented;
  const gatedMesh = gated.mesh();
  const gatedBox = measureBounds(gatedMesh) as Box;
  const gatedFacts = measureFacts(gatedMesh);
  // The gating is drawn at pattern size; its metal shrinks as the casting's does.
  const shrink = states.factors[0] * states.factors[1] * states.factors[2];
  return {
    gatedMesh,
    gatedFacts,
    /** g */
    charge: massOf(gatedFacts.volume / shrink, states.alloy),
    findings: [...gating.findings, ...vented.findings],
    whole: {
      standing,
      gatingMesh: gatingSolid.mesh(),
      gatedBox,
      ...flaskPlace(gatedMesh, gating, input),
      silhouette: gated.projection(),
      footprint: gated.slice(gatedBox.min[2] + job.layerHeight / 2),
      ...present({ shellBase: shellBaseOf(pattern, gatedMesh, job) }),
      gating,
      air,
    },
  };
}
