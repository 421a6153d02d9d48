/** How errors shrink as cells and steps are halved: orders are measured, stand in the titles, and are held to a band. */
import { beforeAll, describe, expect, test } from 'vitest';
import { mixedStart, runFreeze } from '../../../core/freeze/freeze.js';
import { evenEdges, gridOf, stretchedEdges } from '../../../core/freeze/grid.js';
import { fillShares } from '../../../core/freeze/voxels.js';
import { loadKernel } from '../../../core/solid/kernel.js';
import type { Kernel } from '../../../core/solid/types.js';
import { erf, neumannRoot, rootBetween, takenIn } from '../../helpers/freeze-exact.js';
import { aluminium, barOf, conductor, held, plaster, startRun } from '../../helpers/freeze-run.js';

/** log2 of how much each difference of neighbours is smaller than the one before. */
const ordersOf = (values: readonly number[]): number[] => {
  const changes = values.slice(1).map((v, i) => Math.abs(v - values[i]!));
  return changes.slice(1).map((v, i) => Math.log2(changes[i]! / v));
};
const told = (orders: readonly number[]): string => orders.map((v) => v.toFixed(2)).join(', ');

/** What is left after 0.8 s of a cosine wave of 50 K over a block 20 mm long, in one or three directions. */
function waveLeft(axes: 1 | 3, cells: number, step: number): number {
  const edges = evenEdges(0, 20, cells);
  const bar = barOf(edges, {
    metal: { ...conductor, solidus: 100, liquidus: 200, latentHeat: 0 },
    shut: [0, 1, 2],
  });
  const grid = axes === 1 ? bar.grid : gridOf(edges, edges, edges);
  const wave = Float64Array.from({ length: grid.size }, (_, c) => {
    let product = 1;
    for (let a = 0, rest = c; a < axes; a++, rest = Math.floor(rest / cells))
      product *= Math.cos((Math.PI * ((rest % cells) + 0.5)) / cells);
    return product;
  });
  const run = startRun({
    ...bar,
    grid,
    share: new Float32Array(grid.size).fill(1),
    start: Float32Array.from(wave, (w) => 50 * w),
  });
  run.to(0.8, step);
  let sum = 0;
  for (const [c, w] of wave.entries()) sum += w * run.field.temperature[c]!;
  return sum / wave.reduce((all, w) => all + w * w, 0);
}

describe('a wave that dies away', () => {
  const inSpace = ordersOf([5, 10, 20, 40].map((n) => waveLeft(1, n, 0.004)));
  test(`order in space: ${told(inSpace)} as cells are halved thrice`, () => {
    for (const order of inSpace) expect(Math.abs(order - 2)).toBeLessThan(0.1);
  });

  const inTime = ordersOf([0.16, 0.08, 0.04, 0.02].map((step) => waveLeft(1, 20, step)));
  test(`order in time: ${told(inTime)} as steps are halved thrice`, () => {
    for (const order of inTime) expect(Math.abs(order - 1)).toBeLessThan(0.15);
  });

  const split = ordersOf([0.16, 0.08, 0.04, 0.02].map((step) => waveLeft(3, 10, step)));
  test(`order in time in three directions, one after the other: ${told(split)}`, () => {
    for (const order of split) expect(Math.abs(order - 1)).toBeLessThan(0.15);
  });

  const exact = 50 * Math.exp(-50 * (Math.PI / 20) ** 2 * 0.8);
  const off = waveLeft(1, 40, 0.0005) / exact - 1;
  test(`and what is left is exp(−α (π/L)² t): off by ${(100 * off).toFixed(2)} %`, () => {
    expect(Math.abs(off)).toBeLessThan(0.002);
  });
});

describe('heat given to a wall at 300 °C by freezing aluminium in 10 s (Neumann)', () => {
  const plain = { conductivity: 0.211, capacity: 2.385e-3 * 1.181 };
  const diffusivity = plain.conductivity / plain.capacity;
  const root = neumannRoot(
    { solid: plain, liquid: plain, latent: 397 * 2.385e-3, melting: 660.25, poured: 660.25 },
    300,
  );
  const exact =
    (((2 * plain.conductivity * 360.25) / erf(root)) * Math.sqrt(10)) / Math.sqrt(Math.PI * diffusivity);
  const off = [25, 50, 100, 200].map((n) => {
    const run = startRun(
      barOf(evenEdges(0, 100, n), {
        surroundings: { temperature: 300, convection: held, emissivity: 0 },
        start: new Float32Array(n).fill(660.25),
      }),
    );
    run.growing(10, 0.0005, 0.001);
    // Half of it leaves by the other end.
    return run.field.lost / 2 / exact - 1;
  });
  const orders = off.slice(1).map((v, i) => Math.log2(Math.abs(off[i]! / v)));
  test(`cells of 4, 2, 1, 0.5 mm: off by ${off.map((v) => (100 * v).toFixed(2)).join(', ')} %: order ${told(orders)}`, () => {
    expect(Math.abs(off[3]!)).toBeLessThan(0.01);
    // The front hops from cell to cell: over all three halvings at least the first order.
    expect(Math.log2(Math.abs(off[0]! / off[3]!)) / 3).toBeGreaterThan(0.8);
  });
});

describe('a sphere of 10 mm in plaster, metal at one temperature, anyhow among the cells', () => {
  let kernel: Kernel;
  beforeAll(async () => {
    kernel = await loadKernel();
  });
  const metal = {
    ...aluminium,
    solidus: 659.25,
    conductivity: { solid: 2, liquid: 2 },
  };
  const capacity = plaster.density * plaster.specificHeat;
  const heat = (metal.density * (397 + 1.181) * 5) / 3;
  const exact = rootBetween(
    (t) => takenIn({ conductivity: plaster.conductivity, capacity }, 'sphere', 5, t) * 359.75 - heat,
    0.1,
    1e4,
  );
  const timeOf = (cell: number): number => {
    const axis = (shift: number): Float64Array =>
      stretchedEdges([-60 + shift, 60 + shift], [-5 - 2 * cell + shift, 5 + 2 * cell + shift], cell);
    const grid = gridOf(axis(0.13 * cell), axis(0.31 * cell), axis(-0.22 * cell));
    const share = fillShares(
      kernel.scope(() => kernel.sphere([0, 0, 0], 5, 0.005).mesh()),
      grid,
      5,
    );
    const { total, imbalance } = runFreeze({
      grid,
      share,
      metal,
      mould: plaster,
      contactResistance: 0,
      surroundings: { temperature: 300, convection: 0, emissivity: 0 },
      start: mixedStart({ share, metal, mould: plaster }, 660.25, 300),
    });
    expect(imbalance).toBeLessThan(1e-3);
    return total;
  };
  test('time to freeze by cells of 2, 1 and 0.5 mm against heat = k ΔT (2 √(t/πα) + t/R): order between 1.2 and 2.2', () => {
    const off = [2, 1, 0.5].map((cell) => timeOf(cell) / exact - 1);
    const order = Math.log2(off[0]! / off[2]!) / 2;
    console.log(
      `sphere of 10 mm in plaster, ${exact.toFixed(2)} s: off by ${off.map((v) => (100 * v).toFixed(1)).join(', ')} %, order ${order.toFixed(2)}`,
    );
    expect(order).toBeGreaterThan(1.2);
    expect(order).toBeLessThan(2.2);
    expect(Math.abs(off[1]!)).toBeLessThan(0.08);
    expect(Math.abs(off[2]!)).toBeLessThan(0.025);
  });
});
