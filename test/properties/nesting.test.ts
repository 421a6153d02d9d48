/** Any patterns on any beds: what comes out is measured by an oracle that shares no code with the nesting. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { checkPlate, type NestBed, type NestItem, nest } from '../../core/plate/index.js';
import { faultsOf, roundRing } from '../core/plate/plate-oracle.js';

type Point = readonly [number, number];
const tenths = (min: number, max: number) => fc.integer({ min: 10 * min, max: 10 * max }).map((n) => n / 10);

/** A star of any radii about a centre: simple, seldom convex; sometimes with a hole, sometimes with a tree in it. */
const outline = fc
  .record({
    radii: fc.array(tenths(8, 45), { minLength: 3, maxLength: 12 }),
    x: tenths(-60, 60),
    y: tenths(-60, 60),
    hole: fc.option(tenths(1, 6)),
    tree: fc.boolean(),
  })
  .map(({ radii, x, y, hole, tree }) => {
    const star = radii.map((r, i): Point => {
      const turn = (2 * Math.PI * i) / radii.length;
      return [x + r * Math.cos(turn), y + r * Math.sin(turn)];
    });
    // A hole well inside the least circle about the centre, which for a triangle is half the least radius.
    const least = Math.min(...radii) * Math.cos(Math.PI / radii.length) * 0.4;
    const inner = hole === null ? null : Math.min(hole, 0.9 * least);
    if (inner === null) return [star];
    const ring = [...roundRing(x, y, inner, 12)].reverse();
    return tree ? [star, ring, [...roundRing(x, y, inner / 3, 8)]] : [star, ring];
  });

/** Copies of a few shapes, some on a smaller foot, some higher than others. */
const items = fc
  .array(
    fc.record({
      outline,
      height: tenths(5, 60),
      copies: fc.integer({ min: 1, max: 4 }),
      footed: fc.boolean(),
      group: fc.constantFrom(undefined, 'bronze', 'brass'),
    }),
    { minLength: 1, maxLength: 5 },
  )
  .map((list) =>
    list.flatMap(({ outline: rings, height, copies, footed, group }, k): NestItem[] => {
      const [cx, cy] = rings[0]!.reduce(([sx, sy], [x, y]) => [sx + x, sy + y], [0, 0]);
      const n = rings[0]!.length;
      const foot = [rings[0]!.map(([x, y]): Point => [(x + cx / n) / 2, (y + cy / n) / 2])];
      return Array.from({ length: copies }, (_, i) => ({
        name: `p${k}`,
        copy: i + 1,
        outline: rings,
        height,
        ...(footed ? { foot } : {}),
        ...(group === undefined ? {} : { group }),
      }));
    }),
  );

const zone = fc.oneof(
  fc.record({ x: tenths(-10, 120), y: tenths(-10, 120), width: tenths(2, 40), depth: tenths(2, 40) }),
  fc.record({ x: tenths(-10, 120), y: tenths(-10, 120), diameter: tenths(2, 40) }),
);
const bed = fc
  .record({
    shape: fc.constantFrom('rectangle' as const, 'circle' as const),
    width: tenths(70, 180),
    depth: tenths(70, 180),
    height: tenths(30, 70),
    margin: tenths(0, 8),
    gap: tenths(0, 6),
    brim: fc.oneof(fc.constant(0), tenths(0, 5)),
    keepOuts: fc.array(
      fc.tuple(zone, fc.option(tenths(0, 40))).map(([z, above]) => (above === null ? z : { ...z, above })),
      { maxLength: 2 },
    ),
  })
  .map((b): NestBed => (b.shape === 'circle' ? { ...b, depth: b.width } : b));

const few = { rounds: 6 };

describe('nesting', () => {
  test('never overlaps, keeps gaps, margins, brims, zones and groups, loses nothing (seed 21)', () => {
    let placed = 0;
    fc.assert(
      fc.property(items, bed, (list, on) => {
        const result = nest(list, on, few);
        expect(faultsOf(list, on, result)).toEqual([]);
        for (const plate of result.plates) expect(checkPlate(list, on, plate)).toEqual([]);
        placed += result.plates.flat().length;
      }),
      { seed: 21, numRuns: 50 },
    );
    expect(placed).toBeGreaterThan(150);
  });

  test('refuses only what is larger than the bed, or what zones leave no place (seed 22)', () => {
    fc.assert(
      fc.property(items, bed, (list, on) => {
        for (const { name, overBy, reason } of nest(list, on, few).refused) {
          const item = list.find((i) => i.name === name)!;
          expect(reason).toMatch(/^The pattern .*\.$/);
          expect(overBy.height).toBeCloseTo(Math.max(0, item.height - on.height), 6);
          const over = overBy.width + overBy.depth;
          if (over + overBy.height === 0) {
            expect(reason).toContain('keep-out');
            expect(on.keepOuts!.length).toBeGreaterThan(0);
          } else if (over > 0 && on.shape === 'rectangle') {
            // At a thousand turns none needs less, as far as its box goes.
            const points = [
              ...item.outline.flat().map((p) => [...p, 0] as const),
              ...(item.foot ?? item.outline).flat().map((p) => [...p, on.brim!] as const),
            ];
            for (let i = 0; i < 1000; i++) {
              const [c, s] = [Math.cos((i * Math.PI) / 1000), Math.sin((i * Math.PI) / 1000)];
              const spread = (of: (x: number, y: number) => number, room: number): number =>
                Math.max(
                  0,
                  Math.max(...points.map(([x, y, r]) => of(x, y) + r)) -
                    Math.min(...points.map(([x, y, r]) => of(x, y) - r)) -
                    room,
                );
              const x = spread((px, py) => c * px - s * py, on.width - 2 * on.margin);
              const y = spread((px, py) => s * px + c * py, on.depth - 2 * on.margin);
              expect(x + y).toBeGreaterThan(over - 1e-4);
            }
          }
        }
      }),
      { seed: 22, numRuns: 30 },
    );
  });

  test('is the same twice, and copies that share no array are copies all the same (seed 23)', () => {
    fc.assert(
      fc.property(items, bed, fc.integer({ min: 0, max: 9 }), (list, on, seed) => {
        const one = nest(list, on, { ...few, seed });
        expect(nest(structuredClone(list), on, { ...few, seed })).toEqual(one);
      }),
      { seed: 23, numRuns: 12 },
    );
  });

  test('more rounds are never worse: fewer beds, or as many and the last as empty (seed 24)', () => {
    fc.assert(
      fc.property(items, bed, (list, on) => {
        const one = list.map(({ group: _, ...item }) => item);
        const few = nest(one, on, { rounds: 2 });
        const more = nest(one, on, { rounds: 25 });
        expect(more.plates.length).toBeLessThanOrEqual(few.plates.length);
        if (more.plates.length === few.plates.length && few.plates.length > 0) {
          expect(more.densities.at(-1)!).toBeLessThanOrEqual(few.densities.at(-1)! + 1e-9);
        }
      }),
      { seed: 24, numRuns: 15 },
    );
  });

  test('never takes more beds than rectangles, packed one shelf upon another (seed 25)', () => {
    fc.assert(
      fc.property(items, tenths(95, 180), tenths(95, 180), tenths(0, 5), (list, width, depth, gap) => {
        const on = { width, depth, height: 100, margin: 0, gap };
        const one = list.map(({ group: _, foot: __, ...item }) => item);
        const { plates, refused } = nest(one, on, few);
        // Next fit on shelves, highest first: an upper bound anyone can check.
        const sizes = one
          .filter((i) => !refused.some((r) => r.name === i.name))
          .map(({ outline: rings }) => {
            const [xs, ys] = [rings.flat().map((p) => p[0]), rings.flat().map((p) => p[1])];
            return [Math.max(...xs) - Math.min(...xs), Math.max(...ys) - Math.min(...ys)] as const;
          });
        fc.pre(sizes.length > 0 && sizes.every(([w, h]) => w <= width && h <= depth));
        let [beds, x, shelf, top] = [1, 0, 0, 0];
        for (const [w, h] of [...sizes].sort((a, b) => b[1] - a[1])) {
          if (x + w > width) [x, shelf, top] = [0, top + gap, top + gap];
          if (shelf + h > depth) [beds, x, shelf, top] = [beds + 1, 0, 0, 0];
          x += w + gap;
          top = Math.max(top, shelf + h);
        }
        expect(plates.length).toBeLessThanOrEqual(beds);
      }),
      { seed: 25, numRuns: 25 },
    );
  });
});
