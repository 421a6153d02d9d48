import type { Polygon, Vec2 } from '../../core/solid/types.js';
import type { PullPlan } from './sizes.js';

/** Chords for an arc of radius `r` turning through `sweep` radians: sagitta r (1 − cos(step/2)) within tolerance. */
export function arcChords(r: number, sweep: number, tolerance: number): number {
  const step = r <= tolerance ? Math.PI / 2 : 2 * Math.acos(1 - tolerance / r);
  return Math.max(1, Math.ceil(Math.abs(sweep) / Math.min(step, Math.PI / 2) - 1e-9));
}

/** One point of a stadium: an arc's centre and the direction from it. A radius makes it a point. */
export interface StadiumPoint {
  readonly centre: Vec2;
  readonly direction: number;
}

/**
 * Centres and directions of the points of a stadium round the plan's four centres, counter-clockwise from −π,
 * sampled for radius `largest`: any offset of it has the same points at another radius.
 */
export function stadiumPoints(
  plan: Pick<PullPlan, 'halfX' | 'halfY'>,
  largest: number,
  tolerance: number,
): readonly StadiumPoint[] {
  const chords = arcChords(largest, Math.PI / 2, tolerance);
  const quadrants: readonly (readonly [Vec2, boolean])[] = [
    [[-plan.halfX, -plan.halfY], plan.halfX === 0],
    [[plan.halfX, -plan.halfY], plan.halfY === 0],
    [[plan.halfX, plan.halfY], plan.halfX === 0],
    [[-plan.halfX, plan.halfY], plan.halfY === 0],
  ];
  // Where the next quadrant has the same centre its first point is this one's last.
  return quadrants.flatMap(([centre, joined], quadrant) =>
    Array.from({ length: joined ? chords : chords + 1 }, (_, i) => ({
      centre,
      direction: -Math.PI + (quadrant + i / chords) * (Math.PI / 2),
    })),
  );
}

export const stadiumAt = (points: readonly StadiumPoint[], radius: number): Polygon =>
  points.map(({ centre, direction }) => [
    centre[0] + radius * Math.cos(direction),
    centre[1] + radius * Math.sin(direction),
  ]);

/** What an outline of the whole pull needs besides its plan. */
export interface OutlineShape {
  readonly plan: PullPlan;
  /** The tab's end is at x = −tabEnd on the part. */
  readonly tabEnd: number;
  /** Leg of the bevel, and of the chamfer on the tab's two corners in plan, on the part; the deepest inset. */
  readonly chamfer: number;
  /** Largest offset to be asked for, mm; sets the number of points for all of them. */
  readonly largest: number;
  readonly tolerance: number;
}

/**
 * Outline of the pull (without the eye), every surface moved outwards by `offset` along its normal, the tab's
 * sides by `side`; negative is inwards. Arcs keep their centres, so outlines of one shape with `side` equal to
 * `offset` correspond point by point. Needs `offset` below the fillet radius.
 */
export function pullOutline(shape: OutlineShape, offset: number, side = offset): Polygon {
  const { plan, tolerance, largest } = shape;
  const half = plan.tabHalf + side;
  const end = shape.tabEnd + offset;
  // The chamfer's plane also moves by `offset`: of its leg, the end gives one offset, the side the other.
  const leg = shape.chamfer === 0 ? 0 : Math.max(0, shape.chamfer + offset + side - Math.SQRT2 * offset);
  const corner: Vec2[] =
    leg > 0
      ? [
          [-end, -(half - leg)],
          [-(end - leg), -half],
        ]
      : [[-end, -half]];
  const step: Vec2[] = side === offset ? [] : [[-plan.filletX, -half]];

  const filletCentre: Vec2 = [-plan.filletX, -(plan.tabHalf + plan.fillet)];
  const filletLargest = plan.fillet + shape.chamfer;
  const fillet = arc(filletCentre, plan.fillet - offset, Math.PI / 2, plan.filletEnd, filletLargest, tolerance);
  const rim = (centre: Vec2, from: number, to: number): Vec2[] =>
    arc(centre, plan.outer + offset, from, to, plan.outer + largest, tolerance);
  const back = rim([-plan.halfX, -plan.halfY], -Math.PI + plan.filletEnd, -Math.PI / 2);
  const front = rim([plan.halfX, -plan.halfY], -Math.PI / 2, 0);

  // Where an arc runs on into the next about the same centre, or into its tangent fillet, the shared point is one.
  const straightBack = plan.halfY - plan.tabHalf - plan.fillet > 1e-6;
  const lower: Vec2[] = [
    ...corner,
    ...step,
    ...fillet,
    ...(straightBack ? back : back.slice(1)),
    ...(plan.halfX === 0 ? front.slice(1) : front),
  ];
  const upper = lower.map(([x, y]): Vec2 => [x, -y]).reverse();
  return [...lower, ...(plan.halfY === 0 ? upper.slice(1) : upper)];
}

function arc(
  [x, y]: Vec2,
  radius: number,
  from: number,
  to: number,
  largest: number,
  tolerance: number,
): Vec2[] {
  const chords = arcChords(largest, to - from, tolerance);
  return Array.from({ length: chords + 1 }, (_, i) => {
    const a = from + ((to - from) * i) / chords;
    return [x + radius * Math.cos(a), y + radius * Math.sin(a)];
  });
}
