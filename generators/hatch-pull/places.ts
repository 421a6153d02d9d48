import type { GatePlace, VentPlace } from '../../core/part/contract.js';
import { distanceToSegment } from '../../core/solid/sample-curve.js';
import type { Polygon, Vec2 } from '../../core/solid/types.js';
import type { PullState } from './levels.js';
import { pullOutline, stadiumAt, stadiumPoints } from './outline.js';

export interface PullPlaces {
  readonly gates: readonly GatePlace[];
  readonly vents: readonly VentPlace[];
}

/** Kept between the rim of a gate or vent and the edge of the flat it stands on, mm. */
const margin = 0.05;

/** No vent is named on a flat smaller than this, mm: the smallest of the usual vents, ø1.5 to 3 mm. */
export const leastVent = 1.5;

/** Mould between the gate and the vent at the tab's end, mm: less would break away, or is vented by the gate itself. */
export const ventToGate = 3.5;

/** Where metal enters (the tab's underside) and where air leaves (far end, both sides of the loop, tab's end). */
export function pullPlaces(state: PullState, tolerance: number): PullPlaces {
  const { plan, top } = state;
  const flat = undersideFlat(state, tolerance);
  const widest = gateCircle(state, flat);
  const gate: GatePlace = {
    name: "tab's underside",
    at: [widest.x, 0, top],
    innerDiameter: 0,
    outerDiameter: 2 * widest.radius,
  };

  const middle = (plan.inner + plan.outer) / 2;
  const land = Math.min(plan.outer - plan.inner - 2 * state.flatInset - 2 * margin, middle);
  const vents: VentPlace[] = [];
  const vent = (name: string, [x, y]: Vec2, footDiameter: number): void => {
    if (footDiameter >= leastVent) vents.push({ name, at: [x, y, top], footDiameter });
  };
  // As near to the free end as the land is still flat: short of the lip's start.
  const reach = (state.lip?.crease ?? Number.POSITIVE_INFINITY) - land / 2 - margin - plan.halfX;
  const toFreeEnd = reach >= middle;
  if (toFreeEnd) {
    vent('free end', [plan.halfX + middle, 0], land);
  } else {
    // Nor nearer than that the two stand apart.
    const apart = Math.max(0, 0.75 * land - plan.halfY);
    const x = Math.max(0, Math.min(reach, Math.sqrt(Math.max(0, middle * middle - apart * apart))));
    const y = Math.sqrt(middle * middle - x * x);
    vent('loop by the lip, left', [plan.halfX + x, plan.halfY + y], land);
    vent('loop by the lip, right', [plan.halfX + x, -(plan.halfY + y)], land);
  }
  // A round loop with a lip has its sides vented by the places above; a wide one is too far round.
  if (toFreeEnd || (plan.halfY > 0 && plan.halfX + reach > 1.5 * land)) {
    vent('loop, left side', [0, plan.halfY + middle], land);
    vent('loop, right side', [0, -(plan.halfY + middle)], land);
  }
  const end = tabEndCircle(state, flat, widest.x - widest.radius);
  vent("tab's end", [end.x, 0], 2 * end.radius);
  return { gates: [gate], vents };
}

interface Circle {
  readonly x: number;
  readonly radius: number;
}

/** Edges of the flat underside: the outer one and the eye's. */
function undersideFlat(state: PullState, tolerance: number): readonly [Polygon, Polygon] {
  const { plan, flatInset } = state;
  const outer = pullOutline(state, 'face', tolerance).map(({ x, y }): Vec2 => [x, y]);
  return [outer, stadiumAt(stadiumPoints(plan, plan.inner + flatInset, tolerance), plan.inner + flatInset)];
}

/** Radius of the largest circle about (x, 0) that stays on the flat. */
const clearance = (flat: readonly Polygon[], x: number): number =>
  Math.min(
    ...flat.flatMap((outline) =>
      outline.map((a, i) => distanceToSegment([x, 0], a, outline[(i + 1) % outline.length] as Vec2)),
    ),
  ) - margin;

/** The largest circle on the pull's centre line between the tab's end and the eye. */
function gateCircle(state: PullState, flat: readonly Polygon[]): Circle {
  const [from, to] = [
    -(state.tabEnd - state.flatInset),
    -(state.plan.halfX + state.plan.inner + state.flatInset),
  ];
  const tries = 96;
  let best: Circle = { x: from, radius: 0 };
  for (let i = 1; i < tries; i++) {
    const x = from + ((to - from) * i) / tries;
    const radius = clearance(flat, x);
    if (radius > best.radius + 1e-6) best = { x, radius };
  }
  return best;
}

/** The largest circle at the tab's end that leaves room for the mould between gate and vent. */
function tabEndCircle(state: PullState, flat: readonly Polygon[], gateEdge: number): Circle {
  const from = -(state.tabEnd - state.flatInset);
  const radius = Math.max(0, (gateEdge - ventToGate - from) / 2);
  const x = from + radius;
  return { x, radius: radius === 0 ? 0 : Math.min(clearance(flat, x), radius) };
}
