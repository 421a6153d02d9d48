import { maths } from '../../core/maths/maths.js';
import { type KnuckleSection, knuckleOutline, notchedOutline, stripOutline } from './knuckle-section.js';
import { turningDistance } from './turning-distance.js';

/**
 * How two leaves clear each other as they turn about their pin. Square to the pin every leaf shows one of two
 * sections: through a knuckle, or cut away beside the other's knuckle. The leaves are prisms of these, so that
 * distances of the sections are those of the leaves.
 */
export interface HingeMotion {
  /** Least distance of leaf and leaf, and of leaf and the other's barrel, over all angles, mm; negative: they overlap. */
  readonly leaves: number;
  /** Where that is, radians; 0 is closed. */
  readonly leavesAt: number;
  /** Knuckle to knuckle along the pin, mm. */
  readonly ends: number;
  /** End of a knuckle to the rounded inner corner of the notch it runs in, mm. */
  readonly corners: number;
}

/** Both leaves' shape, in one state. */
export interface HingeShape {
  /** A leaf, and the one it meets: alike, but for their reach. */
  readonly sections: readonly [KnuckleSection, KnuckleSection];
  /** Axis to the floor of the notches, mm. */
  readonly notchFloor: number;
  /** Rounding of the notches' inner corners in plan, mm; only as high as the leaf's flat is thick. */
  readonly notchRadius: number;
  /** Room between knuckles along the pin, mm. */
  readonly gap: number;
}

/** Steps of the sweep, radians; the closest place is then looked at more finely. */
const coarse = Math.PI / 60;

/** Clearances over the whole turn from closed to `angle`, radians. */
export function hingeMotion(shape: HingeShape, angle: number): HingeMotion {
  const leaves = leastOver(leafClearance(shape), angle);
  const corners = leastOver(cornerClearance(shape), angle);
  return { leaves: leaves.least, leavesAt: leaves.at, ends: shape.gap, corners: corners.least };
}

function leastOver(clearance: (turn: number) => number, angle: number) {
  const steps = Math.max(1, Math.ceil(angle / coarse));
  let [least, at] = [Number.POSITIVE_INFINITY, 0];
  const look = (turn: number): void => {
    const seen = clearance(turn);
    if (seen < least - 1e-9) [least, at] = [seen, turn];
  };
  for (let i = 0; i <= steps; i++) look((angle * i) / steps);
  const middle = at;
  for (let i = -8; i <= 8; i++) look(Math.min(angle, Math.max(0, middle + (i / 8) * (angle / steps))));
  return { least, at };
}

/** The least of them all, mm. */
export const leastClearance = ({ leaves, ends, corners }: HingeMotion): number =>
  Math.min(leaves, ends, corners);

/** How far a hinge opens until its leaves come within `least` mm, radians; 2π where they never do. */
export function openingLimit(shape: HingeShape, from: number, least: number): number {
  const [leaves, corners] = [leafClearance(shape), cornerClearance(shape)];
  const clearance = (turn: number): number => Math.min(leaves(turn), corners(turn));
  let free = from;
  let blocked = from;
  while (blocked < 2 * Math.PI && clearance(blocked) >= least) {
    free = blocked;
    blocked += coarse;
  }
  if (blocked >= 2 * Math.PI) return 2 * Math.PI;
  for (let i = 0; i < 20; i++) {
    const middle = (free + blocked) / 2;
    if (clearance(middle) >= least) free = middle;
    else blocked = middle;
  }
  return free;
}

/** Distance of the leaves at an opening angle: 0 is closed, π open flat. mm, negative where they overlap. */
function leafClearance(shape: HingeShape): (turn: number) => number {
  const [a, b] = shape.sections;
  // Between the knuckles both leaves have their notches' rounded corners, which stand in from the floor.
  const between = shape.notchFloor - shape.notchRadius;
  const distances = [
    ...bothWays(shape, (one, other) =>
      turningDistance(knuckleOutline(one), notchedOutline(other, shape.notchFloor)),
    ),
    turningDistance(stripOutline(a, between), stripOutline(b, between)),
  ];
  return (turn) => Math.min(...distances.map((distance) => distance(turn)));
}

/** Places along a rounded corner that are looked at. */
const cornerSteps = 12;

/**
 * Distance of a knuckle, with its leaf, from the rounded corners of the notch that it runs in: `aside` of the notch's
 * side the corner stands in from the floor, and the knuckle begins `gap` aside.
 */
function cornerClearance(shape: HingeShape): (turn: number) => number {
  const { notchFloor, notchRadius: r, gap } = shape;
  if (gap <= 0 || r <= 0) return () => gap;
  const steps = Array.from({ length: cornerSteps + 1 }, (_, i) => {
    const aside = Math.min(gap, r) * (i / cornerSteps) ** 2;
    const floor = notchFloor - r + Math.sqrt(r * r - (r - aside) ** 2);
    return bothWays(shape, (one, other): ((turn: number) => number) => {
      const distance = turningDistance(knuckleOutline(one), stripOutline(other, floor));
      return (turn) => maths.hypot(gap - aside, Math.max(0, distance(turn)));
    });
  }).flat();
  return (turn) => Math.min(...steps.map((distance) => distance(turn)));
}

/** Each leaf against the other; once where they are alike. */
function bothWays<T>(
  { sections: [a, b] }: HingeShape,
  each: (one: KnuckleSection, other: KnuckleSection) => T,
): T[] {
  return a.reach === b.reach ? [each(a, b)] : [each(a, b), each(b, a)];
}
