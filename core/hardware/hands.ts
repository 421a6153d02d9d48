/** Room for fingers and hands, and what they grip. mm. */
import { standardGravity } from '../foundry/gating/choke.js';

export type FingerCount = 1 | 2 | 3 | 4;
export type HandCover = 'bare' | 'gloved';

/** Room a handle leaves for the hand. */
export interface HandRoom {
  /** Between the grip and what is behind it. */
  readonly depth: number;
  /** Along the grip, between its feet. */
  readonly width: number;
  /** How far the free space must reach for the hand. */
  readonly reach: number;
}

/**
 * MIL-STD-1472, minimum handle dimensions (from memory): two-finger bar, one-hand bar; one-finger recess or ring
 * for one finger. Three fingers lie between: the standard has none.
 */
const bars: Readonly<Record<HandCover, readonly [one: HandRoom, two: HandRoom, hand: HandRoom]>> = {
  bare: [
    { depth: 32, width: 32, reach: 50 },
    { depth: 32, width: 65, reach: 75 },
    { depth: 48, width: 111, reach: 100 },
  ],
  gloved: [
    { depth: 38, width: 38, reach: 50 },
    { depth: 38, width: 75, reach: 75 },
    { depth: 50, width: 125, reach: 100 },
  ],
};

const between = (a: number, b: number): number => (a + b) / 2;

/** Room behind a bar or bow handle for so many fingers. */
export function handleRoom(fingers: FingerCount, cover: HandCover = 'bare'): HandRoom {
  const [one, two, hand] = bars[cover];
  if (fingers === 1) return one;
  if (fingers === 2) return two;
  if (fingers === 4) return hand;
  return {
    depth: between(two.depth, hand.depth),
    width: between(two.width, hand.width),
    reach: between(two.reach, hand.reach),
  };
}

/** Room in a recess (flush pull): MIL-STD-1472, two-finger, one-hand and one-finger recess (from memory). */
const recesses: Readonly<Record<HandCover, readonly [one: HandRoom, two: HandRoom, hand: HandRoom]>> = {
  bare: [
    { depth: 32, width: 32, reach: 50 },
    { depth: 32, width: 65, reach: 50 },
    { depth: 50, width: 110, reach: 90 },
  ],
  gloved: [
    { depth: 38, width: 38, reach: 50 },
    { depth: 38, width: 75, reach: 50 },
    { depth: 90, width: 135, reach: 100 },
  ],
};

export function recessRoom(fingers: FingerCount, cover: HandCover = 'bare'): HandRoom {
  const [one, two, hand] = recesses[cover];
  if (fingers === 1) return one;
  if (fingers === 2) return two;
  if (fingers === 4) return hand;
  return {
    depth: between(two.depth, hand.depth),
    width: between(two.width, hand.width),
    reach: between(two.reach, hand.reach),
  };
}

/** A recess for finger tips alone: clear opening and depth (MIL-STD-1472, fingertip recess, from memory). */
export const fingertipRecess: Readonly<
  Record<HandCover, { readonly opening: number; readonly depth: number }>
> = {
  bare: { opening: 19, depth: 13 },
  gloved: { opening: 25, depth: 19 },
};

/**
 * Breadths one finger wants in a ring or eye. 14: the tip of a small index finger (DIN 33402-2: women, 5 %, 13 to
 * 14; from memory); 19: fingertip recess; 32: one-finger ring or recess; 65: two fingers (MIL-STD-1472, bare hand,
 * from memory).
 */
export const fingerBreadth = { least: 14, tip: 19, comfortable: 32, two: 65 } as const;

/**
 * Index finger at the middle joint and at the tip, and hand without the thumb; men at the 95th percentile (DIN
 * 33402-2, from memory). What a closed handle must at least let through.
 */
export const largeHand = { fingerAtJoint: 23, fingerTip: 20, palm: 93 } as const;

/** Four large fingers need their palm's breadth, fewer their share; a glove adds 3 mm a finger (common practice, no source). */
export const leastHandleWidth = (fingers: FingerCount, cover: HandCover = 'bare'): number =>
  (largeHand.palm / 4 + (cover === 'gloved' ? 3 : 0)) * fingers;

/** A large finger must go in behind the grip: joint and 2 mm bare, 7 mm gloved (common practice, no source). */
export const leastHandleDepth = (cover: HandCover = 'bare'): number =>
  largeHand.fingerAtJoint + (cover === 'gloved' ? 7 : 2);

/** Mass carried by the hand, up to, kg, and the thinnest grip for it (MIL-STD-1472, handle curvature, from memory). */
const gripByMass: readonly (readonly [upTo: number, diameter: number])[] = [
  [6.8, 6],
  [9, 13],
  [18, 19],
  [Number.POSITIVE_INFINITY, 25],
];

/** m/s² */
export const gravity = standardGravity / 1000;

/** Thinnest grip for a pull of `force` newtons: thinner ones cut the fingers. */
export const leastGripDiameter = (force: number): number =>
  gripByMass.find(([upTo]) => Math.abs(force) <= upTo * gravity * 1.000001)![1];

/**
 * Grips that hands like: hard pulls by the whole hand 32 to 51 mm (1-1/4 to 2 in), fingers alone 6 to 13 mm (1/4 to
 * 1/2 in) (NIOSH Publication 2004-164, Easy Ergonomics: non-powered hand tools; from memory).
 */
export const comfortableGrip = {
  hand: { least: 32, most: 51 },
  fingers: { least: 6, most: 13 },
} as const;

/** Pull that a handle for so many fingers is sized for, N: hard use, with a jerk (common practice, no source). */
export const usualPull: Readonly<Record<FingerCount, number>> = { 1: 100, 2: 200, 3: 300, 4: 400 };
