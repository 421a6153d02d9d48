import { maths } from '../../core/maths/maths.js';
import { type PlaneCurve, sampleCurve } from '../../core/solid/sample-curve.js';
import type { Polygon, Vec2 } from '../../core/solid/types.js';

/** The room for openings in a web, and the openings as they are in the state that is built; mm. */
export interface SpokeWindow {
  readonly spokes: number;
  /** Plan radii between which the window lies. */
  readonly innerRadius: number;
  readonly outerRadius: number;
  /** Half width of a spoke at those radii. */
  readonly halfWidthInner: number;
  readonly halfWidthOuter: number;
  /** Radius of the window's corners. */
  readonly corner: number;
}

type Arc = readonly [centre: Vec2, radius: number, from: number, to: number];

/**
 * Outline of one window between two spokes, its middle on +X, counter-clockwise; null where it has no room.
 * Straight sides along the spokes, arcs on hub and rim side, corners rounded by circles tangent to both.
 */
export function spokeWindow(w: SpokeWindow, tolerance: number): Polygon | null {
  const half = Math.PI / w.spokes;
  const [along, aside] = [
    [maths.cos(half), maths.sin(half)],
    [maths.sin(half), -maths.cos(half)],
  ] as const;
  const edge = (r: number, h: number): Vec2 => [along[0] * r + aside[0] * h, along[1] * r + aside[1] * h];
  const from = edge(w.innerRadius, w.halfWidthInner);
  const to = edge(w.outerRadius, w.halfWidthOuter);
  const length = maths.hypot(to[0] - from[0], to[1] - from[1]);
  if (w.outerRadius - w.innerRadius < 2 * w.corner + 0.5 || length === 0) return null;
  const u: Vec2 = [(to[0] - from[0]) / length, (to[1] - from[1]) / length];
  /** Into the window. */
  const m: Vec2 = [u[1], -u[0]];
  const rho = w.corner;
  const base: Vec2 = [from[0] + rho * m[0], from[1] + rho * m[1]];
  const centreAt = (radius: number): Vec2 | null => {
    const b = base[0] * u[0] + base[1] * u[1];
    const root = b * b - (base[0] ** 2 + base[1] ** 2) + radius * radius;
    if (root < 0) return null;
    const t = -b + Math.sqrt(root);
    return [base[0] + t * u[0], base[1] + t * u[1]];
  };
  const outer = centreAt(w.outerRadius - rho);
  if (outer === null || outer[1] <= 0.05) return null;
  const lineAngle = maths.atan2(-m[1], -m[0]);
  const inner = innerCorner(centreAt(w.innerRadius + rho), base, u);
  if (inner === null || inner.centre[0] >= outer[0]) return null;
  const angle = (v: Vec2): number => maths.atan2(v[1], v[0]);
  // From the middle of the hub side, over the upper spoke's flank, to the middle of the rim side.
  const arcs: Arc[] = [
    ...(inner.sharp ? [] : [[[0, 0], w.innerRadius, 0, angle(inner.centre)] as Arc]),
    [inner.centre, rho, inner.sharp ? Math.PI : angle(inner.centre) + Math.PI, lineAngle],
    [outer, rho, lineAngle, angle(outer)],
    [[0, 0], w.outerRadius, angle(outer), 0],
  ];
  const upper = arcs.flatMap(([c, r, a, b]) => arcPoints(c, r, a, b, tolerance));
  const clean = upper.filter((p, i) => {
    const next = upper[i + 1];
    return next === undefined || maths.hypot(p[0] - next[0], p[1] - next[1]) > 1e-4;
  });
  const lower = clean.slice(1, -1).map(([x, y]): Vec2 => [x, -y]);
  return [...clean].reverse().concat(lower);
}

/** The rounding at the hub side: beside an arc, or one round end where the two spokes' flanks come together first. */
function innerCorner(beside: Vec2 | null, base: Vec2, u: Vec2): { centre: Vec2; sharp: boolean } | null {
  if (beside !== null && beside[1] > 0.02) return { centre: beside, sharp: false };
  if (u[1] <= 0) return null;
  const t = -base[1] / u[1];
  return { centre: [base[0] + t * u[0], 0], sharp: true };
}

function arcPoints(
  centre: Vec2,
  radius: number,
  from: number,
  to: number,
  tolerance: number,
): readonly Vec2[] {
  if (radius < 1e-3) return [centre];
  const curve: PlaneCurve = {
    from,
    to,
    at: (t) => [centre[0] + radius * maths.cos(t), centre[1] + radius * maths.sin(t)],
  };
  return sampleCurve(curve, tolerance).points;
}

export const turnPolygon = (polygon: Polygon, angle: number): Polygon => {
  const [c, s] = [maths.cos(angle), maths.sin(angle)];
  return polygon.map(([x, y]): Vec2 => [c * x - s * y, s * x + c * y]);
};
