import { maths } from '../maths/maths.js';
import { gearGeometry } from './gear-geometry.js';
import type { GearSpec } from './spec.js';

/** Setting and reading of a gear tooth caliper at the reference cylinder, mm. */
export interface ChordalThickness {
  /** Chord across the tooth in the normal section, the reading. */
  readonly thickness: number;
  /** Height from the tip down to that chord, the setting. */
  readonly height: number;
}

/**
 * Chordal thickness s_j and height h_j: s_j = z_v m_n sin θ, h_j = h_a + z_v m_n (1 − cos θ) / 2 with
 * θ = s_n / (z_v m_n) and z_v = z / cos³ β. Elements of Metric Gear
 * Technology, section 10 (helical by the equivalent spur gear).
 * `tipDiameter` is the one the caliper rests on, mm; the specification's own when left out.
 */
export function chordalThickness(spec: GearSpec, tipDiameter?: number): ChordalThickness {
  const g = gearGeometry(spec);
  const equivalentDiameter = (spec.teeth * spec.normalModule) / maths.pow(maths.cos(spec.helixAngle), 3);
  const theta = g.normalThickness / equivalentDiameter;
  const addendum = ((tipDiameter ?? g.tipDiameter) - g.referenceDiameter) / 2;
  return {
    thickness: equivalentDiameter * maths.sin(theta),
    height: addendum + (equivalentDiameter * (1 - maths.cos(theta))) / 2,
  };
}

/** Chord whose place on the flank does not depend on the tooth number, mm. */
export interface ConstantChord extends ChordalThickness {
  /** Diameter where the caliper's jaws touch the flanks, mm. */
  readonly contactDiameter: number;
}

/**
 * Constant chord s_c = s_n cos² α_n and its height h_c = h_a − ½ s_n sin α_n cos α_n: between the points where both
 * flanks of the basic rack touch the tooth at once. With s_n written out, m_n (½ π cos² α + x sin 2α) and
 * h_a − m_n (⅛ π sin 2α + x sin² α). GOST 16532-70, which writes the height as ½ (d_a − d − s_c tan α);
 * Machinery's Handbook, "Constant chord" (both from memory). On a helical gear it lies in the plane normal to the tooth at the reference
 * cylinder, where the normals at both contacts meet the line the rack rolls about: no equivalent gear is needed.
 * `tipDiameter` is the one the caliper rests on, mm; the specification's own when left out.
 */
export function constantChord(spec: GearSpec, tipDiameter?: number): ConstantChord {
  const g = gearGeometry(spec);
  const [sin, cos] = [maths.sin(spec.normalPressureAngle), maths.cos(spec.normalPressureAngle)];
  const thickness = g.normalThickness * cos ** 2;
  const rise = (g.normalThickness * sin * cos) / 2;
  return {
    thickness,
    height: ((tipDiameter ?? g.tipDiameter) - g.referenceDiameter) / 2 - rise,
    contactDiameter: maths.hypot(g.referenceDiameter + 2 * rise, thickness * maths.cos(spec.helixAngle)),
  };
}

/**
 * Chordal thickness on a rack, where chord and arc are one: s = π m_n / 2 less thinning, h = h_a. Elements of Metric Gear
 * Technology, Table 10-2.
 */
export const rackThickness = (
  spec: Pick<GearSpec, 'normalModule' | 'addendum' | 'thinning'>,
): ChordalThickness => ({
  thickness: (Math.PI * spec.normalModule) / 2 - spec.thinning,
  height: spec.addendum * spec.normalModule,
});
