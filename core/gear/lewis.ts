import type { Finding } from '../part/finding.js';
import type { PlaneCurve } from '../solid/sample-curve.js';
import type { GearSpec } from './spec.js';
import { leastOver } from './tip-path.js';
import { toothForm } from './tooth-form.js';

/** Lewis's beam read off a tooth, lengths in mm in the normal section. */
export interface LewisBeam {
  /** Y = t² / (6 l m): the form factor for the module, load at the tip. σ = W_t / (b m Y). */
  readonly formFactor: number;
  /** t, thickness of the tooth where the inscribed parabola touches the fillet. */
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
  spec.teeth / Math.cos(spec.helixAngle) ** 3;

/**
 * Lewis's form factor from the exact tooth: the load acts along the flank's normal at the tip corner; where that
 * line crosses the tooth's middle is the apex of a parabola, a beam of constant strength, and where the largest one
 * that the tooth holds touches the fillet is the weakest section. W. Lewis, "Investigation of the strength of gear
 * teeth", 1892 (the construction as handbooks repeat it). Only the tangential part of the load bends.
 */
export function lewisBeam(spec: GearSpec): LewisResult {
  const result = toothForm({ ...spec, teeth: equivalentTeeth(spec), helixAngle: 0 });
  if (!result.ok) return result;
  const { form } = result;
  const { baseRadius } = form.rack;
  const fillet = form.curves.at(-1) as PlaneCurve;
  // The load's line is a tangent of the base circle; at the tip corner it stands α_a to the circle there.
  const loadAngle = Math.acos(baseRadius / form.tipRadius) - form.tipHalfAngle;
  const apex = baseRadius / Math.cos(loadAngle);
  const factor = (t: number): number => {
    const [x, y] = fillet.at(t);
    return x < apex ? (4 * y * y) / (6 * (apex - x) * spec.normalModule) : Number.POSITIVE_INFINITY;
  };
  const { at, value: formFactor } = leastOver(factor, fillet.from, fillet.to, 48);
  const [x, y] = fillet.at(at);
  return { ok: true, beam: { formFactor, thickness: 2 * y, height: apex - x, loadAngle } };
}
