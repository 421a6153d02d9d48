import { maths } from '../../maths/maths.js';
import type { Vec2 } from '../../solid/types.js';

/** Convex hull in the plane, counter-clockwise, corners only (A. M. Andrew's monotone chain, 1979). */
export function planHull(points: readonly Vec2[]): readonly Vec2[] {
  const sorted = [...points].sort((a, b) => a[0] - b[0] || a[1] - b[1]);
  const half = (run: readonly Vec2[]): Vec2[] => {
    const chain: Vec2[] = [];
    for (const p of run) {
      while (chain.length > 1 && side(chain.at(-2)!, chain.at(-1)!, p) <= 0) chain.pop();
      chain.push(p);
    }
    return chain;
  };
  const [lower, upper] = [half(sorted), half([...sorted].reverse())];
  return sorted.length < 3 ? sorted : [...lower.slice(0, -1), ...upper.slice(0, -1)];
}

const side = (p: Vec2, q: Vec2, r: Vec2): number =>
  (q[0] - p[0]) * (r[1] - p[1]) - (q[1] - p[1]) * (r[0] - p[0]);

/** How far inside a hull a point lies, mm; negative outside. */
export function insideBy(hull: readonly Vec2[], at: Vec2): number {
  if (hull.length < 3) return Number.NEGATIVE_INFINITY;
  let least = Number.POSITIVE_INFINITY;
  hull.forEach((p, i) => {
    const q = hull[(i + 1) % hull.length]!;
    least = Math.min(least, side(p, q, at) / Math.max(1e-12, maths.hypot(q[0] - p[0], q[1] - p[1])));
  });
  return least;
}

/** Room of a hull along a direction turned by `angle` from x, and square to it, mm. */
function extents(hull: readonly Vec2[], angle: number): readonly [number, number] {
  const [c, s] = [maths.cos(angle), maths.sin(angle)];
  let [u0, u1, v0, v1] = [Infinity, -Infinity, Infinity, -Infinity];
  for (const [x, y] of hull) {
    const [u, v] = [c * x + s * y, c * y - s * x];
    u0 = Math.min(u0, u);
    u1 = Math.max(u1, u);
    v0 = Math.min(v0, v);
    v1 = Math.max(v1, v);
  }
  return [u1 - u0, v1 - v0];
}

/** Sides of the hull, as angles within a quarter turn. */
const sideAngles = (hull: readonly Vec2[]): readonly number[] =>
  hull.map((p, i) => {
    const q = hull[(i + 1) % hull.length]!;
    const quarter = Math.PI / 2;
    const angle = maths.atan2(q[1] - p[1], q[0] - p[0]);
    return angle - quarter * Math.floor(angle / quarter);
  });

/** A rectangle about a hull, turned from x by `angle`; `along` that and `across`, mm. */
export interface PlanRectangle {
  readonly angle: number;
  readonly along: number;
  readonly across: number;
}

/** The least rectangle about a hull, its longer side along `angle`; one of its sides lies on one of the hull's (H. Freeman and R. Shapira, 1975). */
export function leastRectangle(hull: readonly Vec2[]): PlanRectangle {
  let best: PlanRectangle | undefined;
  for (const angle of [0, ...sideAngles(hull)]) {
    const [along, across] = extents(hull, angle);
    if (best && along * across >= best.along * best.across * (1 - 1e-9)) continue;
    best = { angle, along, across };
  }
  const { angle, along, across } = best!;
  return along >= across ? best! : { angle: angle + Math.PI / 2, along: across, across: along };
}

/** How a hull lies within a rectangle, turned as it may be; null where no turn fits. */
export function fitRectangle(hull: readonly Vec2[], width: number, depth: number): PlanRectangle | null {
  const quarter = Math.PI / 2;
  const lies = (angle: number): PlanRectangle | null => {
    const [along, across] = extents(hull, angle);
    const slack = 1e-9 * (width + depth);
    const ways = [
      { angle, along, across },
      { angle: angle + quarter, along: across, across: along },
    ].filter((w) => w.along <= width + slack && w.across <= depth + slack);
    // The longer side along x, as a part is turned to stand, where that fits.
    return ways.find((w) => w.along >= w.across) ?? ways[0] ?? null;
  };
  // Straight first. The turns that fit make intervals: an end of one lies where a side lies along the bed, or where the
  // span of two corners just takes one of its sides.
  const straight = lies(0);
  if (straight) return straight;
  const ends = [...new Set(sideAngles(hull))].sort((a, b) => a - b);
  const angles = ends.flatMap((from, i) => {
    const to = i + 1 < ends.length ? ends[i + 1]! : ends[0]! + quarter;
    const middle = (from + to) / 2;
    return [
      from,
      ...[middle, middle + quarter].flatMap((m) =>
        tightTurns(hull, m, [width, depth]).filter((t) => Math.abs(t - m) <= (to - from) / 2 + 1e-9),
      ),
    ];
  });
  for (const angle of angles) {
    const found = lies(angle);
    if (found) return found;
  }
  return null;
}

/** Turns near `middle` at which the two corners that span the hull there are just a length apart along it. */
function tightTurns(hull: readonly Vec2[], middle: number, lengths: readonly number[]): readonly number[] {
  const [c, s] = [maths.cos(middle), maths.sin(middle)];
  let [first, last] = [hull[0]!, hull[0]!];
  for (const p of hull) {
    if (c * p[0] + s * p[1] < c * first[0] + s * first[1]) first = p;
    if (c * p[0] + s * p[1] > c * last[0] + s * last[1]) last = p;
  }
  const [dx, dy] = [last[0] - first[0], last[1] - first[1]];
  const span = maths.hypot(dx, dy);
  const bearing = maths.atan2(dy, dx);
  return lengths.flatMap((length) => {
    if (length > span) return [];
    const off = maths.acos(length / span);
    return [bearing + off, bearing - off].map(
      (t) => t - 2 * Math.PI * Math.round((t - middle) / (2 * Math.PI)),
    );
  });
}
