import fc from 'fast-check';
import { beforeAll, expect, it } from 'vitest';
import { findPockets } from '../../core/foundry/air/pockets.js';
import { loadKernel } from '../../core/solid/index.js';
import type { Kernel, Vec3 } from '../../core/solid/types.js';
import { type FloodBox, floodPockets } from '../helpers/box-flood.js';

let kernel: Kernel;
beforeAll(async () => {
  kernel = await loadKernel();
});

const side = fc.tuple(fc.integer({ min: 0, max: 20 }), fc.integer({ min: 2, max: 12 }));
const anyBox = fc.record({ x: side, y: side, z: side, cut: fc.boolean() });
const runs = Number(process.env.PATTERNWRIGHT_RUNS ?? 0) || 150;

/** Every box a little off the grid in its own way, so that no two faces touch. */
const boxesOf = (drawn: readonly { x: number[]; y: number[]; z: number[]; cut: boolean }[]): FloodBox[] => [
  ...drawn.map(({ x, y, z, cut }, i): FloodBox => {
    const off = (i + 1) / 64;
    const [x0, y0, z0] = [x[0]! + off, y[0]! + off, z[0]! + off];
    return { min: [x0, y0, z0], max: [x0 + x[1]!, y0 + y[1]!, z0 + z[1]!], cut: cut && i > 0 };
  }),
  { min: [9.25, 9.25, 5.25], max: [11.375, 11.375, 50], cut: false },
];

it('random boxes, added and cut: each pocket and its volume as a flood of cells has them (seed 505)', () => {
  let withPockets = 0;
  fc.assert(
    fc.property(fc.array(anyBox, { minLength: 2, maxLength: 9 }), (drawn) => {
      const boxes = boxesOf(drawn);
      const mesh = kernel.scope(() => {
        let solid = kernel.box(boxes[0]!.min as Vec3, boxes[0]!.max as Vec3);
        for (const b of boxes.slice(1)) {
          const box = kernel.box(b.min as Vec3, b.max as Vec3);
          if (!b.cut) solid = solid.add(box);
          else if (!box.intersect(solid).isEmpty()) {
            const outside = solid.intersect(kernel.box([-9, -9, -9], [60, 60, 60]));
            // A cut that takes everything away leaves nothing to go on with.
            if (
              b.min.every((m, k) => m <= outside.bounds().min[k]!) &&
              b.max.every((m, k) => m >= outside.bounds().max[k]!)
            )
              return null;
            solid = solid.subtract(box);
          }
        }
        return solid.mesh();
      });
      fc.pre(mesh !== null);
      const found = findPockets(mesh!, { openHeight: 49.9, least: 0.01 });
      const wanted = floodPockets(boxes, 49.9).filter((v) => v >= 0.01);
      if (wanted.length > 0) withPockets++;
      expect(found.pockets.length).toBe(wanted.length);
      for (const [i, p] of found.pockets.entries()) expect(p.volume / wanted[i]!).toBeCloseTo(1, 4);
    }),
    { seed: 505, numRuns: runs },
  );
  expect(withPockets).toBeGreaterThan(runs / 4);
});
