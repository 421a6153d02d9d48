/** How long a part takes to freeze is its own: not how it lies among the cells, how finely it is meshed or how small cells are. */
import { beforeAll, describe, expect, test } from 'vitest';
import { type FreezeResult, mixedStart, runFreeze } from '../../../core/freeze/freeze.js';
import { gridOf, stretchedEdges } from '../../../core/freeze/grid.js';
import { fillShares } from '../../../core/freeze/voxels.js';
import { loadKernel } from '../../../core/solid/kernel.js';
import { measureBounds } from '../../../core/solid/mesh-bounds.js';
import type { Box, Kernel, Solid } from '../../../core/solid/types.js';
import { plaster } from '../../helpers/freeze-run.js';

let kernel: Kernel;
beforeAll(async () => {
  kernel = await loadKernel();
});

/** A tin bronze, from memory. */
const bronze = {
  density: 8e-3,
  solidus: 830,
  liquidus: 1000,
  latentHeat: 190,
  specificHeat: { solid: 0.4, liquid: 0.45 },
  conductivity: { solid: 0.06, liquid: 0.03 },
};

/** A round boss with a bore, a foot plate and a thin fin. mm. */
const bracket = (tolerance: number): Solid =>
  kernel
    .union([
      kernel.box([-14, -9, 0], [14, 9, 4]),
      kernel.frustum([0, 0], 0, 7, 16, 5, tolerance),
      kernel.box([-13, -0.75, 3], [13, 0.75, 11]),
    ])
    .subtract(kernel.frustum([0, 0], -1, 2, 17, 2, tolerance));

/** A wheel of ten round teeth with a hub. mm. */
const wheel = (tolerance: number): Solid =>
  kernel
    .union([
      kernel.frustum([0, 0], 0, 12, 5, 12, tolerance),
      kernel.frustum([0, 0], 0, 5, 10, 5, tolerance),
      ...Array.from({ length: 10 }, (_, i) =>
        kernel
          .frustum([0, 0], 0, 1.6, 5, 1.6, tolerance)
          .translate([12.6 * Math.cos(i * 0.2 * Math.PI), 12.6 * Math.sin(i * 0.2 * Math.PI), 0]),
      ),
    ])
    .subtract(kernel.frustum([0, 0], -1, 2.5, 11, 2.5, tolerance));

/** s until a part of bronze in a big block of plaster is solid. */
function freezeTime(make: () => Solid, step: number): FreezeResult {
  const mesh = kernel.scope(() => make().mesh());
  const { min, max } = measureBounds(mesh) as Box;
  const axis = (a: 0 | 1 | 2): Float64Array =>
    stretchedEdges([min[a] - 50, max[a] + 50], [min[a] - 2 * step, max[a] + 2 * step], step);
  const grid = gridOf(axis(0), axis(1), axis(2));
  const share = fillShares(mesh, grid, 4);
  return runFreeze({
    grid,
    share,
    metal: bronze,
    mould: plaster,
    contactResistance: 300,
    surroundings: { temperature: 400, convection: 0, emissivity: 0 },
    start: mixedStart({ share, metal: bronze, mould: plaster }, 1100, 400),
  });
}

/** mm: about a quarter of the parts' walls; the fin is thinner than two. */
const cell = 0.8;

describe.each([
  ['bracket with a fin', bracket],
  ['wheel', wheel],
] as const)('%s', (name, make) => {
  let plain: number;
  const off = (make: () => Solid, step = cell): number => {
    const { total, imbalance } = freezeTime(make, step);
    expect(imbalance).toBeLessThan(1e-3);
    return total / plain - 1;
  };
  const say = (what: string, change: number): void =>
    console.log(`${name}, ${what}: ${plain.toFixed(1)} s and ${(100 * change).toFixed(2)} %`);
  beforeAll(() => {
    plain = freezeTime(() => make(0.02), cell).total;
  });

  test.each(['x', 'y', 'z'] as const)('turned by 90° about %s: within 2 %', (axis) => {
    const change = off(() => make(0.02).rotate(axis, Math.PI / 2));
    say(`90° about ${axis}`, change);
    expect(Math.abs(change)).toBeLessThan(0.02);
  });

  test('meshed twice as finely: within 2 %', () => {
    const change = off(() => make(0.01));
    say('mesh of half the tolerance', change);
    expect(Math.abs(change)).toBeLessThan(0.02);
  });

  test('cells of 0.56 mm for 0.8 mm: within 2 %', () => {
    const change = off(() => make(0.02), 0.7 * cell);
    say('cells of 0.56 mm', change);
    expect(Math.abs(change)).toBeLessThan(0.02);
  });

  test('turned by 30° about z, so that no wall lies along the cells: within 2 %', () => {
    const change = off(() => make(0.02).rotate('z', Math.PI / 6));
    say('30° about z', change);
    expect(Math.abs(change)).toBeLessThan(0.02);
  });
});
