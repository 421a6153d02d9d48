/**
 * What screws hold in wood. Test loads (mean strengths) of the Wood Handbook, FPL-GTR-190 and 282, chapter 8, from
 * memory; they are in inches and pounds there: mm and N here, converted exactly.
 */
import { maths } from '../maths/maths.js';
import { newtonsPerPound } from '../units/mechanics.js';

/** Specific gravity by oven-dry weight and volume at 12 % (Wood Handbook, table 5-3, from memory). */
export const woods = {
  'western red cedar': { gravity: 0.32, kind: 'softwood' },
  'white pine': { gravity: 0.35, kind: 'softwood' },
  'sitka spruce': { gravity: 0.4, kind: 'softwood' },
  'douglas fir': { gravity: 0.48, kind: 'softwood' },
  larch: { gravity: 0.52, kind: 'softwood' },
  mahogany: { gravity: 0.45, kind: 'hardwood' },
  teak: { gravity: 0.55, kind: 'hardwood' },
  ash: { gravity: 0.6, kind: 'hardwood' },
  oak: { gravity: 0.68, kind: 'hardwood' },
} as const;

export type WoodName = keyof typeof woods;

const inch = 25.4;

/** Withdrawal from side grain, N: 15 700 G² D L lb, wood screw with the right lead hole. @param penetration of the threaded part, mm */
export const screwWithdrawal = (gravity: number, diameter: number, penetration: number): number =>
  (15_700 * gravity ** 2 * diameter * penetration * newtonsPerPound) / inch ** 2;

/** Withdrawal of a lag screw or hanger bolt from side grain, N: 8 100 G^1.5 D^0.75 L lb. */
export const lagWithdrawal = (gravity: number, diameter: number, penetration: number): number =>
  8100 * maths.pow(gravity, 1.5) * maths.pow(diameter / inch, 0.75) * (penetration / inch) * newtonsPerPound;

/** From end grain screws hold about three quarters as much, and unreliably (Wood Handbook, ch. 8, from memory). */
export const endGrainShare = 0.75;

/** Factor K of the lateral load, lb/in², by wood and specific gravity (Wood Handbook, table 8-4, from memory). */
const lateral: Readonly<Record<'softwood' | 'hardwood', readonly (readonly [upTo: number, k: number])[]>> = {
  softwood: [
    [0.42, 3360],
    [0.47, 4320],
    [0.52, 5280],
  ],
  hardwood: [
    [0.47, 3360],
    [0.56, 4640],
    [0.74, 6400],
  ],
};

/**
 * Lateral load of a wood screw at about 0.4 mm slip, N: K D² lb, in seasoned wood, 7 D deep. Denser woods count as
 * the densest of the table.
 */
export function screwLateral(gravity: number, kind: 'softwood' | 'hardwood', diameter: number): number {
  const rows = lateral[kind];
  const k = (rows.find(([upTo]) => gravity <= upTo + 1e-9) ?? rows[rows.length - 1]!)[1];
  return (k * diameter ** 2 * newtonsPerPound) / inch ** 2;
}

/**
 * What one screw may carry, N. Withdrawal: a fifth of the mean strength, the share that allowable loads of the Wood
 * Handbook's age had; sideways: the load at small slip over 1.6 (both from memory).
 */
export const allowableWithdrawal = (meanStrength: number): number => meanStrength / 5;
export const allowableLateral = (loadAtSlip: number): number => loadAtSlip / 1.6;
