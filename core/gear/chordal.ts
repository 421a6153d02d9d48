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
  const equivalentDiameter = (spec.teeth * spec.normalModule) / Math.cos(spec.helixAngle) ** 3;
  const theta = g.normalThickness / equivalentDiameter;
  const addendum = ((tipDiameter ?? g.tipDiameter) - g.referenceDiameter) / 2;
  return {
    thickness: equivalentDiameter * Math.sin(theta),
    height: addendum + (equivalentDiameter * (1 - Math.cos(theta))) / 2,
  };
}

/**
 * The same on a rack, where chord and arc are one: s = π m_n / 2 less thinning, h = h_a. Elements of Metric Gear
 * Technology, Table 10-2.
 */
export const rackThickness = (
  spec: Pick<GearSpec, 'normalModule' | 'addendum' | 'thinning'>,
): ChordalThickness => ({
  thickness: (Math.PI * spec.normalModule) / 2 - spec.thinning,
  height: spec.addendum * spec.normalModule,
});
