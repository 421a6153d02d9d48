/**
 * What fixes the tooth form of one cylindrical external involute gear.
 * Symbols of ISO 21771:2007; coefficients are in units of the normal module.
 */
export interface GearSpec {
  /** Normal module m_n, mm, > 0. */
  readonly normalModule: number;
  /** Tooth number z, a whole number ≥ 3. */
  readonly teeth: number;
  /** Normal pressure angle α_n, rad, between 0 and π/2. */
  readonly normalPressureAngle: number;
  /** Helix angle β at the reference cylinder, rad, from 0 (spur) to below π/2. The hand is not part of it. */
  readonly helixAngle: number;
  /** Profile shift coefficient x. */
  readonly profileShift: number;
  /** Addendum coefficient h_aP* of the basic rack. */
  readonly addendum: number;
  /** Dedendum coefficient h_fP* of the basic rack. */
  readonly dedendum: number;
  /** Fillet radius coefficient ρ_fP* of the basic rack: the tip rounding of the cutting rack. */
  readonly rootRadius: number;
  /**
   * Total reduction of the normal tooth thickness at the reference cylinder, mm, for backlash; negative
   * thickens the tooth. Cut by a rack with a tooth thicker by this much: the root diameter keeps its size.
   */
  readonly thinning: number;
  /** Tip shortening k m_n, mm, taken off the tip radius; 0 when left out. */
  readonly tipShortening?: number;
}
