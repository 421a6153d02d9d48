import { maths } from '../maths/maths.js';
import type { Vec2 } from '../solid/types.js';
import type { GearSpec } from './spec.js';

/**
 * The cutting rack in the transverse section of the gear, and the closed-form envelope it leaves.
 *
 * Coordinates of a rack point: `u` radially outward from the pitch line, `v` along the pitch line from the
 * middle of the gear tooth. The normal-section rack of ISO 53 is stretched along `v` by 1/cos β, so its tip
 * rounding is an ellipse arc there. The point that cuts is where the rack's normal passes through the pitch
 * point (law of gearing, ISO 21771:2007 clause 4): closed form for a straight flank (the involute) and for the
 * rounding (the fillet trochoid).
 *
 * Flank stock s moves the rack's flanks, tip line and rounding by s along their normals in the normal section.
 * Conjugate surfaces share their normals, so the gear's surface moves by exactly s along its normal everywhere,
 * fillet and root included; on the flank that is s / cos β_b in the transverse section.
 */
export interface TransverseRack {
  /** Reference radius r = m_t z / 2, mm. */
  readonly radius: number;
  /** Transverse pressure angle α_t, rad. */
  readonly pressureAngle: number;
  readonly normalPressureAngle: number;
  readonly helixCosine: number;
  /** Base radius r_b, mm. */
  readonly baseRadius: number;
  /** Half tooth angle where the flank's involute meets the base circle, rad. */
  readonly baseHalfAngle: number;
  /** Centre of the tip rounding: u, and v in the transverse section, mm. */
  readonly roundingCentre: { readonly u: number; readonly v: number };
  /** Tip rounding in the normal section, mm, ≥ 0. */
  readonly rounding: number;
  /** Root radius r_f that the rack's tip line leaves, mm. */
  readonly rootRadius: number;
  /** Half the flat of the rack's tip in the transverse section, mm; < 0 when the rounding does not fit. */
  readonly tipFlat: number;
  /** Roll angle ξ (tangent of the pressure angle) where the flank's straight part ends; < 0 means undercut. */
  readonly rollAtRounding: number;
}

/**
 * @param flankStock normal stock on flank, fillet and root, mm, ≥ 0.
 */
export function transverseRack(spec: GearSpec, flankStock = 0): TransverseRack {
  const m = spec.normalModule;
  const an = spec.normalPressureAngle;
  const cosB = maths.cos(spec.helixAngle);
  const at = maths.atan(maths.tan(an) / cosB);
  const radius = (m * spec.teeth) / cosB / 2;
  const baseRadius = radius * maths.cos(at);

  // Rack tooth in the normal section: half thickness on its reference line, depth, rounding.
  const half = (Math.PI * m) / 4 + spec.thinning / 2 - flankStock / maths.cos(an);
  const rounding = Math.max(0, spec.rootRadius * m - flankStock);
  // A rack tooth thinned to a point by large stock cuts no deeper than its point.
  const depth = Math.min(spec.dedendum * m - flankStock, half / maths.tan(an));
  const centreDepth = depth - rounding;
  const flatHalf = half - centreDepth * maths.tan(an) - rounding / maths.cos(an);
  const shift = spec.profileShift * m;

  const normalThickness = (Math.PI * m) / 2 + 2 * spec.profileShift * m * maths.tan(an) - spec.thinning;
  const thickness = (normalThickness + (2 * flankStock) / maths.cos(an)) / cosB;
  const uAtRounding = shift - (centreDepth + rounding * maths.sin(an));

  return {
    radius,
    pressureAngle: at,
    normalPressureAngle: an,
    helixCosine: cosB,
    baseRadius,
    baseHalfAngle: thickness / (2 * radius) + maths.tan(at) - at,
    roundingCentre: { u: shift - centreDepth, v: ((Math.PI * m) / 2 - flatHalf) / cosB },
    rounding,
    rootRadius: radius + shift - depth,
    tipFlat: flatHalf / cosB,
    rollAtRounding: maths.tan(at) + uAtRounding / (baseRadius * maths.sin(at)),
  };
}

/** A point of the tooth in polar form: radius mm, angle rad from the tooth's middle. */
export interface PolarPoint {
  readonly radius: number;
  readonly angle: number;
}

/** What fixes an involute flank: its base circle and where it starts on it. */
export type InvoluteFlank = Pick<TransverseRack, 'baseRadius' | 'baseHalfAngle'>;

/** Flank point at roll angle ξ ≥ 0 (ISO 21771:2007 eq. for the involute: θ = ξ − arctan ξ from the base circle). */
export const flankPoint = (flank: InvoluteFlank, roll: number): PolarPoint => ({
  radius: flank.baseRadius * maths.hypot(1, roll),
  angle: flank.baseHalfAngle - (roll - maths.atan(roll)),
});

/** Roll angle ξ of the flank at a radius ≥ r_b, mm. */
export const rollAtRadius = (flank: InvoluteFlank, radius: number): number =>
  Math.sqrt(Math.max(0, (radius / flank.baseRadius) ** 2 - 1));

/**
 * Fillet point cut by the rounding where its normal in the rack's normal section stands at `psi` to the pitch
 * line: ψ = α_n where the rounding leaves the flank, π/2 at the tip line.
 */
export function filletPoint(rack: TransverseRack, psi: number): PolarPoint {
  const { u: uc, v: vc } = rack.roundingCentre;
  const sin = maths.sin(psi);
  const cos = maths.cos(psi);
  const u = uc - rack.rounding * sin;
  const v = vc - (rack.rounding * cos) / rack.helixCosine;
  const along = (u * cos * rack.helixCosine) / sin;
  return {
    radius: maths.hypot(rack.radius + u, along),
    angle: maths.atan2(along, rack.radius + u) - (along - v) / rack.radius,
  };
}

export const cartesian = (p: PolarPoint): Vec2 => [
  p.radius * maths.cos(p.angle),
  p.radius * maths.sin(p.angle),
];
