import { describe, expect, test } from 'vitest';
import { grownArea, grownBed, leastBeds } from '../../../core/plate/bound.js';
import type { NestBed, NestItem } from '../../../core/plate/index.js';
import { roomOf } from '../../../core/plate/room.js';
import { sortShapes } from '../../../core/plate/shapes.js';
import { roundRing } from './plate-oracle.js';

const bed: NestBed = { width: 110, depth: 90, height: 50, margin: 5, gap: 4 };
const copies = (n: number, outline: NestItem['outline']): readonly NestItem[] =>
  Array.from({ length: n }, (_, i) => ({ name: 'x', copy: i + 1, outline, height: 10 }));
const least = (items: readonly NestItem[], on = bed): number => {
  const { shapes, of } = sortShapes(items);
  return leastBeds(shapes, of, roomOf(on));
};
const box = (w: number, h: number): NestItem['outline'] => [
  [
    [0, 0],
    [w, 0],
    [w, h],
    [0, h],
  ],
];

describe('beds that are wanted at least', () => {
  test('a rectangle, a frame and a disc grow by the formulas of Steiner', () => {
    const shapeOf = (outline: NestItem['outline']) => sortShapes(copies(1, outline)).shapes[0]!;
    // Area + perimeter · r + π r², where r is half the gap; never more than that.
    const exact = 30 * 20 + 100 * 2 + Math.PI * 4;
    expect(grownArea(shapeOf(box(30, 20)), 4)).toBeLessThanOrEqual(exact);
    expect(grownArea(shapeOf(box(30, 20)), 4)).toBeGreaterThan(0.995 * exact);
    const hole = [...box(16, 16)[0]!].reverse().map(([x, y]) => [x + 2, y + 2] as const);
    const frame = [box(20, 20)[0]!, hole];
    expect(grownArea(shapeOf(frame), 4)).toBeCloseTo(grownArea(shapeOf(box(20, 20)), 4) - 12 * 12, 3);
    const disc = grownArea(shapeOf([roundRing(0, 0, 20)]), 4);
    expect(disc / (Math.PI * 22 * 22)).toBeCloseTo(1, 2);
    expect(grownBed(roomOf(bed))).toBeCloseTo(100 * 80 + 180 * 4 + Math.PI * 4, 9);
    const round = roomOf({ ...bed, shape: 'circle', depth: 110 });
    expect(grownBed(round)).toBeCloseTo(Math.PI * 52 * 52, 9);
  });

  test('by area: 48 × 38 goes four to a bed to the last tenth, and 16 want four beds', () => {
    expect(least(copies(4, box(48, 38)))).toBe(1);
    expect(least(copies(16, box(48, 38)))).toBe(4);
    expect(least(copies(17, box(48, 38)))).toBe(5);
  });

  test('by pairs: discs of which no two go on a bed', () => {
    // Two of radius r touch corner to corner where √2 (side − 2 r) = 2 r + gap.
    const square = { ...bed, width: 110, depth: 110 };
    const most = (Math.SQRT2 * 100 - 4) / (2 + 2 * Math.SQRT2);
    expect(least(copies(7, [roundRing(0, 0, 1.03 * most)]), square)).toBe(7);
    expect(least(copies(7, [roundRing(0, 0, 0.99 * most)]), square)).toBeLessThan(7);
    const round = { ...bed, shape: 'circle' as const, width: 110, depth: 110 };
    expect(least(copies(5, [roundRing(0, 0, 24.8)]), round)).toBe(5);
    expect(least(copies(5, [roundRing(0, 0, 23.9)]), round)).toBeLessThan(5);
  });
});
