import { maths } from '../maths/maths.js';
import type { Finding } from '../part/finding.js';
import type { PlaneCurve } from '../solid/sample-curve.js';
import type { Vec2 } from '../solid/types.js';
import { type InternalGearSpec, internalForm, usualCutterTeeth } from './internal-form.js';
import { type RackSpec, rackForm } from './rack-form.js';
import type { GearSpec } from './spec.js';
import { leastOver } from './tip-path.js';
import { toothForm } from './tooth-form.js';

/** Lewis's beam read off a tooth, lengths in mm in the normal section. */
export interface LewisBeam {
  /** Y = t² / (6 l m): the form factor for the module, load at the tip. σ = W_t / (b m Y). */
  readonly formFactor: number;
  /** t, thickness of the tooth where the inscribed parabola touches it. */
  readonly thickness: number;
  /** l, height of the load's apex above that section. */
  readonly height: number;
  /** Angle between the load and the tangent of the circle, at the tooth's middle, rad. */
  readonly loadAngle: number;
}

export type LewisResult =
  | { readonly ok: true; readonly beam: LewisBeam }
  | { readonly ok: false; readonly findings: readonly Finding[] };

/** z_v = z / cos³ β: the spur gear whose teeth a helical gear's normal section is taken for (Lewis, AGMA; from memory). */
export const equivalentTeeth = (spec: Pick<GearSpec, 'teeth' | 'helixAngle'>): number =>
  spec.teeth / maths.pow(maths.cos(spec.helixAngle), 3);

/**
 * Lewis's form factor from the exact tooth: the load acts along the flank's normal at the tip corner; where that
 * line crosses the tooth's middle is the apex of a parabola, a beam of constant strength, and where the largest one
 * that the tooth holds touches it, in the fillet as a rule, is the weakest section. W. Lewis, "Investigation of the strength of gear
 * teeth", 1892 (the construction as handbooks repeat it). Only the tangential part of the load bends.
 */
export function lewisBeam(spec: GearSpec): LewisResult {
  const result = toothForm({ ...spec, teeth: equivalentTeeth(spec), helixAngle: 0 });
  if (!result.ok) return result;
  const { form } = result;
  const { baseRadius } = form.rack;
  // The load's line is a tangent of the base circle; at the tip corner it stands α_a to the circle there.
  const loadAngle = maths.acos(baseRadius / form.tipRadius) - form.tipHalfAngle;
  return beamIn(
    form.curves,
    ([x, y]) => [x, y],
    form.rack.radius,
    baseRadius / maths.cos(loadAngle),
    loadAngle,
    spec,
  );
}

/** The same on a tooth of an internal gear, whose flanks are hollow: where its foot is wide the flank is weakest. */
export function internalLewisBeam(ring: InternalGearSpec): LewisResult {
  const wide = equivalentTeeth(ring);
  const cutter = (usualCutterTeeth(ring.teeth) * wide) / ring.teeth;
  const result = internalForm({ ...ring, teeth: wide, helixAngle: 0 }, cutter);
  if (!result.ok) return result;
  const { space } = result;
  const { baseRadius } = space.rack;
  const pitchHalf = Math.PI / wide;
  // From the ring's axis the base circle's tangent through the tip corner crosses the tooth's middle outside the tip.
  const loadAngle = maths.acos(baseRadius / space.rootRadius) + pitchHalf - space.rootAngle;
  // The space's curve is seen from the middle of the tooth beside it, heights growing towards the axis.
  const [cos, sin] = [maths.cos(pitchHalf), maths.sin(pitchHalf)];
  const seen = ([x, y]: Vec2): Vec2 => [-(x * cos + y * sin), x * sin - y * cos];
  return beamIn(space.curves, seen, -space.rack.radius, -baseRadius / maths.cos(loadAngle), loadAngle, ring);
}

/** The same on a rack's tooth, in its normal section. */
export function rackLewisBeam(rack: RackSpec): LewisResult {
  const result = rackForm({ ...rack, helixAngle: 0 });
  if (!result.ok) return result;
  const { curves, tipHeight } = result.form;
  const [tipHalf] = (curves[0] as PlaneCurve).at((curves[0] as PlaneCurve).from);
  const angle = rack.normalPressureAngle;
  return beamIn(
    curves,
    ([half, height]) => [height, half],
    0,
    tipHeight - tipHalf * maths.tan(angle),
    angle,
    rack,
  );
}

/**
 * The largest parabola below `apex`; `seen` gives height and half thickness of a point of the tooth's curves. Only the
 * foot counts, below the reference line's height: a thin tip is found by its own check.
 */
function beamIn(
  curves: readonly PlaneCurve[],
  seen: (point: Vec2) => Vec2,
  reference: number,
  apex: number,
  loadAngle: number,
  { normalModule }: Pick<GearSpec, 'normalModule'>,
): LewisResult {
  const weakest = curves
    .map((curve) => {
      const factor = (t: number): number => {
        const [x, y] = seen(curve.at(t));
        return x < Math.min(apex, reference)
          ? (4 * y * y) / (6 * (apex - x) * normalModule)
          : Number.POSITIVE_INFINITY;
      };
      return { curve, ...leastOver(factor, curve.from, curve.to, 48) };
    })
    .reduce((a, b) => (b.value < a.value ? b : a));
  const [x, y] = seen(weakest.curve.at(weakest.at));
  return {
    ok: true,
    beam: { formFactor: weakest.value, thickness: 2 * y, height: apex - x, loadAngle },
  };
}
