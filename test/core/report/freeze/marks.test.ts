import fc from 'fast-check';
import { expect, test } from 'vitest';
import { type PictureMark, placeBadges } from '../../../../core/report/freeze/marks.js';
import type { Vec2 } from '../../../../core/solid/types.js';

const frame = { x0: 0, y0: 0, x1: 90, y1: 75 };

test('up to twelve marks anywhere: each has its number, none on another, all inside (seed 6)', () => {
  const place = fc.tuple(
    fc.double({ min: 0, max: 90, noNaN: true }),
    fc.double({ min: 0, max: 75, noNaN: true }),
  );
  fc.assert(
    fc.property(fc.array(place, { maxLength: 12 }), (places) => {
      const marks = places.map(
        (at, i): PictureMark => ({ at, text: String(i + 1), kind: 'late', hidden: false }),
      );
      const badges = placeBadges(marks, frame) as readonly Vec2[];
      badges.forEach((b, i) => {
        expect(b).toBeDefined();
        expect(b[0] > 1.75 && b[0] < 88.25 && b[1] > 1.75 && b[1] < 73.25).toBe(true);
        for (const other of badges.slice(0, i))
          expect(Math.hypot(b[0] - other[0], b[1] - other[1])).toBeGreaterThan(3.5);
      });
    }),
    { seed: 6, numRuns: 200 },
  );
});

test('with room about it a number stands up and to the right of its ring, clear of it', () => {
  const [badge] = placeBadges([{ at: [40, 40], text: '1', kind: 'late', hidden: false }], frame);
  expect(badge![0]).toBeGreaterThan(41.5);
  expect(badge![1]).toBeLessThan(38.5);
});
