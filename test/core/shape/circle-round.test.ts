import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { circleRound } from '../../../core/shape/circle-round.js';

const point = fc.tuple(
  fc.double({ min: -80, max: 80, noNaN: true }),
  fc.double({ min: -80, max: 80, noNaN: true }),
);

/** The least that any circle through two or three of the points, and round all, has for a radius, all of them tried. */
function leastRadius(points: readonly (readonly [number, number])[]): number {
  const reach = (x: number, y: number): number =>
    Math.max(...points.map(([px, py]) => Math.hypot(px - x, py - y)));
  let least = Number.POSITIVE_INFINITY;
  points.forEach(([ax, ay], i) => {
    points.slice(0, i + 1).forEach(([bx, by], j) => {
      least = Math.min(least, reach((ax + bx) / 2, (ay + by) / 2));
      for (const [cx, cy] of points.slice(0, j)) {
        const d = 2 * (ax * (by - cy) + bx * (cy - ay) + cx * (ay - by));
        if (Math.abs(d) < 1e-6) continue;
        const [a, b, c] = [ax * ax + ay * ay, bx * bx + by * by, cx * cx + cy * cy];
        least = Math.min(
          least,
          reach(
            (a * (by - cy) + b * (cy - ay) + c * (ay - by)) / d,
            (a * (cx - bx) + b * (ax - cx) + c * (bx - ax)) / d,
          ),
        );
      }
    });
  });
  return least;
}

describe('the smallest circle round points', () => {
  test('of two is on their line, of an equilateral triangle about its middle, of a blunt one on its longest side', () => {
    expect(circleRound([0, 0, 6, 8])).toEqual({ x: 3, y: 4, squared: 25 });
    const three = circleRound([1, 0, -0.5, Math.sqrt(3) / 2, -0.5, -Math.sqrt(3) / 2]);
    expect(Math.hypot(three.x, three.y)).toBeLessThan(1e-12);
    expect(three.squared).toBeCloseTo(1, 12);
    expect(circleRound([-5, 0, 0, 1, 5, 0])).toEqual({ x: 0, y: 0, squared: 25 });
  });

  test('of one and of none is a point', () => {
    expect(circleRound([7, -2])).toEqual({ x: 7, y: -2, squared: 0 });
    expect(circleRound([])).toEqual({ x: 0, y: 0, squared: 0 });
  });

  test('holds them all and is no larger than the least of all that two or three of them make', () => {
    fc.assert(
      fc.property(fc.array(point, { minLength: 1, maxLength: 9 }), (points) => {
        const { x, y, squared } = circleRound(points.flat());
        const r = Math.sqrt(squared);
        for (const [px, py] of points) expect(Math.hypot(px - x, py - y)).toBeLessThan(r + 1e-5);
        expect(r).toBeLessThan(leastRadius(points) + 1e-5);
      }),
      { seed: 1126 },
    );
  });
});
