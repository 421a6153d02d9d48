import { boundsOf, type Paths } from './outline.js';

/**
 * mm between two regions (holes clockwise), `b` moved by (dx, dy); 0 where they touch, cross or one holds a part of the
 * other. Where they are more than `enough` apart that may be returned instead.
 */
export function regionDistance(
  a: Paths,
  b: Paths,
  dx: number,
  dy: number,
  enough = Number.POSITIVE_INFINITY,
): number {
  const [p, q] = [boundsOf(a), boundsOf(b)];
  const apartX = Math.max(q.minX + dx - p.maxX, p.minX - q.maxX - dx, 0);
  const apartY = Math.max(q.minY + dy - p.maxY, p.minY - q.maxY - dy, 0);
  if (Math.sqrt(apartX * apartX + apartY * apartY) > enough) return enough;
  let least = enough * enough;
  for (const one of a) {
    for (let i = 0, j = one.length - 2; i < one.length; j = i, i += 2) {
      const [ax, ay, bx, by] = [one[j]! - dx, one[j + 1]! - dy, one[i]! - dx, one[i + 1]! - dy];
      for (const other of b) least = Math.min(least, nearest(ax, ay, bx, by, other, least));
    }
  }
  if (least === 0) return 0;
  // No boundaries meet: a ring of the one lies wholly inside the other, or wholly outside.
  const holds = (outer: Paths, inner: Paths, x: number, y: number): boolean =>
    inner.some((ring) => isInside(outer, ring[0]! + x, ring[1]! + y));
  return holds(a, b, dx, dy) || holds(b, a, -dx, -dy) ? 0 : Math.sqrt(least);
}

/** Squared distance of a segment to a ring, if under `least`. */
function nearest(ax: number, ay: number, bx: number, by: number, ring: Float64Array, least: number): number {
  const [minX, maxX] = ax < bx ? [ax, bx] : [bx, ax];
  const [minY, maxY] = ay < by ? [ay, by] : [by, ay];
  for (let i = 0, j = ring.length - 2; i < ring.length; j = i, i += 2) {
    const cx = ring[j]!;
    const cy = ring[j + 1]!;
    const dx = ring[i]!;
    const dy = ring[i + 1]!;
    const gapX = Math.max(0, Math.min(cx, dx) - maxX, minX - Math.max(cx, dx));
    const gapY = Math.max(0, Math.min(cy, dy) - maxY, minY - Math.max(cy, dy));
    if (gapX * gapX + gapY * gapY >= least) continue;
    if (doCross(ax, ay, bx, by, cx, cy, dx, dy)) return 0;
    least = Math.min(
      least,
      squaredToSegment(ax, ay, cx, cy, dx, dy),
      squaredToSegment(bx, by, cx, cy, dx, dy),
      squaredToSegment(cx, cy, ax, ay, bx, by),
      squaredToSegment(dx, dy, ax, ay, bx, by),
    );
  }
  return least;
}

function doCross(
  ax: number,
  ay: number,
  bx: number,
  by: number,
  cx: number,
  cy: number,
  dx: number,
  dy: number,
): boolean {
  const side = (px: number, py: number, qx: number, qy: number, x: number, y: number): number =>
    (qx - px) * (y - py) - (qy - py) * (x - px);
  return (
    side(ax, ay, bx, by, cx, cy) > 0 !== side(ax, ay, bx, by, dx, dy) > 0 &&
    side(cx, cy, dx, dy, ax, ay) > 0 !== side(cx, cy, dx, dy, bx, by) > 0
  );
}

/** Squared distance of a point to the segment from a to b. */
export function squaredToSegment(
  x: number,
  y: number,
  ax: number,
  ay: number,
  bx: number,
  by: number,
): number {
  const [dx, dy] = [bx - ax, by - ay];
  const length = dx * dx + dy * dy;
  const t = length === 0 ? 0 : Math.min(1, Math.max(0, ((x - ax) * dx + (y - ay) * dy) / length));
  const [ex, ey] = [x - ax - t * dx, y - ay - t * dy];
  return ex * ex + ey * ey;
}

/** Whether a point lies in the region, by the winding of its rings. */
export function isInside(paths: Paths, x: number, y: number): boolean {
  let winding = 0;
  for (const ring of paths) {
    for (let i = 0, j = ring.length - 2; i < ring.length; j = i, i += 2) {
      const [ax, ay, bx, by] = [ring[j]!, ring[j + 1]!, ring[i]!, ring[i + 1]!];
      if (ay > y === by > y) continue;
      if (ax + ((bx - ax) * (y - ay)) / (by - ay) > x) winding += by > ay ? 1 : -1;
    }
  }
  return winding !== 0;
}
