import { specificSliding } from './contact.js';
import { gearGeometry, minimumProfileShift, tipThickness } from './gear-geometry.js';
import { lewisBeam } from './lewis.js';
import { centreDistance, referenceCentreDistance } from './pair.js';
import { pairLimits } from './pair-findings.js';
import type { GearSpec } from './spec.js';

/** How a sum of profile shifts is shared between the two gears. */
export const shiftSplits = ['balanced-sliding', 'equal-strength', 'no-undercut'] as const;
export type ShiftSplit = (typeof shiftSplits)[number];

/** Profile shifts are kept between these whatever the teeth would bear (common practice, no source). */
const leastShift = -0.5;
const mostShift = 0.8;

/** The profile shifts a gear bears: from no undercut to a tip of the least usual thickness, within −0.5 to 0.8. */
export function shiftRange(spec: GearSpec): readonly [least: number, most: number] {
  const least = Math.max(leastShift, minimumProfileShift(spec));
  const thickness = (x: number) => tipThickness({ ...spec, profileShift: x, tipShortening: 0 });
  const wanted = pairLimits.tipThickness * spec.normalModule;
  // A little more than the limit, so that thinning for backlash keeps within it.
  const thin = (x: number) => thickness(x) < 1.1 * wanted + spec.thinning;
  if (!thin(mostShift)) return [least, mostShift];
  let [low, high] = [leastShift, mostShift];
  for (let i = 0; i < 30; i++) {
    const middle = (low + high) / 2;
    if (thin(middle)) high = middle;
    else low = middle;
  }
  return [least, low];
}

/** The gears with shifts x₁ and x₂ and the tips shortened so far that the rack's root clearance is kept. */
export function shiftedPair(gear: GearSpec, mate: GearSpec, x1: number, x2: number): [GearSpec, GearSpec] {
  const pair = [
    { ...gear, profileShift: x1, tipShortening: 0 },
    { ...mate, profileShift: x2, tipShortening: 0 },
  ] as const;
  const opened = centreDistance(...pair) - referenceCentreDistance(...pair);
  const tipShortening = Math.max(0, gear.normalModule * (x1 + x2) - opened);
  return [
    { ...pair[0], tipShortening },
    { ...pair[1], tipShortening },
  ];
}

/**
 * The share x₁ of a shift sum, within both gears' ranges; null when the ranges cannot hold the sum.
 * - `balanced-sliding`: equal specific sliding at both roots (Henriot's criterion; from memory), the contact taken
 *   between the tip circles.
 * - `equal-strength`: equal Lewis form factors of the exact teeth, for gears of one metal.
 * - `no-undercut`: as near to an equal share as keeps both free of undercut.
 */
export function splitShift(gear: GearSpec, mate: GearSpec, sum: number, split: ShiftSplit): number | null {
  const [least1, most1] = shiftRange(gear);
  const [least2, most2] = shiftRange(mate);
  const [from, to] = [Math.max(least1, sum - most2), Math.min(most1, sum - least2)];
  if (from > to + 1e-12) return null;
  if (split === 'no-undercut') return Math.min(to, Math.max(from, sum / 2));
  const excess = split === 'balanced-sliding' ? slidingExcess : strengthExcess;
  let [low, high] = [from, Math.max(from, to)];
  if (excess(gear, mate, low, sum) >= 0) return low;
  if (excess(gear, mate, high, sum) <= 0) return high;
  for (let i = 0; i < (split === 'equal-strength' ? 18 : 40); i++) {
    const middle = (low + high) / 2;
    if (excess(gear, mate, middle, sum) < 0) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

/** Sliding at the gear's root less that at the mate's, rising with x₁: both are negative, and shift relieves a root. */
function slidingExcess(gear: GearSpec, mate: GearSpec, x1: number, sum: number): number {
  const pair = shiftedPair(gear, mate, x1, sum - x1);
  const geometry = pair.map(gearGeometry);
  const distance = centreDistance(...pair);
  const bases = geometry.map((g) => g.baseDiameter / 2) as [number, number];
  const whole = Math.sqrt(Math.max(0, distance ** 2 - (bases[0] + bases[1]) ** 2));
  const atRoot = (own: 0 | 1, other: 0 | 1): number => {
    const tip = Math.sqrt(Math.max(0, ((geometry[other]?.tipDiameter ?? 0) / 2) ** 2 - bases[other] ** 2));
    const rho = whole - tip;
    // Past the base circle there is no figure; keep falling so that the search finds its way back.
    if (rho <= 0) return -1e6 + rho;
    return specificSliding(rho, tip, pair[own].teeth, pair[other].teeth);
  };
  return atRoot(0, 1) - atRoot(1, 0);
}

/** Form factor of the gear less that of the mate, rising with x₁. A tooth that cannot be cut counts as weakest. */
function strengthExcess(gear: GearSpec, mate: GearSpec, x1: number, sum: number): number {
  const [first, second] = shiftedPair(gear, mate, x1, sum - x1).map(lewisBeam);
  return (first?.ok ? first.beam.formFactor : 0) - (second?.ok ? second.beam.formFactor : 0);
}
