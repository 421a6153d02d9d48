import { segmentsOfCircle } from '../../solid/segments.js';
import type { Kernel, LoftSection, Solid, Vec3 } from '../../solid/types.js';
import type { GatingPlan } from '../plans.js';
import { isBuildable } from './plan.js';
import { lift, sink, sprueProfile, sprueShape } from './sprue.js';

/**
 * The gating alone: sprue with foot and cup, and the vents, each sunk `sink` mm into the part. Over a cored hole the
 * foot is hollow under a conical roof, so it neither fills the hole nor needs support. Added to the pattern it makes one
 * piece, whose genus drops by one for a through hole that the foot makes blind. `tolerance`: chord error, mm.
 * Throws a RangeError for a plan with a `stop` finding.
 */
export const buildGating = (plan: GatingPlan, kernel: Kernel, tolerance: number): Solid => {
  const refusal = plan.findings.find((f) => f.severity === 'stop');
  if (!isBuildable(plan) && refusal) throw new RangeError(`Gating cannot be built: ${refusal.message}`);
  const sprue = kernel.revolve(sprueProfile(sprueShape(plan)), tolerance).translate(plan.at);
  const vents = plan.vents.map((v) => kernel.loft(ventSections(v.path, v.diameter / 2, tolerance)));
  return vents.length === 0 ? sprue : kernel.union([sprue, ...vents]);
};

/** Level circles along the path, so that a bend needs no mitre; the lowest is drawn in and sunk, up to `lift`. */
const ventSections = (path: readonly Vec3[], radius: number, tolerance: number): readonly LoftSection[] => {
  const count = segmentsOfCircle(radius, tolerance);
  const circle = ([x, y, z]: Vec3, r: number): LoftSection => ({
    points: Array.from({ length: count }, (_, i): Vec3 => {
      const turn = (2 * Math.PI * i) / count;
      return [x + r * Math.cos(turn), y + r * Math.sin(turn), z];
    }),
  });
  const [foot, ...rest] = path;
  if (foot === undefined) throw new RangeError('A vent needs a path.');
  return [
    circle([foot[0], foot[1], foot[2] - sink], radius - Math.min(sink / 2, radius / 4)),
    circle([foot[0], foot[1], foot[2] + lift], radius),
    ...rest.map((p) => circle(p, radius)),
  ];
};
