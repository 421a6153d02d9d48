import { describe, expect, it } from 'vitest';
import {
  gapArrows,
  type Lie,
  lieTransform,
  onPicture,
  outlinePath,
  standTransform,
} from '../../../gallery/page/pair/close-up-lines.js';

type Point = readonly [number, number];

/** A point through an SVG transform list, as SVG has it: the last one first, angles in degrees, clockwise with Y down. */
function through(list: string, point: Point): Point {
  const steps = [...list.matchAll(/(\w+)\(([^)]*)\)/g)].map(
    ([, name, args]) => [name, (args as string).split(/[\s,]+/).map(Number)] as const,
  );
  return steps.reduceRight<Point>(([x, y], [name, [a = 0, b = 0]]) => {
    if (name === 'translate') return [x + a, y + b];
    if (name === 'scale') return [x * a, y * b];
    const [c, s] = [Math.cos((a * Math.PI) / 180), Math.sin((a * Math.PI) / 180)];
    return [c * x - s * y, s * x + c * y];
  }, point);
}

const lies: readonly Lie[] = [
  { width: 600, height: 400, scale: 20, pitchPoint: [24, 0], frame: 0 },
  { width: 358, height: 294, scale: 13.7, pitchPoint: [17.3, 0], frame: -Math.PI / 2 },
];

describe('points are put where the drawing is', () => {
  it.each(lies)('%j', (lie) => {
    for (const point of [
      [24, 0],
      [17.3, 0],
      [25, 3],
      [-4, 11.5],
    ] as const) {
      const [x, y] = onPicture(lie, point);
      const [u, v] = through(lieTransform(lie), point);
      expect(x).toBeCloseTo(u, 9);
      expect(y).toBeCloseTo(v, 9);
    }
    expect(onPicture(lie, lie.pitchPoint)).toEqual([lie.width / 2, lie.height / 2]);
  });

  it('up is up, and a rack lies below its pinion', () => {
    const [plain, rack] = lies as [Lie, Lie];
    expect(onPicture(plain, [24, 1])[1]).toBeLessThan(200);
    expect(onPicture(rack, [18.3, 0])[1]).toBeGreaterThan(147);
  });

  it('a member is turned about its own axis, then moved', () => {
    const [x, y] = through(standTransform({ turn: Math.PI / 2, at: [64, 2] }), [10, 0]);
    expect(x).toBeCloseTo(64, 9);
    expect(y).toBeCloseTo(12, 9);
  });
});

it('an outline is one closed path', () => {
  const section = {
    outline: [
      [0, 0],
      [1.23456789, 0],
      [0, -2],
    ] as const,
    edge: 3,
  };
  expect(outlinePath(section)).toBe('M0 0L1.2346 0L0 -2Z');
});

it('arrows point at a gap from outside, towards each other', () => {
  const [first, second] = gapArrows([10, 0], [14, 0], [4, 0], 16);
  expect(first).toMatch(/^M-6 0L10 0M/);
  expect(second).toMatch(/^M30 0L14 0M/);
});
