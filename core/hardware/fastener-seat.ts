/** Where a fastener sits in a casting: countersinks, lands, edges and pitches. mm. */
import { maths } from '../maths/maths.js';
import type { CountersunkHead, Fastener, HoleFit } from './fastener.js';

/** A conical seat over a clearance hole. */
export interface CountersinkSeat {
  readonly holeDiameter: number;
  /** Mouth at the surface: the head's sharp diameter, so that the blunted head lies flush or just under. */
  readonly mouthDiameter: number;
  /** Included angle, radians. */
  readonly angle: number;
  /** From the surface to where cone and hole meet. */
  readonly coneDepth: number;
  readonly standard: string;
}

/** The head of the asked standard (`ISO 10642`), or the usual one; undefined where the fastener has none. */
export const countersunkHead = (fastener: Fastener, standard?: string): CountersunkHead | undefined =>
  standard === undefined
    ? fastener.countersunk[0]
    : fastener.countersunk.find((head) => head.standard === standard);

/**
 * The seat for a head, sunk by `recess` mm more; undefined where the fastener has no countersunk head.
 */
export function countersinkSeat(
  fastener: Fastener,
  options: { readonly fit?: HoleFit; readonly recess?: number; readonly standard?: string } = {},
): CountersinkSeat | undefined {
  const head = countersunkHead(fastener, options.standard);
  if (head === undefined) return undefined;
  const holeDiameter = fastener.clearanceHole[options.fit ?? 'medium'];
  const slope = maths.tan(head.angle / 2);
  const mouthDiameter = head.theoreticalDiameter + 2 * (options.recess ?? 0) * slope;
  return {
    holeDiameter,
    mouthDiameter,
    angle: head.angle,
    coneDepth: (mouthDiameter - holeDiameter) / (2 * slope),
    standard: head.standard,
  };
}

/** Depth the theoretical head reaches below the surface, (d_k − d) / 2 tan(α/2), mm. */
export const headDepth = (head: CountersunkHead, diameter: number): number =>
  (head.theoreticalDiameter - diameter) / (2 * maths.tan(head.angle / 2));

/**
 * Thinnest plate a countersink may go in: the cone takes two thirds of it at most, so that no knife edge bears on
 * the shank (sheet-metal practice of aircraft handbooks, from memory), and 1 mm stays under it.
 */
export const leastPlate = (seat: CountersinkSeat): number =>
  Math.max(1.5 * seat.coneDepth, seat.coneDepth + 1);

/** Metal between the mouth of a countersink or the rim of a washer and an edge or another, at least (common practice, no source). */
export const headLand = (mouthDiameter: number): number => Math.max(1.5, 0.15 * mouthDiameter);

/** Room a fastener takes on the surface: its countersink's mouth, or washer, or head. */
export function headRoom(fastener: Fastener, standard?: string): number {
  const head = countersunkHead(fastener, standard);
  if (head !== undefined) return head.theoreticalDiameter;
  return fastener.kind === 'bolt' ? fastener.hexagon.washerDiameter : 2 * fastener.diameter;
}

/**
 * Hole centre to the casting's edge, at least: 1.5 d (plate practice, AISC and others from memory, 1.25 d to 1.75 d
 * by edge), and a land round the head.
 */
export function edgeDistance(fastener: Fastener, standard?: string): number {
  const room = headRoom(fastener, standard);
  return Math.max(1.5 * fastener.diameter, room / 2 + headLand(room));
}

/**
 * Between hole centres, at least: 3 d in plate (AISC J3.3 asks 2 2/3 d and prefers 3 d, from memory), and a land
 * between the heads.
 */
export function leastPitch(fastener: Fastener, standard?: string): number {
  const room = headRoom(fastener, standard);
  return Math.max(3 * fastener.diameter, room + headLand(room));
}

/**
 * Distances in the wood under the casting, in lead holes, mm: EN 1995-1-1, Table 8.2 (nails and thin screws in
 * predrilled holes, from memory): 5 d along the grain, 4 d across it, 7 d from an unloaded end, 12 d from a loaded
 * one, 3 d from an edge.
 */
export const woodSpacing = (diameter: number) => ({
  alongGrain: 5 * diameter,
  acrossGrain: 4 * diameter,
  end: 7 * diameter,
  loadedEnd: 12 * diameter,
  edge: 3 * diameter,
});

/** Lead hole for the thread, mm: 0.7 of the root in softwood, 0.9 in hardwood (Wood Handbook, ch. 8, from memory). */
export const leadHole = (rootDiameter: number, wood: 'softwood' | 'hardwood'): number =>
  rootDiameter * (wood === 'softwood' ? 0.7 : 0.9);
