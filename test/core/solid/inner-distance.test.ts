import { beforeAll, describe, expect, test } from 'vitest';
import { measureInnerDistances } from '../../../core/solid/inner-distance.js';
import { loadKernel } from '../../../core/solid/kernel.js';
import type { Kernel, Solid, Vec3 } from '../../../core/solid/types.js';

let kernel: Kernel;
beforeAll(async () => {
  kernel = await loadKernel();
});

const farthestFrom = (make: () => Solid, at: Vec3): number => {
  const mesh = kernel.scope(() => make().mesh());
  return Math.max(...(measureInnerDistances(mesh, [at])[0] as Float64Array).filter(Number.isFinite));
};

/** Shortest paths on 26 neighbours are at most 9 % too long (Borgefors, 1986); cells are a thirtieth of the size. */
const within = (found: number, exact: number, size: number): void => {
  expect(found).toBeGreaterThan(exact - size / 15);
  expect(found).toBeLessThan(1.09 * exact + size / 15);
};

describe('distances through the metal, against lengths known in closed form', () => {
  test('a bar, from one end and from its middle', () => {
    const bar = (): Solid => kernel.box([0, -5, 0], [120, 5, 10]);
    within(farthestFrom(bar, [0, 0, 5]), Math.hypot(120, 5, 5), 120);
    within(farthestFrom(bar, [60, 0, 10]), Math.hypot(60, 5, 10), 120);
  });

  test('a block, along its diagonal', () => {
    within(
      farthestFrom(() => kernel.box([0, 0, 0], [50, 50, 50]), [0, 0, 0]),
      Math.hypot(50, 50, 50),
      50,
    );
  });

  test('a ring: half round, never across the hole', () => {
    const ring = (): Solid =>
      kernel.frustum([0, 0], 0, 50, 8, 50, 0.05).subtract(kernel.frustum([0, 0], -1, 42, 9, 42, 0.05));
    // The shortest way hugs the inner wall.
    within(farthestFrom(ring, [46, 0, 8]), Math.PI * 42, 100);
  });

  test('a comb’s far tooth is reached along its back; a wall thinner than a cell is not lost', () => {
    const comb = (): Solid =>
      kernel.union([
        kernel.box([0, 0, 0], [100, 10, 5]),
        kernel.box([0, 9, 0], [1, 60, 5]),
        kernel.box([99, 9, 0], [100, 60, 5]),
      ]);
    within(farthestFrom(comb, [0.5, 60, 2.5]), 50 + 98 + 50, 100);
  });

  test('what stands apart is at Infinity', () => {
    const mesh = kernel.scope(() =>
      kernel.union([kernel.box([0, 0, 0], [10, 10, 10]), kernel.box([40, 0, 0], [50, 10, 10])]).mesh(),
    );
    const [distances] = measureInnerDistances(mesh, [[5, 5, 5]]);
    expect(
      [...(distances as Float64Array)].filter((d) => d === Number.POSITIVE_INFINITY).length,
    ).toBeGreaterThan(10);
  });
});
