import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { placeLabels } from '../../../gallery/page/view/place-labels.js';

const frame = { width: 400, height: 300 };

describe('places of texts', () => {
  it('gives the first place to those that come first, and the next free one to others', () => {
    const wish = (x: number) => ({ width: 60, height: 18, places: [[x, 100] as const, [x, 140] as const] });
    expect(placeLabels([wish(100), wish(110), wish(105), wish(300)], frame)).toEqual([
      [100, 100],
      [110, 140],
      null,
      [300, 100],
    ]);
  });

  it('never lets texts meet or leave the picture, and hides none that has a free place', () => {
    const place = fc.tuple(fc.integer({ min: -40, max: 440 }), fc.integer({ min: -40, max: 340 }));
    const wish = fc.record({
      width: fc.integer({ min: 10, max: 120 }),
      height: fc.integer({ min: 10, max: 30 }),
      places: fc.array(place, { maxLength: 4 }),
    });
    fc.assert(
      fc.property(fc.array(wish, { maxLength: 12 }), (wishes) => {
        const rectangles = placeLabels(wishes, frame).map((at, i) => {
          const { width, height } = wishes[i]!;
          return at && { left: at[0] - width / 2, top: at[1] - height / 2, width, height };
        });
        const meet = (a: DOMRectLike, b: DOMRectLike) =>
          a.left < b.left + b.width &&
          b.left < a.left + a.width &&
          a.top < b.top + b.height &&
          b.top < a.top + a.height;
        rectangles.forEach((a, i) => {
          if (!a) return;
          expect(a.left >= 0 && a.top >= 0 && a.left + a.width <= 400 && a.top + a.height <= 300).toBe(true);
          for (const b of rectangles.slice(i + 1)) if (b) expect(meet(a, b)).toBe(false);
        });
        // A text alone in the picture is hidden only where no place is within it.
        const first = wishes[0];
        const within = first?.places.some(
          ([x, y]) =>
            x >= first.width / 2 &&
            y >= first.height / 2 &&
            x <= 400 - first.width / 2 &&
            y <= 300 - first.height / 2,
        );
        if (first) expect(rectangles[0] !== null).toBe(within);
      }),
      { seed: 7 },
    );
  });
});

interface DOMRectLike {
  readonly left: number;
  readonly top: number;
  readonly width: number;
  readonly height: number;
}
