import { maths } from '../maths/maths.js';
import type { GearSpec } from './spec.js';

/** A basic rack tooth profile in the normal section; lengths are coefficients of the normal module. */
export interface BasicRack {
  /** Pressure angle α_P, rad. */
  readonly normalPressureAngle: number;
  /** Addendum h_aP*. */
  readonly addendum: number;
  /** Dedendum h_fP*. */
  readonly dedendum: number;
  /** Fillet radius ρ_fP*. */
  readonly rootRadius: number;
}

export type BasicRackName = 'A' | 'B' | 'C' | 'D';

const degrees20 = Math.PI / 9;

/**
 * Standard basic rack tooth profiles, ISO 53:1998, Table 2 and annex A (from memory). A for high torque,
 * B and C for normal service, D for finishing by grinding or shaving at high torque.
 */
export const basicRackProfiles: Readonly<Record<BasicRackName, BasicRack>> = {
  A: { normalPressureAngle: degrees20, addendum: 1, dedendum: 1.25, rootRadius: 0.38 },
  B: { normalPressureAngle: degrees20, addendum: 1, dedendum: 1.25, rootRadius: 0.3 },
  C: { normalPressureAngle: degrees20, addendum: 1, dedendum: 1.25, rootRadius: 0.25 },
  D: { normalPressureAngle: degrees20, addendum: 1, dedendum: 1.4, rootRadius: 0.39 },
};

/** A gear cut by a standard basic rack: `gearFromRack('A', { normalModule: 2, teeth: 40 })`. */
export const gearFromRack = (
  rack: BasicRack | BasicRackName,
  gear: Pick<GearSpec, 'normalModule' | 'teeth'> & Partial<GearSpec>,
): GearSpec => ({
  ...(typeof rack === 'string' ? basicRackProfiles[rack] : rack),
  helixAngle: 0,
  profileShift: 0,
  thinning: 0,
  ...gear,
});

/**
 * Depth of the straight part of the cutting rack's flank below its datum line, as a coefficient: where the
 * tip rounding begins, h_FfP* = h_fP* − ρ_fP* (1 − sin α_n). This depth, not h_fP*, decides undercut.
 */
export const straightDepth = (
  rack: Pick<BasicRack, 'normalPressureAngle' | 'dedendum' | 'rootRadius'>,
): number => rack.dedendum - rack.rootRadius * (1 - maths.sin(rack.normalPressureAngle));

/**
 * Largest tip rounding the rack can carry, as a coefficient: the arc then takes up the whole tip land.
 * Half tip land of the rack = π/4 − h_fP* tan α; the arc's half width is ρ (1 − sin α)/cos α.
 * A rack thicker by `thinning` / m_n carries a little more.
 */
export const maxRootRadius = (
  rack: Pick<BasicRack, 'normalPressureAngle' | 'dedendum'>,
  thinningCoefficient = 0,
): number => {
  const alpha = rack.normalPressureAngle;
  const halfLand = Math.PI / 4 + thinningCoefficient / 2 - rack.dedendum * maths.tan(alpha);
  return (halfLand * maths.cos(alpha)) / (1 - maths.sin(alpha));
};
