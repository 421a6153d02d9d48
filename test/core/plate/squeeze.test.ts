/** What pushes patterns apart, against differences of the overlap itself and against hand-laid cases. */
import { describe, expect, test } from 'vitest';
import { regionDistance } from '../../../core/plate/distance.js';
import type { NestBed, NestItem } from '../../../core/plate/index.js';
import { randomFrom } from '../../../core/plate/random.js';
import { roomOf } from '../../../core/plate/room.js';
import { sortShapes } from '../../../core/plate/shapes.js';
import { bodyOf, zoneBody } from '../../../core/plate/squeeze/body.js';
import { descend } from '../../../core/plate/squeeze/descend.js';
import { fieldOf } from '../../../core/plate/squeeze/field.js';
import { noPush, pushApart, pushInside } from '../../../core/plate/squeeze/overlap.js';
import { shortfalls } from '../../../core/plate/squeeze/shortfalls.js';
import { squeezer } from '../../../core/plate/squeeze/squeeze.js';
import type { Polygon } from '../../../core/solid/types.js';
import { roundRing } from './plate-oracle.js';

const bed: NestBed = { width: 100, depth: 100, height: 50, margin: 5, gap: 4 };
const shapeOf = (outline: readonly Polygon[]) => {
  const item: NestItem = { name: 'x', copy: 1, outline, height: 10 };
  return sortShapes([item]).shapes[0]!;
};
const ell: Polygon = [
  [0, 0],
  [40, 0],
  [40, 12],
  [14, 12],
  [14, 30],
  [0, 30],
];

describe('the field about a region', () => {
  test('tells distances as the polygons have them, less than 0 inside', () => {
    const paths = [Float64Array.from(ell.flat())];
    const { x0, y0, cell, cols, rows, values } = fieldOf(paths, 5);
    for (let k = 0; k < values.length; k += 7) {
      const [x, y] = [x0 + (k % cols) * cell, y0 + Math.floor(k / cols) * cell];
      const dot = [Float64Array.of(x, y, x, y)];
      const away = regionDistance(paths, dot, 0, 0);
      if (values[k]! > 0) expect(values[k]).toBeCloseTo(away, 4);
      else expect(away).toBe(0);
    }
    expect(rows * cols).toBe(values.length);
  });
});

describe('pushes', () => {
  test('are the slope of the overlap, along x, y and the turn (seed 3)', () => {
    const room = roomOf(bed);
    const [a, b] = [bodyOf(shapeOf([ell]), room), bodyOf(shapeOf([roundRing(0, 0, 15)]), room)];
    const zone = zoneBody({ x: 60, y: 60, diameter: 30 }, room);
    const random = randomFrom(3);
    const spot = (x: number, y: number, t: number) => ({ x, y, c: Math.cos(t), s: Math.sin(t) });
    const at = (x: number, y: number, t: number) => {
      const push = noPush();
      pushApart(push, a, spot(x, y, t), b, spot(50, 40, 0.3), [4], 1.5, true);
      pushApart(push, a, spot(x, y, t), zone, spot(60, 60, 0), [0.1], 1, true);
      pushInside(push, a, spot(x, y, t), room, 0, 1);
      return push;
    };
    let met = 0;
    for (let k = 0; k < 60; k++) {
      const [x, y, t] = [10 + 80 * random(), 10 + 80 * random(), 6 * random()];
      const push = at(x, y, t);
      if (push.overlap < 1) continue;
      met++;
      // Twice the push is how fast the overlap falls; the field bends from cell to cell, so differences are short.
      const h = 1e-5;
      const along = [
        (at(x - h, y, t).overlap - at(x + h, y, t).overlap) / (2 * h),
        (at(x, y - h, t).overlap - at(x, y + h, t).overlap) / (2 * h),
        (at(x, y, t - h / 20).overlap - at(x, y, t + h / 20).overlap) / (h / 10),
      ];
      const slack = 0.02 * (Math.abs(push.gx) + Math.abs(push.gy)) + 0.5;
      expect(Math.abs(2 * push.gx - along[0]!)).toBeLessThan(slack);
      expect(Math.abs(2 * push.gy - along[1]!)).toBeLessThan(slack);
      expect(Math.abs(2 * push.gt - along[2]!)).toBeLessThan(0.02 * Math.abs(push.gt) + 30);
    }
    expect(met).toBeGreaterThan(20);
  });

  test('downhill: the bottom of the valley of Rosenbrock (1960)', () => {
    const at = Float64Array.of(-1.2, 1);
    const slope = ([x, y]: Float64Array, into: Float64Array): number => {
      into[0] = -2 * (1 - x!) - 400 * x! * (y! - x! * x!);
      into[1] = 200 * (y! - x! * x!);
      return (1 - x!) ** 2 + 100 * (y! - x! * x!) ** 2;
    };
    expect(descend(at, slope, 300, 1e-12)).toBeLessThan(1e-8);
    expect(at[0]).toBeCloseTo(1, 3);
    expect(at[1]).toBeCloseTo(1, 3);
  });
});

describe('what true outlines miss', () => {
  const room = roomOf({ ...bed, brim: 3, keepOuts: [{ x: 80, y: 80, width: 20, depth: 20 }] });
  const shape = shapeOf([
    [
      [0, 0],
      [20, 0],
      [20, 20],
      [0, 20],
    ],
  ]);
  const missed = (...at: (readonly [number, number])[]) =>
    shortfalls(
      at.map(([x, y]) => ({ shape, x, y, turn: 0 })),
      room,
    ).map(({ a, b, by }) => [a, b, Number(by.toFixed(6))]);

  test('nothing where all keep apart, and by how much where not', () => {
    expect(missed([8, 8], [34, 8])).toEqual([]);
    // Feet 5.5 apart: the gap of 4 is kept, the brims of 3 are not.
    expect(missed([8, 8], [33.5, 8])).toEqual([[0, 1, 0.5]]);
    expect(missed([7, 8])).toEqual([[0, 0, 1]]);
    // The zone begins at 80: the foot's brim reaches 1.5 into it.
    expect(missed([58.5, 72])).toEqual([[0, 0, 1.5]]);
    expect(missed([56.5, 72])).toEqual([]);
    // What touches or overlaps is never nothing.
    expect(missed([8, 8], [18, 18]).length).toBeGreaterThan(0);
  });
});

describe('the squeezer', () => {
  test('pushes four squares of a full bed apart that begin all in the middle', () => {
    const room = roomOf({ ...bed, gap: 3.5 });
    const shape = shapeOf([
      [
        [0, 0],
        [43, 0],
        [43, 43],
        [0, 43],
      ],
    ]);
    const body = bodyOf(shape, room);
    const start = [0, 1, 2, 3].map((k) => ({ bed: 0, x: 50 + k, y: 50 - k, turn: 0.1 * k }));
    const work = squeezer(
      start.map(() => ({ body, zones: [] })),
      start,
      1,
      room,
      randomFrom(1),
    );
    for (let k = 0; k < 4000 && !work.isFree(); k++) work.step();
    expect(work.isFree()).toBe(true);
    const xs = work.places().map(({ x, y }) => `${Math.round(x / 10)} ${Math.round(y / 10)}`);
    expect(new Set(xs).size).toBe(4);
  });
});
