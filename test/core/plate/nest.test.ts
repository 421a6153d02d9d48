import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { type NestBed, type NestItem, nest } from '../../../core/plate/index.js';

/** A rectangle counter-clockwise from its front left corner. */
const boxPath = (x: number, y: number, w: number, h: number) =>
  [
    [x, y],
    [x + w, y],
    [x + w, y + h],
    [x, y + h],
  ] as const;
const size = fc.integer({ min: 10, max: 1200 }).map((n) => n / 10);
const item = fc.record({
  x: fc.integer({ min: -500, max: 500 }).map((n) => n / 7),
  y: fc.integer({ min: -500, max: 500 }).map((n) => n / 7),
  w: size,
  h: size,
  height: size,
});
const bedOf = fc.record({
  width: fc.integer({ min: 60, max: 250 }),
  depth: fc.integer({ min: 60, max: 250 }),
  height: fc.integer({ min: 40, max: 200 }),
  margin: fc.integer({ min: 0, max: 12 }),
  gap: fc.integer({ min: 0, max: 60 }).map((n) => n / 10),
});
const named = (list: readonly { x: number; y: number; w: number; h: number; height: number }[]): NestItem[] =>
  list.map((i, k) => ({
    name: `p${k}`,
    copy: 1,
    outline: [boxPath(i.x, i.y, i.w, i.h)],
    height: i.height,
  }));
const square = (name: string, copy: number, w: number, h = w): NestItem => ({
  name,
  copy,
  outline: [boxPath(0, 0, w, h)],
  height: 10,
});

/** The box on the bed, by turning all four corners. */
function boxOnBed(i: NestItem, p: { x: number; y: number; turn: number }) {
  const { min, max } = i.footprint;
  const corners = [min, [max[0], min[1]], max, [min[0], max[1]]].map(([x, y]) => [
    x! * Math.cos(p.turn) - y! * Math.sin(p.turn) + p.x,
    x! * Math.sin(p.turn) + y! * Math.cos(p.turn) + p.y,
  ]);
  const xs = corners.map((c) => c[0]!);
  const ys = corners.map((c) => c[1]!);
  return { x0: Math.min(...xs), x1: Math.max(...xs), y0: Math.min(...ys), y1: Math.max(...ys) };
}

function checkPlates(items: readonly NestItem[], bed: Required<NestBed>): void {
  const { plates, refused } = nest(items, bed);
  const eps = 1e-6;
  const seen = new Set<string>();
  for (const plate of plates) {
    expect(plate.length).toBeGreaterThan(0);
    const boxes = plate.map((p) => {
      const id = `${p.name} ${p.copy}`;
      expect(seen.has(id)).toBe(false);
      seen.add(id);
      return boxOnBed(items.find((i) => i.name === p.name && i.copy === p.copy)!, p);
    });
    boxes.forEach((a, i) => {
      expect(a.x0).toBeGreaterThanOrEqual(bed.margin - eps);
      expect(a.y0).toBeGreaterThanOrEqual(bed.margin - eps);
      expect(a.x1).toBeLessThanOrEqual(bed.width - bed.margin + eps);
      expect(a.y1).toBeLessThanOrEqual(bed.depth - bed.margin + eps);
      for (const b of boxes.slice(i + 1)) {
        const clear = Math.max(b.x0 - a.x1, a.x0 - b.x1, b.y0 - a.y1, a.y0 - b.y1);
        expect(clear).toBeGreaterThanOrEqual(bed.gap - eps);
      }
    });
  }
  const [w, d] = [bed.width - 2 * bed.margin, bed.depth - 2 * bed.margin];
  for (const i of items) {
    const [a, b] = [0, 1].map((k) => i.footprint.max[k]! - i.footprint.min[k]!) as [number, number];
    const fits =
      i.height <= bed.height + eps && ((a <= w + eps && b <= d + eps) || (b <= w + eps && a <= d + eps));
    expect(seen.has(`${i.name} ${i.copy}`)).toBe(fits);
    expect(refused.some((r) => r.name === i.name && r.copies.includes(i.copy))).toBe(!fits);
  }
  for (const r of refused) {
    const i = items.find((k) => k.name === r.name)!;
    const [a, b] = [0, 1].map((k) => i.footprint.max[k]! - i.footprint.min[k]!) as [number, number];
    const over = (n: number): number => Math.max(0, n);
    const best = Math.min(over(a - w) + over(b - d), over(b - w) + over(a - d));
    expect(r.overBy.width + r.overBy.depth).toBeCloseTo(best, 6);
    expect(r.overBy.height).toBeCloseTo(over(i.height - bed.height), 6);
  }
}

describe('nest', () => {
  test('never overlaps, keeps gap and margin, loses nothing, refuses exactly what cannot fit (seed 7)', () => {
    fc.assert(
      fc.property(fc.array(item, { maxLength: 24 }), bedOf, (list, bed) => checkPlates(named(list), bed)),
      { seed: 7, numRuns: 300 },
    );
  });

  test('is deterministic and does not depend on where a pattern has its origin (seed 8)', () => {
    fc.assert(
      fc.property(fc.array(item, { maxLength: 12 }), bedOf, (list, bed) => {
        const one = nest(named(list), bed);
        expect(nest(named(list), bed)).toEqual(one);
        const moved = nest(named(list.map((i) => ({ ...i, x: i.x + 32 }))), bed);
        expect(moved.plates.map((p) => p.map((q) => [q.name, q.turn]))).toEqual(
          one.plates.map((p) => p.map((q) => [q.name, q.turn])),
        );
      }),
      { seed: 8, numRuns: 100 },
    );
  });

  test('fills a bed to the last tenth of a millimetre', () => {
    const four = [1, 2, 3, 4].map((copy) => square('block', copy, 48.1));
    const { plates } = nest(four, { width: 110, depth: 110, height: 50, margin: 5, gap: 3.8 });
    expect(plates.length).toBe(1);
    expect(plates[0]!.map((p) => [p.x, p.y].map((v) => Number(v.toFixed(9)))).sort()).toEqual(
      [
        [5, 5],
        [5, 56.9],
        [56.9, 5],
        [56.9, 56.9],
      ].sort(),
    );
  });

  test('turns a pattern that only fits turned', () => {
    const { plates, refused } = nest([square('strip', 1, 30, 190)], {
      width: 200,
      depth: 100,
      height: 50,
      margin: 5,
    });
    expect(refused).toEqual([]);
    expect(plates[0]![0]!.turn).toBe(Math.PI / 2);
    // The strip lies centred: its box is x 5 to 195, y 35 to 65, and (0, 0) is its right front corner.
    expect(plates[0]![0]!.x).toBeCloseTo(195, 9);
    expect(plates[0]![0]!.y).toBeCloseTo(35, 9);
  });

  test('the nine squares of the squared rectangle 33 × 32 fit one bed with a tenth of slack or two at most', () => {
    // Z. Moroń, 1925: sides 1, 4, 7, 8, 9, 10, 14, 15, 18 fill 33 × 32 exactly; with no slack only the exact
    // arrangement does it, so this asks only that the method comes within one small bed of perfect.
    const sides = [1, 4, 7, 8, 9, 10, 14, 15, 18];
    expect(sides.reduce((s, a) => s + a * a, 0)).toBe(33 * 32);
    const items = sides.map((a) => square(`s${a}`, 1, a));
    const bed = { height: 20, margin: 0, gap: 0 };
    expect(nest(items, { ...bed, width: 33, depth: 32 }).plates.length).toBeLessThanOrEqual(2);
    expect(nest(items, { ...bed, width: 37, depth: 36 }).plates.length).toBe(1);
  });

  test('says what does not fit, by how much and in which direction, once for all its copies', () => {
    const tall = { ...square('cleat', 1, 20), height: 61.234 };
    const items = [square('plank', 1, 250, 40), square('plank', 2, 250, 40), tall, square('knob', 1, 20)];
    const { plates, refused } = nest(items, { width: 220, depth: 200, height: 60, margin: 5 });
    expect(plates.flat().map((p) => p.name)).toEqual(['knob']);
    expect(refused).toEqual([
      {
        name: 'plank',
        copies: [1, 2],
        overBy: { width: 40, depth: 0, height: 0 },
        reason:
          'plank needs 250 × 40 × 10 mm, the bed has 210 × 190 × 60 mm inside its margins: 40 mm too wide.',
      },
      {
        name: 'cleat',
        copies: [1],
        overBy: { width: 0, depth: 0, height: expect.closeTo(1.234, 9) },
        reason:
          'cleat needs 20 × 20 × 61.23 mm, the bed has 210 × 190 × 60 mm inside its margins: 1.24 mm too high.',
      },
    ]);
  });

  test('refuses beds and items that are no size at all', () => {
    const bed = { width: 100, depth: 100, height: 100, margin: 5 };
    expect(() => nest([], { ...bed, width: Number.NaN })).toThrow(/bed width is NaN mm; a positive length/);
    expect(() => nest([], { ...bed, margin: 50 })).toThrow(/margin is 50 mm; from 0 to less than 50 mm/);
    expect(() => nest([], { ...bed, gap: -1 })).toThrow(/gap is -1 mm/);
    expect(() => nest([square('flat', 1, 0, 5)], bed)).toThrow(/flat measures 0 × 5 × 10 mm/);
    expect(nest([], bed)).toEqual({ plates: [], refused: [] });
  });

  test('three hundred small pulls are nested in under two seconds', () => {
    const items = Array.from({ length: 300 }, (_, i) => square('pull', i + 1, 31 + (i % 5), 58 - (i % 3)));
    const start = performance.now();
    const { plates } = nest(items, { width: 220, depth: 220, height: 200, margin: 5 });
    expect(performance.now() - start).toBeLessThan(2000);
    expect(plates.flat().length).toBe(300);
  });
});
