import fc from 'fast-check';
import { expect, test } from 'vitest';
import { planeHull } from '../../../core/solid/plane-hull.js';
import type { Vec2 } from '../../../core/solid/types.js';

const side = ([ax, ay]: Vec2, [bx, by]: Vec2, [x, y]: Vec2): number =>
  (bx - ax) * (y - ay) - (by - ay) * (x - ax);

test('whole points: a hull of theirs, with all of them inside it and no corner on a line', () => {
  const whole = fc.integer({ min: -12, max: 12 });
  fc.assert(
    fc.property(fc.array(fc.tuple(whole, whole), { minLength: 3, maxLength: 40 }), (points) => {
      const [first, ...others] = points as readonly Vec2[] as readonly [Vec2, ...Vec2[]];
      fc.pre(others.some((p) => others.some((q) => side(first, p, q) !== 0)));
      const hull = planeHull(points);
      for (const corner of hull) expect(points).toContainEqual(corner);
      for (const [i, a] of hull.entries()) {
        const [b, c] = [hull[(i + 1) % hull.length]!, hull[(i + 2) % hull.length]!];
        expect(side(a, b, c)).toBeGreaterThan(0);
        for (const p of points) expect(side(a, b, p)).toBeGreaterThanOrEqual(0);
      }
    }),
    { seed: 9 },
  );
});
