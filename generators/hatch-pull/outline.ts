import { maths } from '../../core/maths/maths.js';
import { segmentsOfCircle } from '../../core/solid/segments.js';
import type { Polygon, Vec2 } from '../../core/solid/types.js';
import type { PullPlan } from '../hardware/ring-plan.js';
import type { PullState } from './levels.js';

/** Chords for an arc of radius `r` turning through `sweep` radians, each within `tolerance`. */
export const arcChords = (r: number, sweep: number, tolerance: number): number =>
  Math.max(1, Math.ceil((segmentsOfCircle(r, tolerance) * Math.abs(sweep)) / (2 * Math.PI) - 1e-9));

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
    centre[0] + radius * maths.cos(direction),
    centre[1] + radius * maths.sin(direction),
  ]);

/** A point of the pull's outside in plan, and how far it lies from the nearer face (show face or underside), mm. */
export interface OutlinePoint {
  readonly x: number;
  readonly y: number;
  readonly depth: number;
}

/**
 * The pull's outside (without the eye), counter-clockwise from the tab's end: the edge of the flat faces, or the
 * upright sides where the bevels end. Both have the same points in the same order, joined by the bevels. Without
 * bevels they are the same.
 *
 * Arcs keep their centres under any stock. Where the tab's sides have other stock than the skin, their bevel
 * still moves by the skin: it ends at another depth, and a short ramp leads from the tab's side to the fillet.
 */
export function pullOutline(
  state: PullState,
  edge: 'face' | 'side',
  tolerance: number,
): readonly OutlinePoint[] {
  const { plan, flatInset, skin, leg } = state;
  const [offset, depth] = edge === 'face' ? [-flatInset, 0] : [skin, leg];
  const at = ([x, y]: Vec2): OutlinePoint => ({ x, y, depth });

  const filletCentre: Vec2 = [-plan.filletX, -(plan.tabHalf + plan.fillet)];
  const deepest = plan.fillet + Math.max(0, flatInset);
  const fillet = arc(filletCentre, plan.fillet - offset, Math.PI / 2, plan.filletEnd, deepest, tolerance);
  const rim = (centre: Vec2, from: number, to: number): Vec2[] =>
    arc(centre, plan.outer + offset, from, to, plan.outer + skin, tolerance);
  const back = rim([-plan.halfX, -plan.halfY], -Math.PI + plan.filletEnd, -Math.PI / 2);
  const front = rim([plan.halfX, -plan.halfY], -Math.PI / 2, 0);

  // Where an arc runs on into the next about the same centre, or into its tangent fillet, the shared point is one.
  const straightBack = plan.halfY - plan.tabHalf - plan.fillet > 1e-6;
  const lower: OutlinePoint[] = [
    ...tabSide(state, edge),
    ...fillet.map(at),
    ...(straightBack ? back : back.slice(1)).map(at),
    ...(plan.halfX === 0 ? front.slice(1) : front).map(at),
  ];
  const upper = lower.map((p): OutlinePoint => ({ ...p, y: -p.y })).reverse();
  return [...lower, ...(plan.halfY === 0 ? upper.slice(1) : upper)];
}

/** Half the tab's end, its chamfered corner and its side, at y < 0, up to the fillet. */
function tabSide(state: PullState, edge: 'face' | 'side'): OutlinePoint[] {
  const { plan, skin, mating, leg, sideLeg, sideStep } = state;
  const end = state.tabEnd + skin;
  const half = plan.tabHalf + mating;
  const rampX = -plan.filletX - Math.abs(sideStep);
  const point = (x: number, y: number, depth = 0): OutlinePoint => ({ x, y: -y, depth });
  if (leg === 0) return [point(-end, half), ...(sideStep === 0 ? [] : [point(rampX, half)])];

  if (edge === 'face') {
    const corner = point(-(end - leg), half - sideLeg - (Math.SQRT2 - 1) * leg);
    const next = point(-(end - Math.SQRT2 * leg), half - sideLeg);
    if (sideStep === 0) return [corner, next];
    // Where three bevels meet is one point of this edge and two of the other: it is given a twin along its edge.
    const twin =
      sideStep > 0
        ? [next, { ...next, x: next.x + sideStep }]
        : [{ ...next, x: 0.7 * next.x + 0.3 * corner.x, y: 0.7 * next.y + 0.3 * corner.y }, next];
    return [corner, ...twin, point(rampX, half - sideLeg)];
  }
  // The chamfer's leg in plan equals that of the side's bevel: both lie between a skin surface and the side.
  const corner = point(-end, half - sideLeg, leg);
  if (sideStep === 0) return [corner, point(-(end - sideLeg), half, leg)];
  const bevelsMeet =
    sideStep > 0
      ? [point(-(end - leg), half - sideStep, leg), point(-(end - sideLeg), half, sideLeg)]
      : [point(-(end - sideLeg), half, leg), point(-(end - sideLeg + Math.SQRT2 * sideStep), half, sideLeg)];
  return [corner, ...bevelsMeet, point(rampX, half, sideLeg)];
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
    return [x + radius * maths.cos(a), y + radius * maths.sin(a)];
  });
}
