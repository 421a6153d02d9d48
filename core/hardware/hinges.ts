/** Proportions of butt and strap hinges, and their clearances as finished. mm. */
import type { FastenerSeries } from './fastener.js';
import { pinClearance, rodAtLeast } from './rods.js';

const inch = 25.4;

/** Leaf of rolled steel butts by height, in: standard weight (BHMA A156.1 lists, from memory). */
const rolledLeaf = [
  [3.5, 0.123],
  [4, 0.13],
  [4.5, 0.134],
  [5, 0.146],
  [6, 0.16],
] as const;

/**
 * Leaf of a rolled steel butt of this height, mm: between the table's sizes straight, beyond them along the line
 * through the first and the last.
 */
export function rolledLeafThickness(length: number): number {
  const height = length / inch;
  const next = rolledLeaf.findIndex(([h]) => h >= height);
  const [from, to] =
    next <= 0
      ? [rolledLeaf[0], rolledLeaf[rolledLeaf.length - 1]!]
      : [rolledLeaf[next - 1]!, rolledLeaf[next]!];
  return (from[1] + ((height - from[0]) * (to[1] - from[1])) / (to[0] - from[0])) * inch;
}

/** Leaf of a cast butt: 1.3 of the rolled one, at least 2.5 mm (common practice, no source). @param length along the pin */
export const leafThickness = (length: number): number => Math.max(2.5, 1.3 * rolledLeafThickness(length));

/**
 * Knuckles of both leaves together, always odd: 3 below 2-1/2 in, 5 to 6 in, 7 to 10 in, 9 beyond; fewer where each
 * would be shorter than its pin is thick (common practice, no source; 5 usual, 3 for small or light).
 */
export function knuckleCount(length: number, pinDiameter = 0): number {
  let count = length < 2.5 * inch ? 3 : length <= 6 * inch ? 5 : length <= 10 * inch ? 7 : 9;
  while (count > 3 && length / count < pinDiameter) count -= 2;
  return count;
}

/** Knuckles of the leaf that has the outer ones, and of the other: (n + 1)/2 and (n − 1)/2. */
export const knucklesOf = (count: number): readonly [outer: number, inner: number] => [
  (count + 1) / 2,
  (count - 1) / 2,
];

/** Room at each joint between two knuckles along the pin, finished: 0.2 to 0.4 mm for cast knuckles before fitting (common practice, no source). */
export const knuckleGap = { least: 0.2, usual: 0.3, most: 0.4 } as const;

/**
 * Length of one knuckle: the leaf's length less the gaps, shared evenly.
 * RangeError for an even or impossible number.
 */
export function knuckleLength(length: number, count: number, gap: number = knuckleGap.usual): number {
  if (!Number.isInteger(count) || count < 3 || count % 2 === 0) {
    throw new RangeError(`knuckle count is ${count}; it must be odd, 3 or more`);
  }
  return (length - (count - 1) * gap) / count;
}

/** Metal round the pin: as thick as the leaf, as where a leaf is rolled to a knuckle, at least 2 mm and 0.4 of the pin (common practice, no source). */
export const knuckleWall = (leaf: number, pinDiameter: number): number =>
  Math.max(2, leaf, 0.4 * pinDiameter);

/** A stock rod about 1.25 leaf thicknesses thick: 1 to 1.5 on small butts (from memory, weak); more by load. */
export const hingePin = (series: FastenerSeries, leaf: number, leastDiameter = 0): number =>
  rodAtLeast(series, Math.max(1.25 * leaf, leastDiameter));

/** Room between a leaf and the other's knuckles, and between the leaves when closed, finished (common practice, no source). */
export const leafGap = { least: 0.3, usual: 0.8 } as const;

/** Sizes of a cast butt hinge by the length of its leaves. */
export interface ButtHingeRule {
  readonly leafThickness: number;
  readonly knuckles: number;
  readonly pinDiameter: number;
  readonly holeDiameter: number;
  readonly knuckleWall: number;
  readonly knuckleDiameter: number;
  readonly knuckleLength: number;
  readonly knuckleGap: number;
  /** Over both leaves open flat: broad butts are square, narrow ones 2/3 of their length. */
  readonly openWidth: { readonly broad: number; readonly narrow: number };
  readonly screwsPerLeaf: number;
}

export function buttHingeRule(length: number, series: FastenerSeries, leastPin = 0): ButtHingeRule {
  const leaf = leafThickness(length);
  const pin = hingePin(series, leaf, leastPin);
  const knuckles = knuckleCount(length, pin);
  const holeDiameter = pin + pinClearance(pin);
  const wall = knuckleWall(leaf, pin);
  return {
    leafThickness: leaf,
    knuckles,
    pinDiameter: pin,
    holeDiameter,
    knuckleWall: wall,
    knuckleDiameter: holeDiameter + 2 * wall,
    knuckleLength: knuckleLength(length, knuckles),
    knuckleGap: knuckleGap.usual,
    openWidth: { broad: length, narrow: (2 / 3) * length },
    screwsPerLeaf: leafScrews(length),
  };
}

/** Screws of a leaf: 2 to 2 in, 3 to 4 in, 4 beyond (BHMA A156.1 has four in 4-1/2 and 5 in; the rest common practice, no source). */
export const leafScrews = (length: number): number => (length <= 2 * inch ? 2 : length <= 4 * inch ? 3 : 4);

/** Hinges of a door by its height: 2 to 60 in, one more for each 30 in or part (hinge makers' rule, from memory). */
export const hingeCount = (doorHeight: number): number =>
  Math.max(2, Math.ceil(doorHeight / (30 * inch) - 1e-9));

/** Strap hinge by the door's width: strap at least a third, usually half of it (common practice, no source). */
export function strapHingeRule(doorWidth: number) {
  const length = doorWidth / 2;
  return {
    length,
    leastLength: doorWidth / 3,
    rootWidth: Math.max(20, length / 6),
    tipWidth: Math.max(12, length / 10),
    /** At the root; the tip may be 2/3 of it. */
    thickness: Math.max(3, length / 60),
    screws: Math.max(3, Math.ceil(length / 90)),
  };
}
