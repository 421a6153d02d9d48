import {
  type FastenerSeries,
  type HingeSizes,
  hingePin,
  knuckleCount,
  knuckleLength,
  knuckleWall,
  type LoadCheck,
  leafGap,
  nearStep,
  pinClearance,
  sizeStep,
  stockRods,
  upStep,
} from '../../core/hardware/index.js';
import { checkHinge, type DoorUse } from './door-load.js';
import type { KnuckleRow } from './knuckles.js';

/** What a hinge's leaf, pin and knuckles are worked out from; sizes that are given stay as they are. mm */
export interface HingeWishes extends DoorUse {
  readonly series: FastenerSeries;
  /** Length of the row of knuckles. */
  readonly rowLength: number;
  /** Leaf by the rules of proportion. */
  readonly usualThickness: number;
  readonly thickness?: number | undefined;
  readonly pinDiameter?: number | undefined;
  readonly pinClearance?: number | undefined;
  readonly knuckleWall?: number | undefined;
  readonly knuckles: string;
  readonly knuckleGap: number;
  /** Between the closed leaves; as puts the backs flush with the barrel if left out. */
  readonly closedGap?: number | undefined;
}

/** Leaf, pin and knuckles, finished, mm. */
export interface HingeCore {
  readonly thickness: number;
  readonly pinDiameter: number;
  readonly holeDiameter: number;
  readonly wall: number;
  readonly barrelRadius: number;
  readonly closedGap: number;
  readonly row: KnuckleRow;
  readonly load: LoadCheck;
}

/** Thickest leaf a hinge is made with on its own, mm. */
const thickest = 16;

/** By the rules of proportion, then heavier until they bear the door, if one is given. */
export function hingeCore(p: HingeWishes): HingeCore {
  let leaf = p.thickness ?? nearStep(p.series, p.usualThickness);
  let pin = p.pinDiameter ?? hingePin(p.series, leaf);
  let more = 0;
  let sizes = coreWith(p, leaf, pin, more);
  for (let i = 0; i < 60 && p.doorMass !== undefined && sizes.load.utilisation > 1; i++) {
    const { member } = sizes.load.weakest;
    if (member === 'pin' && p.pinDiameter === undefined) {
      const next = stockRods[p.series].find((rod) => rod > pin + 1e-9);
      if (next === undefined || p.rowLength / 3 < 2 * next) break;
      pin = next;
    } else if (member === 'knuckles' && p.knuckleWall === undefined && more < p.rowLength / 8) {
      more += sizeStep[p.series];
    } else if (member === 'leaf' && p.thickness === undefined && leaf < Math.min(thickest, p.rowLength / 6)) {
      leaf += sizeStep[p.series];
      if (p.pinDiameter === undefined) pin = Math.max(pin, hingePin(p.series, leaf));
    } else break;
    sizes = coreWith(p, leaf, pin, more);
  }
  return sizes;
}

function coreWith(p: HingeWishes, thickness: number, pinDiameter: number, more: number): HingeCore {
  const holeDiameter = pinDiameter + (p.pinClearance ?? pinClearance(pinDiameter));
  // A worked-out wall puts the barrel's diameter on a step.
  const barrel =
    p.knuckleWall === undefined
      ? upStep(p.series, holeDiameter + 2 * (knuckleWall(thickness, pinDiameter) + more))
      : holeDiameter + 2 * p.knuckleWall;
  const count = p.knuckles === 'auto' ? knuckleCount(p.rowLength, pinDiameter) : Number(p.knuckles);
  const row: KnuckleRow = {
    length: p.rowLength,
    count,
    gap: p.knuckleGap,
    knuckleLength: knuckleLength(p.rowLength, count, p.knuckleGap),
  };
  const closedGap = p.closedGap ?? Math.max(0.5, barrel - 2 * thickness);
  const members: HingeSizes = {
    pinDiameter,
    holeDiameter,
    knuckleDiameter: barrel,
    knuckles: count,
    knuckleLength: row.knuckleLength,
    knuckleGap: p.knuckleGap,
    leafThickness: thickness,
    leafOffset: (closedGap + thickness) / 2,
  };
  return {
    thickness,
    pinDiameter,
    holeDiameter,
    wall: (barrel - holeDiameter) / 2,
    barrelRadius: barrel / 2,
    closedGap,
    row,
    load: checkHinge(p, members),
  };
}

/** Usual rounding of the notches' inner corners, mm (common practice, no source). */
const usualNotchRadius = 1.5;

/** Rounding of the notches' inner corners and room between a leaf and the other's barrel, mm, with the given ones. */
export function notchSizes(given: {
  readonly notchRadius?: number | undefined;
  readonly leafGap?: number | undefined;
}): { readonly notchRadius: number; readonly leafGap: number } {
  const notchRadius =
    given.notchRadius ??
    (given.leafGap === undefined ? usualNotchRadius : Math.min(usualNotchRadius, given.leafGap + 0.3));
  return { notchRadius, leafGap: given.leafGap ?? Math.max(leafGap.usual, notchRadius - 0.3) };
}

/** Mouth of the countersink for a riveted pin's end, mm; 0 where the knuckle has no room for it. */
export function rivetMouth(ends: string, { holeDiameter, barrelRadius }: HingeCore): number {
  const mouth = Math.min(1.5 * holeDiameter, 2 * barrelRadius - 2);
  return ends === 'riveted' && mouth > 1.1 * holeDiameter ? mouth : 0;
}
