/** Patterns about a sprue: apart by polygon tests of others, and small against forms whose best is known. */
import fc from 'fast-check';
import polygonClipping, { type Polygon as Rings } from 'polygon-clipping';
import { describe, expect, test } from 'vitest';
import { placeTree, type TreePlace } from '../../../../core/foundry/gating/index.js';
import { type KindToPlace, placeKinds } from '../../../../core/foundry/pack/place-kinds.js';
import type { Vec2 } from '../../../../core/solid/types.js';

const disc = (r: number, corners = 120): Vec2[] =>
  Array.from({ length: corners }, (_, i) => {
    const turn = (2 * Math.PI * i) / corners;
    return [r * Math.cos(turn), r * Math.sin(turn)];
  });
const bar = (w: number, d: number): Vec2[] => [
  [0, 0],
  [w, 0],
  [w, d],
  [0, d],
];

const standAt = ([x, y]: Vec2, at: TreePlace): Vec2 => [
  Math.cos(at.turn) * x - Math.sin(at.turn) * y + at.x,
  Math.sin(at.turn) * x + Math.cos(at.turn) * y + at.y,
];
const stood = (kinds: readonly KindToPlace[], places: readonly (readonly TreePlace[])[]) =>
  kinds.flatMap(({ outline, gate }, k) =>
    places[k]!.map((at) => ({ outline: outline.map((p) => standAt(p, at)), gate: standAt(gate, at) })),
  );
const radius = (outlines: readonly (readonly Vec2[])[]): number =>
  Math.max(...outlines.flatMap((o) => o.map(([x, y]) => Math.hypot(x, y))));

/** Distance of a point from a segment. */
const fromSegment = ([x, y]: Vec2, [ax, ay]: Vec2, [bx, by]: Vec2): number => {
  const [dx, dy] = [bx - ax, by - ay];
  const f = Math.max(0, Math.min(1, ((x - ax) * dx + (y - ay) * dy) / (dx * dx + dy * dy || 1)));
  return Math.hypot(x - ax - f * dx, y - ay - f * dy);
};
/** Of two outlines that do not cross: each corner from each side. */
const distance = (a: readonly Vec2[], b: readonly Vec2[]): number =>
  Math.min(
    ...[
      [a, b],
      [b, a],
    ].flatMap(([p, q]) => p!.flatMap((c) => q!.map((s, i) => fromSegment(c, s, q![(i + 1) % q!.length]!)))),
  );

const rings = (outline: readonly Vec2[]): Rings => [[...outline, outline[0]!].map(([x, y]) => [x, y])];

/** Smallest mould by the same measure: reach² × (80 mm + the rise of runners at 50°). */
const size = (all: ReturnType<typeof stood>): number =>
  radius(all.map((s) => s.outline)) ** 2 *
  (80 + Math.max(...all.map(({ gate }) => Math.hypot(...gate))) * Math.tan((50 * Math.PI) / 180));

/** Convex outlines: points on an ellipse, somewhere, with a gate inside. */
const kind: fc.Arbitrary<KindToPlace> = fc
  .record({
    a: fc.double({ min: 4, max: 45, noNaN: true }),
    b: fc.double({ min: 4, max: 20, noNaN: true }),
    turns: fc.uniqueArray(fc.integer({ min: 0, max: 71 }), { minLength: 4, maxLength: 20 }),
    at: fc.tuple(
      fc.double({ min: -50, max: 50, noNaN: true }),
      fc.double({ min: -50, max: 50, noNaN: true }),
    ),
    count: fc.integer({ min: 1, max: 3 }),
  })
  .filter(({ turns }) => {
    const sorted = [...turns].sort((p, q) => p - q);
    return sorted.every((t, i) => (sorted[(i + 1) % sorted.length]! - t + 72) % 72 < 34);
  })
  .map(({ a, b, turns, at: [x, y], count }) => {
    const outline = turns.map(
      (t): Vec2 => [x + a * Math.cos((t * Math.PI) / 36), y + b * Math.sin((t * Math.PI) / 36)],
    );
    const mean = (k: 0 | 1): number => outline.reduce((sum, p) => sum + p[k], 0) / outline.length;
    return { outline, gate: [mean(0), mean(1)], count };
  });

test('random sets: all of them there, none over another, the gap kept, the sprue in the middle of the gates', () => {
  const gap = 10;
  fc.assert(
    fc.property(fc.array(kind, { minLength: 1, maxLength: 3 }), (kinds) => {
      fc.pre(kinds.reduce((n, k) => n + k.count, 0) > 1);
      const places = placeKinds(kinds, gap);
      expect(places.map((p) => p.length)).toEqual(kinds.map((k) => k.count));
      const all = stood(kinds, places);
      const hulls = all.map(({ outline }) => convex(outline));
      for (const [i, a] of hulls.entries())
        for (const b of hulls.slice(i + 1)) {
          expect(polygonClipping.intersection(rings(a), rings(b))).toEqual([]);
          expect(distance(a, b)).toBeGreaterThan(gap - 1e-6);
        }
      // The middle of the smallest circle round the gates: no move brings all of them nearer.
      const out = (x: number, y: number): number =>
        Math.max(...all.map(({ gate }) => Math.hypot(gate[0] - x, gate[1] - y)));
      for (const turn of [0, 1, 2, 3, 4, 5, 6, 7]) {
        const [x, y] = [0.01 * Math.cos((turn * Math.PI) / 4), 0.01 * Math.sin((turn * Math.PI) / 4)];
        expect(out(x, y)).toBeGreaterThan(out(0, 0) - 1e-6);
      }
    }),
    { seed: 20261126, numRuns: 25 },
  );
});

/** Gift wrapping: shares nothing with the code. */
function convex(points: readonly Vec2[]): Vec2[] {
  const start = points.reduce((a, b) => (b[0] < a[0] || (b[0] === a[0] && b[1] < a[1]) ? b : a));
  const hull: Vec2[] = [];
  for (let at = start; hull.length <= points.length; ) {
    hull.push(at);
    const next = points.reduce((a, b) => {
      if (a === at) return b;
      const cross = (a[0] - at[0]) * (b[1] - at[1]) - (a[1] - at[1]) * (b[0] - at[0]);
      return cross < 0 ? b : a;
    });
    if (next === start) break;
    at = next;
  }
  return hull;
}

describe('discs of equal size', () => {
  const [r, gap] = [15, 10];
  test.each([2, 3, 4, 5, 6])('%i stand in a ring, each touching the next’s mould', (n) => {
    const kinds = [{ outline: disc(r), gate: [0, 0] as Vec2, count: n }];
    // Middles on a circle of (r + gap/2) / sin(π/n); the best there is to five (Graham and others, from memory).
    const best = (r + gap / 2) / Math.sin(Math.PI / n) + r;
    const found = radius(stood(kinds, placeKinds(kinds, gap)).map((s) => s.outline));
    expect(found).toBeLessThan(1.002 * best);
    if (n < 6) expect(found).toBeGreaterThan(0.998 * best);
  });

  test('seven have one in the middle', () => {
    const kinds = [{ outline: disc(r), gate: [0, 0] as Vec2, count: 7 }];
    const found = radius(stood(kinds, placeKinds(kinds, gap)).map((s) => s.outline));
    const best = 2 * r + gap + r;
    expect(found).toBeGreaterThan(0.998 * best);
    expect(found).toBeLessThan(1.02 * best);
  });
});

describe('of one kind, no larger a mould than equal sectors make', () => {
  const shapes: readonly (readonly [string, readonly Vec2[], Vec2])[] = [
    ['discs', disc(12), [0, 0]],
    ['bars', bar(60, 14), [30, 7]],
    [
      'triangles',
      [
        [0, 0],
        [40, 0],
        [0, 25],
      ],
      [10, 8],
    ],
    ['bars gated at an end', bar(45, 10), [4, 5]],
  ];
  test.each(shapes)('%s', (_, outline, gate) => {
    for (const count of [2, 3, 4, 6, 8]) {
      const kinds = [{ outline, gate, count }];
      const own = size(stood(kinds, placeKinds(kinds, 10)));
      const sectors = size(stood(kinds, [placeTree(outline, gate, count, 10)]));
      expect(own).toBeLessThan(sectors * (1 + 1e-6));
    }
  });

  test('four bars lie side by side, in a circle a tenth smaller', () => {
    const kinds = [{ outline: bar(60, 14), gate: [30, 7] as Vec2, count: 4 }];
    const found = radius(stood(kinds, placeKinds(kinds, 10)).map((s) => s.outline));
    // A stack of four, 86 mm over all: its corners.
    expect(found).toBeLessThan(1.001 * Math.hypot(30, 43));
    expect(found).toBeLessThan(
      0.9 * radius(stood(kinds, [placeTree(bar(60, 14), [30, 7], 4, 10)]).map((s) => s.outline)),
    );
  });
});

test('the same every time, and as small wherever the patterns are drawn', () => {
  const kinds: KindToPlace[] = [
    { outline: disc(17, 40), gate: [0, 0], count: 2 },
    { outline: bar(70, 18), gate: [35, 9], count: 2 },
  ];
  const moved = kinds.map(({ outline, gate, count }) => ({
    outline: outline.map(([x, y]): Vec2 => [x + 64, y - 32]),
    gate: [gate[0] + 64, gate[1] - 32] as Vec2,
    count,
  }));
  const [once, again, there] = [kinds, kinds, moved].map((k) => placeKinds(k, 10));
  expect(again).toEqual(once);
  const reach = (k: readonly KindToPlace[], places: typeof once): number =>
    radius(stood(k, places!).map((s) => s.outline));
  // Rounding sends the search another way; it ends about as well.
  expect(Math.abs(reach(moved, there) / reach(kinds, once) - 1)).toBeLessThan(0.01);
});
