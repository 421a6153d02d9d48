import type { Vec2 } from './types.js';

/** Corners of the convex hull, counter-clockwise, none on the line of its neighbours (A. M. Andrew, 1979). */
export function planeHull(points: readonly Vec2[]): readonly Vec2[] {
  const sorted = [...points].sort((a, b) => a[0] - b[0] || a[1] - b[1]);
  const chain = (ps: readonly Vec2[]): readonly Vec2[] => {
    const kept: Vec2[] = [];
    for (const p of ps) {
      while (kept.length > 1 && turnAt(kept[kept.length - 2]!, kept[kept.length - 1]!, p) <= 0) kept.pop();
      kept.push(p);
    }
    return kept.slice(0, -1);
  };
  return [...chain(sorted), ...chain(sorted.reverse())];
}

/** Twice the area of the triangle; over 0 where it turns left. */
export const turnAt = (a: Vec2, b: Vec2, c: Vec2): number =>
  (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0]);
