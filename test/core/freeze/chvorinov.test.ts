/** Chvorinov's rule (Giesserei 27, 1940): castings of one alloy in one mould freeze in t = B (V/A)². */
import { beforeAll, describe, expect, test } from 'vitest';
import { mixedStart, runFreeze } from '../../../core/freeze/freeze.js';
import { gridOf, stretchedEdges } from '../../../core/freeze/grid.js';
import type { FreezingMetal } from '../../../core/freeze/substance.js';
import { fillShares } from '../../../core/freeze/voxels.js';
import { loadKernel } from '../../../core/solid/kernel.js';
import type { Kernel, Mesh, Vec3 } from '../../../core/solid/types.js';

let kernel: Kernel;
beforeAll(async () => {
  kernel = await loadKernel();
});

/** A bronze, all figures from memory, and plaster as the handbooks give it. */
const bronze: FreezingMetal = {
  density: 8e-3,
  solidus: 850,
  liquidus: 1000,
  latentHeat: 200,
  specificHeat: { solid: 0.38, liquid: 0.46 },
  conductivity: { solid: 0.05, liquid: 0.03 },
};
const plaster = { density: 1.1e-3, specificHeat: 0.84, conductivity: 0.35e-3 };

const freezeTime = (mesh: Mesh, half: Vec3, step: number): { total: number; imbalance: number } => {
  const far = 60;
  const axis = (h: number) => stretchedEdges([-h - far, h + far], [-h - step, h + step], step);
  const grid = gridOf(axis(half[0]), axis(half[1]), axis(half[2]));
  const share = fillShares(mesh, grid);
  const start = mixedStart({ share, metal: bronze, mould: plaster }, 1000, 400);
  const t = Date.now();
  const r = runFreeze({
    grid,
    share,
    metal: bronze,
    mould: plaster,
    contactResistance: 0,
    surroundings: { temperature: 400, convection: 0, emissivity: 0 },
    start,
  });
  console.log(grid.counts.join('x'), r.steps, 'steps', Date.now() - t, 'ms', r.total.toFixed(1), 's');
  return r;
};

describe('shapes', () => {
  test('spheres, cubes, plates and bars', () => {
    const rows: [string, number, number][] = [];
    const add = (name: string, make: () => Mesh, half: Vec3, modulus: number): void => {
      const { total, imbalance } = freezeTime(kernel.scope(make), half, Math.min(...half) / 5);
      expect(imbalance).toBeLessThan(1e-4);
      rows.push([name, modulus, total / modulus ** 2]);
    };
    for (const d of [10, 20]) {
      add(`sphere ${d}`, () => kernel.sphere([0, 0, 0], d / 2, 0.02).mesh(), [d / 2, d / 2, d / 2], d / 6);
      add(
        `cube ${d}`,
        () => kernel.box([-d / 2, -d / 2, -d / 2], [d / 2, d / 2, d / 2]).mesh(),
        [d / 2, d / 2, d / 2],
        d / 6,
      );
    }
    add(
      'plate',
      () => kernel.box([-20, -20, -2.5], [20, 20, 2.5]).mesh(),
      [20, 20, 2.5],
      (40 * 40 * 5) / (2 * 1600 + 4 * 200),
    );
    console.log(
      rows.map((r) => r.map((v) => (typeof v === 'number' ? v.toFixed(2) : v)).join(' ')).join('\n'),
    );
  }, 120_000);
});
