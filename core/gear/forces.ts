import { maths } from '../maths/maths.js';
import { gearGeometry } from './gear-geometry.js';
import type { Hand } from './helix.js';
import type { GearSpec } from './spec.js';

/** Forces between two teeth in mesh, N, friction left out; those on the mate are equal and opposite. */
export interface ToothForces {
  /** F_t at the cylinder it is reckoned on. */
  readonly tangential: number;
  /** F_r = F_t tan α_t: pushes the axes apart. */
  readonly radial: number;
  /** F_a = F_t tan β: along the axis. 0 for spur and, as a whole, for double-helical gears. */
  readonly axial: number;
  /** F_n = F_t / (cos α_n cos β), along the flank's normal. */
  readonly normal: number;
}

/**
 * Forces of a torque (N·mm) on a spur or single-helical gear at its reference cylinder, the handbooks' way, or at
 * the working pitch cylinder when that diameter (mm) is given: there α_wt and β_w stand for α_t and β. The axial and
 * normal forces come to the same. Elements of Metric Gear Technology, section 12; Shigley, Mechanical Engineering
 * Design, chapter 13.
 */
export function toothForces(spec: GearSpec, torque: number, workingDiameter?: number): ToothForces {
  const g = gearGeometry(spec);
  const diameter = workingDiameter ?? g.referenceDiameter;
  const tangential = (2 * torque) / diameter;
  const alphaT = maths.acos(Math.min(1, g.baseDiameter / diameter));
  const axial = ((2 * torque) / g.referenceDiameter) * maths.tan(spec.helixAngle);
  const radial = tangential * maths.tan(alphaT);
  return { tangential, radial, axial, normal: maths.hypot(tangential, radial, axial) };
}

export interface DoubleHelicalForces extends ToothForces {
  /** Each half's own share: half of tangential and radial force, and the thrust that the other half takes up. */
  readonly half: ToothForces;
}

/** The same on a double-helical gear whose halves share the load: no net thrust, F_a / 2 of thrust inside the gear. */
export function doubleHelicalForces(
  spec: GearSpec,
  torque: number,
  workingDiameter?: number,
): DoubleHelicalForces {
  const whole = toothForces(spec, torque, workingDiameter);
  return {
    ...whole,
    axial: 0,
    half: {
      tangential: whole.tangential / 2,
      radial: whole.radial / 2,
      axial: whole.axial / 2,
      normal: whole.normal / 2,
    },
  };
}

/**
 * Which way the thrust pushes a single-helical gear along its axis, +1 to +Z: the driver of a right hand turning
 * counter-clockwise seen from +Z is pushed to +Z (the right hand's thumb); the driven gear, the other hand and the
 * other turn each reverse it.
 */
export const thrustDirection = (
  hand: Hand,
  turns: 'counter-clockwise' | 'clockwise',
  drives: boolean,
): 1 | -1 => {
  const reversals = (hand === 'left' ? 1 : 0) + (turns === 'clockwise' ? 1 : 0) + (drives ? 0 : 1);
  return reversals % 2 === 0 ? 1 : -1;
};

/**
 * Whether the halves of a double-helical gear are pressed together at the apex (rather than pulled apart).
 * `lowerHand` is the hand of the half below the apex.
 */
export const pressesOnApex = (
  lowerHand: Hand,
  turns: 'counter-clockwise' | 'clockwise',
  drives: boolean,
): boolean => thrustDirection(lowerHand, turns, drives) === 1;
