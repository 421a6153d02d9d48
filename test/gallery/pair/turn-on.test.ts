import { describe, expect, it } from 'vitest';
import { shownDegrees, type Turning, turnOn, withinLimits } from '../../../gallery/page/pair/turn-on.js';

const free = [Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY] as const;

describe('a gear goes round', () => {
  it.each([
    [1, 2.5],
    [-1, -0.5],
  ] as const)('the way it goes, %i', (way, angle) => {
    expect(turnOn({ angle: 1, way }, 1.5, free)).toEqual({ angle, way });
  });

  it('and its degrees are shown within a turn', () => {
    expect(shownDegrees(-Math.PI / 2, free)).toBeCloseTo(270, 9);
    expect(shownDegrees(5 * Math.PI, free)).toBeCloseTo(180, 9);
  });
});

describe('a rack goes to and fro', () => {
  const limits = [-2, 3] as const;

  it('small steps come to the same as one large one', () => {
    let small: Turning = { angle: 0.3, way: 1 };
    for (let i = 0; i < 4000; i++) small = turnOn(small, 0.01, limits);
    const large = turnOn({ angle: 0.3, way: 1 }, 40, limits);
    expect(small.angle).toBeCloseTo(large.angle, 6);
    expect(small.way).toBe(large.way);
  });

  it.each([
    [{ angle: 2.5, way: 1 }, 1, { angle: 2.5, way: -1 }],
    [{ angle: -1.5, way: -1 }, 1, { angle: -1.5, way: 1 }],
    // Out and back is twice the length.
    [{ angle: 1, way: -1 }, 10, { angle: 1, way: -1 }],
  ] as const)('%j on by %f', (from, by, to) => {
    const on = turnOn(from, by, limits);
    expect(on.angle).toBeCloseTo(to.angle, 12);
    expect(on.way).toBe(to.way);
  });

  it('and never past its ends', () => {
    expect(withinLimits(9, limits)).toBe(3);
    expect(withinLimits(-9, limits)).toBe(-2);
    expect(shownDegrees(-2, limits)).toBeCloseTo(-114.591559, 5);
  });
});
