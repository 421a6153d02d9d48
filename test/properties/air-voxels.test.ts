import fc from 'fast-check';
import { beforeAll, expect, it } from 'vitest';
import { loadKernel } from '../../core/solid/index.js';
import type { Kernel, Mesh, Solid, Vec3 } from '../../core/solid/types.js';
import { expectAsFlooded } from '../helpers/expect-pockets.js';
import { leaning } from '../helpers/trap-shapes.js';

let kernel: Kernel;
beforeAll(async () => {
  kernel = await loadKernel();
});

const runs = Number(process.env.PATTERNWRIGHT_RUNS ?? 0) || 25;
const place = fc.record({
  x: fc.integer({ min: 0, max: 16 }),
  y: fc.integer({ min: 0, max: 8 }),
  z: fc.integer({ min: 0, max: 16 }),
});
const body = fc.record({
  kind: fc.constantFrom('box', 'sphere', 'slanted prism'),
  at: place,
  size: fc.integer({ min: 4, max: 9 }),
  turn: fc.integer({ min: -60, max: 60 }),
  axis: fc.constantFrom('x', 'y'),
});

type Body = typeof body extends fc.Arbitrary<infer T> ? T : never;
const solidOf = ({ kind, at, size, turn, axis }: Body, i: number): Solid => {
  // Off the grid, each in its own way, so that no two faces touch.
  const by: Vec3 = [at.x + i / 37, at.y + i / 41, at.z + i / 43];
  if (kind === 'sphere') return kernel.sphere([0, 0, 0], size / 1.6, 0.02).translate(by);
  const box = kernel.box([-size, -size / 2, -size / 3], [size, size / 2, size / 3]);
  return (kind === 'box' ? box : box.rotate(axis as 'x' | 'y', (turn * Math.PI) / 180)).translate(by);
};

/** Ways out narrower than a cell are not seen: where cells of 0.5 mm differ by more than their error, finer ones must not. */
function asFlooded(mesh: Mesh, up: Vec3): ReturnType<typeof expectAsFlooded> {
  try {
    return expectAsFlooded(mesh, { openHeight: 45, cell: 0.5, up, least: 60 });
  } catch {
    return expectAsFlooded(mesh, { openHeight: 45, cell: 0.2, up, least: 60 });
  }
}

it('random unions of boxes, spheres and slanted prisms, level and leaning: pockets as flooded (seed 733)', () => {
  const sums = { count: 0, volume: 0, flooded: 0 };
  fc.assert(
    fc.property(
      fc.array(body, { minLength: 5, maxLength: 9 }),
      fc.integer({ min: 0, max: 12 }),
      fc.integer({ min: 0, max: 359 }),
      (drawn, angle, azimuth) => {
        const mesh = kernel.scope(() => {
          const all = kernel.union(drawn.map(solidOf));
          const whole = all.components()[0]!;
          const { min, max } = whole.bounds();
          // A sprue let in from above where the body is lowest of five places, a cell and more clear of all beside it.
          const tops = [0.5, 0.3, 0.7, 0.1, 0.9].flatMap((f) => {
            const [x, y] = [min[0] + f * (max[0] - min[0]), min[1] + f * (max[1] - min[1])];
            const met = kernel.frustum([x, y], min[2] - 1, 2.4, max[2] + 12, 2.4, 0.02).intersect(whole);
            return met.isEmpty() ? [] : [{ x, y, z: met.bounds().max[2] - 1 }];
          });
          const lowest = tops.sort((p, q) => p.z - q.z)[0];
          if (!lowest) return null;
          const { x, y, z } = lowest;
          return whole.add(kernel.frustum([x, y], z, 1.6, 45, 1.6, 0.02)).mesh();
        });
        fc.pre(mesh !== null);
        const up = leaning((angle * Math.PI) / 180, (azimuth * Math.PI) / 180);
        const found = asFlooded(mesh!, up);
        for (const key of ['count', 'volume', 'flooded'] as const) sums[key] += found[key];
      },
    ),
    { seed: 733, numRuns: runs, endOnFailure: true },
  );
  expect(sums.count).toBeGreaterThan(runs / 2);
  expect(Math.abs(sums.flooded / sums.volume - 1)).toBeLessThan(0.03);
});
