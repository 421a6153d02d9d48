/**
 * Bodies that cool without freezing, against the one-term solutions (M. P. Heisler, 1947; Incropera, Fundamentals of Heat
 * and Mass Transfer, Table 5.1) and against lumped cooling (the same, eqs. 5.6 and 5.18), 1 %. Cylinder and sphere lie in
 * the square grid with cut cells under a film of 1/h between metal and a mould that is as good as a held temperature, so
 * this is also what proves that a curved surface has its true area.
 */
import { beforeAll, describe, expect, test } from 'vitest';
import { evenEdges, gridOf } from '../../../core/freeze/grid.js';
import type { HeatProblem } from '../../../core/freeze/heat-problem.js';
import { insideCylinder } from '../../../core/freeze/mould-block.js';
import { fillShares } from '../../../core/freeze/voxels.js';
import { loadKernel } from '../../../core/solid/kernel.js';
import type { Kernel } from '../../../core/solid/types.js';
import { barOf, conductor, held, noMould, one, type Run, startRun } from '../../helpers/freeze-run.js';

let kernel: Kernel;
beforeAll(async () => {
  kernel = await loadKernel();
});

/** mm: half thickness or radius. α = 50 mm²/s: Fo 1 takes 2 s. */
const size = 10;
const fourier = size ** 2 / 50;

/** ζ and C by Biot's number. */
type Terms = readonly (readonly [biot: number, zeta: number, c: number])[];
const slabTerms: Terms = [
  [0.1, 0.3111, 1.0161],
  [1, 0.8603, 1.1191],
  [10, 1.4289, 1.262],
  [Number.POSITIVE_INFINITY, 1.5708, 1.2732],
];
const cylinderTerms: Terms = [
  [0.1, 0.4417, 1.0246],
  [1, 1.2558, 1.2071],
  [10, 2.1795, 1.5677],
  [Number.POSITIVE_INFINITY, 2.4048, 1.602],
];
const sphereTerms: Terms = [
  [0.1, 0.5423, 1.0298],
  [1, 1.5708, 1.2732],
  [10, 2.8363, 1.9249],
  [Number.POSITIVE_INFINITY, Math.PI, 2],
];

/** At the middle, of the first excess over the surroundings, against the one-term solution. */
const checkMiddle = (run: Run, middle: number, zeta: number, c: number): void => {
  for (const fo of zeta < 1 ? [1.5, 2, 3] : [0.25, 0.4]) {
    run.to(fo * fourier, (0.003 * fourier) / zeta ** 2);
    const theta = run.field.temperature[middle]! / 100;
    const ratio = theta / (c * Math.exp(-(zeta ** 2) * fo));
    expect(Math.abs(ratio - 1)).toBeLessThan(0.01);
  }
  expect(run.imbalance()).toBeLessThan(1e-3);
};

const bare = { metal: conductor, mould: noMould };
const outside = (convection: number) => ({ temperature: 0, convection, emissivity: 0 });

describe('excess at the middle, C exp(−ζ² Fo), within 1 %', () => {
  test.each(slabTerms)('slab, Bi = %s', (biot, zeta, c) => {
    const n = 41;
    const film = Math.min(held, (0.05 * biot) / size);
    const run = startRun(
      barOf(evenEdges(0, 2 * size, n), {
        ...bare,
        surroundings: outside(film),
        start: new Float32Array(n).fill(100),
      }),
    );
    checkMiddle(run, (n - 1) / 2, zeta, c);
  });

  /** A round body with `n` cells a radius, in a mould that is all surroundings. */
  const round = (shape: 'cylinder' | 'sphere', biot: number, n: number): { run: Run; middle: number } => {
    const count = 2 * n + 5;
    const reach = (size * count) / (2 * n);
    const edges = evenEdges(-reach, reach, count);
    const grid = gridOf(edges, edges, shape === 'sphere' ? edges : one);
    const mesh = kernel.scope(() =>
      (shape === 'sphere'
        ? kernel.sphere([0, 0, 0], size, 0.004)
        : kernel.frustum([0, 0], -1, size, 2, size, 0.004)
      ).mesh(),
    );
    const share = fillShares(mesh, grid, 5);
    const problem: HeatProblem = {
      ...bare,
      grid,
      share,
      contactResistance: Number.isFinite(biot) ? size / (0.05 * biot) : 0,
      surroundings: outside(held),
      shut: shape === 'sphere' ? [] : [2],
      start: share.map((s) => (s > 0 ? 100 : 0)),
    };
    return { run: startRun(problem), middle: (grid.size - 1) / 2 };
  };
  test.each(cylinderTerms)('cylinder, Bi = %s', (biot, zeta, c) => {
    const { run, middle } = round('cylinder', biot, 20);
    checkMiddle(run, middle, zeta, c);
  });
  test.each(sphereTerms)('sphere, Bi = %s', (biot, zeta, c) => {
    // Least film, most of it inside the cut cells; none, all of their heat gone at once: both shrink with the cells.
    const { run, middle } = round('sphere', biot, biot === 0.1 || biot > 10 ? 22 : 15);
    checkMiddle(run, middle, zeta, c);
  });
});

describe('lumped cooling of a 4 mm cube in open air, within 1 %', () => {
  const edges = evenEdges(-2, 6, 8);
  const grid = gridOf(edges, edges, edges);
  const present = Uint8Array.from({ length: grid.size }, (_, c) => {
    const at = [c % 8, Math.floor(c / 8) % 8, Math.floor(c / 64)];
    return at.every((i) => i >= 2 && i < 6) ? 1 : 0;
  });
  const cube = (convection: number, emissivity: number): Run =>
    startRun({
      grid,
      present,
      share: Float32Array.from(present),
      metal: { ...conductor, conductivity: { solid: 0.4, liquid: 0.4 } },
      mould: noMould,
      contactResistance: 0,
      surroundings: { temperature: 20, convection, emissivity },
      start: new Float32Array(grid.size).fill(400),
    });
  const middle = 3 + 8 * (3 + 8 * 3);
  // ρ c V/A, J/(mm²·K).
  const store = (1e-3 * 4) / 6;

  test('by moving air, Bi = 0.003: exp(−h A t/ρcV)', () => {
    const film = 3e-4;
    const run = cube(film, 0);
    for (const time of [0.5, 1, 2, 4]) {
      run.to(time, 0.004);
      const exact = Math.exp((-film * time) / store);
      expect((run.field.temperature[middle]! - 20) / 380 / exact).toBeCloseTo(1, 2);
    }
    expect(run.imbalance()).toBeLessThan(1e-3);
  });

  test('of an upright cylinder in stairs, its sides as π/4 of the cells’ faces: exp(−h A t/ρcV)', () => {
    const side = evenEdges(-5, 5, 24);
    const flask = gridOf(side, side, evenEdges(0, 10, 4));
    const within = insideCylinder(flask);
    const film = 3e-4;
    const run = startRun({
      grid: flask,
      present: within,
      share: Float32Array.from(within),
      metal: { ...conductor, conductivity: { solid: 0.4, liquid: 0.4 } },
      mould: noMould,
      contactResistance: 0,
      surroundings: { temperature: 20, convection: film, emissivity: 0 },
      exposed: [Math.PI / 4, Math.PI / 4, 1],
      start: new Float32Array(flask.size).fill(400),
    });
    // V/A of a cylinder as high as wide is D/6.
    for (const time of [1, 3, 6]) {
      run.to(time, 0.01);
      const exact = Math.exp((-film * time) / ((1e-3 * 10) / 6));
      const t = run.field.temperature[12 + 24 * (12 + 24 * 2)]!;
      expect((t - 20) / 380 / exact).toBeCloseTo(1, 2);
    }
    expect(run.imbalance()).toBeLessThan(1e-3);
  });

  test('by radiation alone: time to fall to 300, 200, 100 and 50 °C (Incropera, eq. 5.18)', () => {
    const run = cube(0, 0.8);
    const around = 293.15;
    const exact = (celsius: number): number => {
      const [t, t0] = [celsius + 273.15, 673.15];
      const log = (x: number): number => Math.log(Math.abs((around + x) / (around - x)));
      return (
        (store / (4 * 0.8 * 5.670374e-14 * around ** 3)) *
        (log(t) - log(t0) + 2 * (Math.atan(t / around) - Math.atan(t0 / around)))
      );
    };
    let before = 400;
    const due = [300, 200, 100, 50];
    const seen: number[] = [];
    while (due.length > seen.length) {
      const step = 0.2;
      run.to(run.field.time + step, step);
      const now = run.field.temperature[middle]!;
      for (const t of due.slice(seen.length))
        if (now <= t) seen.push((run.field.time - (step * (t - now)) / (before - now)) / exact(t));
      before = now;
    }
    for (const ratio of seen) expect(ratio).toBeCloseTo(1, 2);
    expect(run.imbalance()).toBeLessThan(1e-3);
  });
});
