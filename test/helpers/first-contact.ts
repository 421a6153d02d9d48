import type { Flat, Loop } from './sections.js';

/**
 * Two outlines in one plane, the second free to turn about a point: how far it can turn either way before they touch.
 * Exact for straight-sided outlines, whatever they are the outlines of: where two such meet in turning, a corner of
 * one meets a side of the other, so it is enough to follow every corner along its circle to the other's sides.
 */

/** Sides as x0, y0, x1, y1. */
export type Sides = Float64Array;

/** A loop turned by `angle` about the origin, then moved, as sides. */
export function placed(loop: Loop, angle: number, [dx, dy]: Flat): Sides {
  const [c, s] = [Math.cos(angle), Math.sin(angle)];
  const sides = new Float64Array(4 * loop.length);
  loop.forEach(([x, y], i) => {
    const [u, v] = [c * x - s * y + dx, s * x + c * y + dy];
    const before = (4 * (i - 1 + loop.length)) % (4 * loop.length);
    [sides[4 * i], sides[4 * i + 1]] = [u, v];
    [sides[before + 2], sides[before + 3]] = [u, v];
  });
  return sides;
}

/** The sides that come within `margin` of the box of another set. */
export function sidesNear(sides: Sides, other: Sides, margin: number): Sides {
  let [x0, y0, x1, y1] = [Infinity, Infinity, -Infinity, -Infinity];
  for (let i = 0; i < other.length; i += 2) {
    x0 = Math.min(x0, other[i] as number);
    x1 = Math.max(x1, other[i] as number);
    y0 = Math.min(y0, other[i + 1] as number);
    y1 = Math.max(y1, other[i + 1] as number);
  }
  const kept: number[] = [];
  for (let i = 0; i < sides.length; i += 4) {
    const [a, b, c, d] = [sides[i], sides[i + 1], sides[i + 2], sides[i + 3]] as [
      number,
      number,
      number,
      number,
    ];
    if (Math.max(a, c) < x0 - margin || Math.min(a, c) > x1 + margin) continue;
    if (Math.max(b, d) < y0 - margin || Math.min(b, d) > y1 + margin) continue;
    kept.push(a, b, c, d);
  }
  return Float64Array.from(kept);
}

/** Whether any side of one crosses a side of the other. */
export function crossing(p: Sides, q: Sides): boolean {
  for (let i = 0; i < p.length; i += 4) {
    const [ax, ay, bx, by] = [p[i], p[i + 1], p[i + 2], p[i + 3]] as [number, number, number, number];
    const [left, right] = ax < bx ? [ax, bx] : [bx, ax];
    const [low, high] = ay < by ? [ay, by] : [by, ay];
    for (let k = 0; k < q.length; k += 4) {
      const [cx, cy, dx, dy] = [q[k], q[k + 1], q[k + 2], q[k + 3]] as [number, number, number, number];
      if ((cx < left && dx < left) || (cx > right && dx > right)) continue;
      if ((cy < low && dy < low) || (cy > high && dy > high)) continue;
      const c = (bx - ax) * (cy - ay) - (by - ay) * (cx - ax);
      const d = (bx - ax) * (dy - ay) - (by - ay) * (dx - ax);
      const a = (dx - cx) * (ay - cy) - (dy - cy) * (ax - cx);
      const b = (dx - cx) * (by - cy) - (dy - cy) * (bx - cx);
      if (c > 0 !== d > 0 && a > 0 !== b > 0) return true;
    }
  }
  return false;
}

export interface Freedom {
  /** Counter-clockwise turn of the turning outline to first contact, rad. */
  readonly forward: number;
  /** Clockwise turn, as a positive number, rad. */
  readonly backward: number;
}

/** From a position in which they do not touch. */
export function freeTurn(fixed: Sides, turning: Sides, centre: Flat): Freedom {
  let [forward, backward] = [Infinity, Infinity];
  const meet = (delta: number): void => {
    const turn = delta - 2 * Math.PI * Math.round(delta / (2 * Math.PI));
    if (turn >= 0) forward = Math.min(forward, turn);
    else backward = Math.min(backward, -turn);
  };
  follow(turning, fixed, centre, (corner, side) => meet(side - corner));
  follow(fixed, turning, centre, (corner, side) => meet(corner - side));
  return { forward, backward };
}

/** Every place where the circle of a corner of `p` passes a side of `q`, both as directions seen from `centre`. */
function follow(p: Sides, q: Sides, [ox, oy]: Flat, visit: (corner: number, side: number) => void): void {
  // |origin + f · along|² between the ends of each side: a parabola in f.
  const count = q.length / 4;
  const [nearest, farthest] = [new Float64Array(count), new Float64Array(count)];
  for (let k = 0; k < count; k++) {
    const [x, y] = [(q[4 * k] as number) - ox, (q[4 * k + 1] as number) - oy];
    const [u, v] = [(q[4 * k + 2] as number) - ox - x, (q[4 * k + 3] as number) - oy - y];
    const f = Math.min(1, Math.max(0, -(x * u + y * v) / (u * u + v * v || 1)));
    nearest[k] = Math.hypot(x + f * u, y + f * v);
    farthest[k] = Math.max(Math.hypot(x, y), Math.hypot(x + u, y + v));
  }
  for (let i = 0; i < p.length; i += 4) {
    const [px, py] = [(p[i] as number) - ox, (p[i + 1] as number) - oy];
    const r = Math.hypot(px, py);
    const corner = Math.atan2(py, px);
    for (let k = 0; k < count; k++) {
      if (r < (nearest[k] as number) || r > (farthest[k] as number)) continue;
      const [x, y] = [(q[4 * k] as number) - ox, (q[4 * k + 1] as number) - oy];
      const [u, v] = [(q[4 * k + 2] as number) - ox - x, (q[4 * k + 3] as number) - oy - y];
      const [a, b, c] = [u * u + v * v, x * u + y * v, x * x + y * y - r * r];
      if (a === 0) continue;
      const root = Math.sqrt(Math.max(0, b * b - a * c));
      for (const f of [(-b - root) / a, (-b + root) / a]) {
        if (f < -1e-12 || f > 1 + 1e-12) continue;
        visit(corner, Math.atan2(y + f * v, x + f * u));
      }
    }
  }
}

/** Least distance between two sets of sides that do not cross: between an end of one and a side of the other. */
export function leastGap(p: Sides, q: Sides): number {
  let least = Infinity;
  const reach = (points: Sides, sides: Sides): void => {
    for (let k = 0; k < sides.length; k += 4) {
      const [x, y] = [sides[k] as number, sides[k + 1] as number];
      const [u, v] = [(sides[k + 2] as number) - x, (sides[k + 3] as number) - y];
      const long = u * u + v * v || 1;
      for (let i = 0; i < points.length; i += 4) {
        const [dx, dy] = [(points[i] as number) - x, (points[i + 1] as number) - y];
        // No nearer than the perpendicular distance from the side's line.
        const across = u * dy - v * dx;
        if (across * across > least * least * long) continue;
        const f = Math.min(1, Math.max(0, (dx * u + dy * v) / long));
        least = Math.min(least, Math.hypot(dx - f * u, dy - f * v));
      }
    }
  };
  reach(p, q);
  reach(q, p);
  return least;
}
