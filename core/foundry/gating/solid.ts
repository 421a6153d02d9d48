import { maths } from '../../maths/maths.js';
import { segmentsOfCircle } from '../../solid/segments.js';
import type { Kernel, LoftSection, Solid, Vec3 } from '../../solid/types.js';
import type { GateSize, GatingPlan } from '../plans.js';
import { isBuildable } from './plan.js';
import { halfAlong } from './runners.js';
import { footHeights, lift, roofHeight, rootDraw, sink, sprueProfile, sprueShape } from './sprue.js';

/**
 * The gating alone: sprue with cup on its foot, or over runners with a foot each, and the vents, each sunk `sink` mm
 * into the part under the lowest of the surface it stands on. Over a cored hole the foot is hollow under a conical
 * roof, so it neither fills the hole nor needs support. Added to the pattern it makes one piece, whose genus drops by
 * one for a through hole that the foot makes blind, and rises by one for each runner after the first. `tolerance`:
 * chord error, mm.
 * Throws a RangeError for a plan with a `stop` finding.
 */
export const buildGating = (plan: GatingPlan, kernel: Kernel, tolerance: number): Solid => {
  const refusal = plan.findings.find((f) => f.severity === 'stop');
  if (!isBuildable(plan) && refusal) throw new RangeError(`Gating cannot be built: ${refusal.message}`);
  const sprue = kernel.revolve(sprueProfile(sprueShape(plan)), tolerance).translate(plan.sprue.at);
  const runners = plan.gates.flatMap((g) => (g.runner ? [buildRunner(g, g.runner, kernel, tolerance)] : []));
  const vents = plan.vents.map((v) =>
    kernel.loft(ventSections(v.path, v.diameter / 2, v.seat ?? 0, tolerance)),
  );
  return runners.length + vents.length === 0 ? sprue : kernel.union([sprue, ...runners, ...vents]);
};

/** Turns a ring's points by this share of a step, so that neighbours' runners are no mirror images where they meet. */
const phase = 0.25;

/**
 * A level ring of `count` points about the centre: half as wide as `along` in direction `lean`, `across` square to it.
 * Edges of mirror images would meet in one plane exactly, which no union cuts soundly.
 */
const ring = (count: number, [x, y, z]: Vec3, lean: number, along: number, across = along): LoftSection => ({
  points: Array.from({ length: count }, (_, i): Vec3 => {
    const turn = (2 * Math.PI * (i + phase)) / count;
    const [u, v] = [along * maths.cos(turn - lean), across * maths.sin(turn - lean)];
    return [x + u * maths.cos(lean) - v * maths.sin(lean), y + u * maths.sin(lean) + v * maths.cos(lean), z];
  }),
});

/** Level circles along the path, so that a bend needs no mitre; the lowest is drawn in and sunk, up to `lift`. */
const ventSections = (
  path: readonly Vec3[],
  radius: number,
  seat: number,
  tolerance: number,
): readonly LoftSection[] => {
  const count = segmentsOfCircle(radius, tolerance);
  const circle = (at: Vec3, r: number): LoftSection => ring(count, at, 0, r);
  const [foot, ...rest] = path;
  if (foot === undefined) throw new RangeError('A vent needs a path.');
  return [
    circle([foot[0], foot[1], foot[2] - sink - seat], radius - Math.min(sink / 2, radius / 4)),
    circle([foot[0], foot[1], foot[2] + lift], radius),
    ...rest.map((p) => circle(p, radius)),
  ];
};

/** How far a runner's end stands in the sprue, mm. */
const intoSprue = 1;

/**
 * Foot, upright, leaning piece: round square to its own axis all the way, so elliptic at every level where it leans,
 * and ending inside the sprue's own foot.
 */
function buildRunner(
  gate: GateSize,
  { diameter, path }: NonNullable<GateSize['runner']>,
  kernel: Kernel,
  tolerance: number,
): Solid {
  const [[x, y, z], upright, bend, end] = path as readonly [Vec3, Vec3, Vec3, Vec3];
  const [inner, outer, r] = [gate.innerDiameter / 2, gate.outerDiameter / 2, diameter / 2];
  const foot = footHeights(gate.innerDiameter, gate.outerDiameter, diameter);
  const count = segmentsOfCircle(Math.max(outer, r), tolerance);
  const [dx, dy, rise] = [end[0] - bend[0], end[1] - bend[1], end[2] - bend[2]];
  const lean = maths.atan2(end[1] - y, end[0] - x);
  const along = halfAlong(diameter);
  /** Of the leaning piece, where the ellipse begins to turn back into the sprue's round. */
  const share = 1 - Math.min(0.5, r / rise);
  const draw = rootDraw(gate.innerDiameter, gate.outerDiameter);
  const top = Math.max(foot.top, 2 * lift);
  const depth = sink + (gate.seat ?? 0);
  const up = lift / depth;
  const solid = kernel.loft([
    ring(count, [x, y, z - depth], lean, outer - draw),
    ring(count, [x, y, z + lift], lean, outer + draw * up),
    ...(foot.cylinder > 2 * lift ? [ring(count, [x, y, z + foot.cylinder], lean, outer)] : []),
    ring(count, [x, y, z + top], lean, r),
    ring(count, upright, lean, r),
    ring(count, bend, lean, along, r),
    ring(count, [bend[0] + share * dx, bend[1] + share * dy, bend[2] + share * rise], lean, along, r),
    ring(count, end, lean, 0.98 * r),
    ring(count, [end[0], end[1], end[2] + intoSprue], lean, 0.9 * r),
  ]);
  if (inner === 0) return solid;
  const roof = kernel.revolve(
    [
      [0, -sink - depth],
      [inner + draw, -sink - depth],
      [inner + draw, -depth],
      [inner - draw * up, up * depth],
      [0, roofHeight(gate.innerDiameter)],
    ],
    tolerance,
  );
  return solid.subtract(roof.translate([x, y, z]));
}
