import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { inspectMesh } from '../../../core/solid/index.js';
import { crossExactly, hasNoArea, type WholeTriangle, wholeOf } from '../../helpers/exact-crossings.js';

/** Counts by inspectMesh and by whole-number arithmetic for loose triangles given as nine numbers each. */
function bothCounts(triangles: readonly (readonly number[])[]): {
  mine: readonly number[];
  exact: readonly number[];
} {
  const positions = Float32Array.from(triangles.flat());
  const report = inspectMesh({
    positions,
    triangles: Uint32Array.from({ length: 3 * triangles.length }, (_, i) => i),
  });
  const whole = triangles.map((_, i) =>
    [0, 1, 2].map((k) => wholeOf([...positions.subarray(9 * i + 3 * k, 9 * i + 3 * k + 3)])),
  ) as unknown as WholeTriangle[];
  const solid = whole.filter((t) => !hasNoArea(t));
  let crossings = 0;
  solid.forEach((s, i) => {
    for (const t of solid.slice(i + 1)) if (crossExactly(s, t)) crossings++;
  });
  return {
    mine: [report.degenerateTriangles, report.selfIntersections],
    exact: [whole.length - solid.length, crossings],
  };
}

const soup = (coordinate: fc.Arbitrary<number>) =>
  fc.array(fc.array(coordinate, { minLength: 9, maxLength: 9 }), { minLength: 2, maxLength: 14 });

/** One step of float32 up or down from a value of 1 to 4. */
const nudged = fc
  .tuple(fc.integer({ min: 1, max: 4 }), fc.integer({ min: -2, max: 2 }))
  .map(([v, steps]) => Math.fround(v + steps * 2 ** (Math.floor(Math.log2(v)) - 23)));

describe('crossing triangles are counted as whole-number arithmetic counts them', () => {
  it.each<[string, fc.Arbitrary<number>]>([
    ['on a grid of 2 × 2 × 2, all contacts and common corners', fc.integer({ min: 0, max: 2 })],
    ['on a grid of 5 × 5 × 5', fc.integer({ min: 0, max: 5 })],
    ['a step or two of float32 off a grid', nudged],
    [
      'one coordinate off a grid, the rest on it',
      fc.oneof({ weight: 6, arbitrary: fc.integer({ min: 1, max: 3 }) }, { weight: 1, arbitrary: nudged }),
    ],
    ['anywhere', fc.float({ min: -8, max: 8, noNaN: true }).map((v) => (Math.abs(v) < 1e-6 ? 0 : v))],
    ['far from the origin', fc.integer({ min: 0, max: 3 }).map((v) => Math.fround(1000 + v * 2 ** -14))],
  ])('%s (1000 soups, seed 414)', (_, coordinate) => {
    let found = 0;
    fc.assert(
      fc.property(soup(coordinate), (triangles) => {
        const { mine, exact } = bothCounts(triangles);
        expect(mine).toEqual(exact);
        found += exact[1]!;
      }),
      { numRuns: 1000, seed: 414 },
    );
    expect(found).toBeGreaterThan(1000);
  });
});
