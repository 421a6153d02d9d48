/**
 * Chvorinov's rule (N. Chvorinov, Giesserei 27, 1940): castings of one alloy in one mould freeze in t = B (V/A)². His
 * points, from small bars to ingots of 65 t, lie within about a quarter of one line (from memory). By theory B is less for
 * round bodies, whose heat spreads out in the mould: as 0.71 : 1 for sphere and plate of aluminium in cold sand, but as
 * 0.43 : 1 in a hot plaster mould (Poirier and Geiger; Flemings; exact for metal of one temperature): there V/A alone
 * does not tell.
 */
import { beforeAll, describe, expect, test } from 'vitest';
import { freezingFactor } from '../../../core/foundry/gating/freezing.js';
import { mixedStart, runFreeze } from '../../../core/freeze/freeze.js';
import { gridOf, stretchedEdges } from '../../../core/freeze/grid.js';
import type { HeatProblem } from '../../../core/freeze/heat-problem.js';
import type { FreezingMetal, MouldSubstance } from '../../../core/freeze/substance.js';
import { fillShares } from '../../../core/freeze/voxels.js';
import { loadKernel } from '../../../core/solid/kernel.js';
import type { Kernel, Solid } from '../../../core/solid/types.js';
import { rootBetween, takenIn } from '../../helpers/freeze-exact.js';
import { aluminium, one, plaster, sand } from '../../helpers/freeze-run.js';

let kernel: Kernel;
beforeAll(async () => {
  kernel = await loadKernel();
});

/** From memory, freezing over 10 K so that the metal's temperature is about one. */
const bronze: FreezingMetal = {
  density: 7.5e-3,
  solidus: 1030,
  liquidus: 1040,
  latentHeat: 230,
  specificHeat: { solid: 0.45, liquid: 0.5 },
  conductivity: { solid: 0.06, liquid: 0.04 },
};

/** Body in half its thickness or its radius; which axes it runs along without end; V/A; its kin in theory. */
interface Shape {
  readonly make: (half: number) => Solid;
  readonly endless: readonly (0 | 1 | 2)[];
  readonly modulus: number;
  readonly kin?: 'plate' | 'cylinder' | 'sphere';
}
const long = 1e3;
const box = (x: number, y: number, z: number): Solid => kernel.box([-x, -y, -z], [x, y, z]);
const shapes: Readonly<Record<string, Shape>> = {
  'endless plate': { make: (h) => box(long, long, h), endless: [0, 1], modulus: 1, kin: 'plate' },
  'plate 4 × 4 × 1': { make: (h) => box(4 * h, 4 * h, h), endless: [], modulus: 2 / 3 },
  'square bar': { make: (h) => box(h, h, long), endless: [2], modulus: 1 / 2 },
  'round bar': {
    make: (h) => kernel.frustum([0, 0], -long, h, long, h, 0.01),
    endless: [2],
    modulus: 1 / 2,
    kin: 'cylinder',
  },
  cube: { make: (h) => box(h, h, h), endless: [], modulus: 1 / 3 },
  sphere: { make: (h) => kernel.sphere([0, 0, 0], h, 0.01), endless: [], modulus: 1 / 3, kin: 'sphere' },
};

interface Pair {
  readonly metal: FreezingMetal;
  readonly mould: MouldSubstance;
  readonly cold: number;
  /** mm: the V/A that are cast. */
  readonly moduli: readonly number[];
  /** Mould about the casting, in V/A. */
  readonly reach: number;
  /** Cells in half a thickness: of the least casting, its bigger kin having more; or of every one. */
  readonly cells: number;
  readonly ofEvery?: boolean;
}
const pairs: Readonly<Record<string, Pair>> = {
  'aluminium in sand at 25 °C': {
    metal: aluminium,
    mould: sand,
    cold: 25,
    moduli: [6, 11],
    reach: 5,
    cells: 8,
    ofEvery: true,
  },
  'bronze in plaster at 400 °C': {
    metal: bronze,
    mould: plaster,
    cold: 400,
    moduli: [2, 2.7, 3.7],
    reach: 16,
    cells: 5,
  },
};

const freezeTime = (pair: Pair, { make, endless, modulus }: Shape, size: number): number => {
  const { metal, mould, cold, moduli, reach, cells, ofEvery } = pair;
  const half = size / modulus;
  const cell = (ofEvery ? size : moduli[0]!) / modulus / cells;
  const mesh = kernel.scope(() => make(half).mesh());
  const bounds = kernel.scope(() => make(half).bounds());
  const axis = (a: 0 | 1 | 2): Float64Array => {
    if (endless.includes(a)) return one;
    const h = bounds.max[a];
    const far = h + reach * size;
    return stretchedEdges([-far, far], [-h - 2 * cell, h + 2 * cell], cell);
  };
  const grid = gridOf(axis(0), axis(1), axis(2));
  const share = fillShares(mesh, grid, 5);
  const problem: HeatProblem = {
    grid,
    share,
    metal,
    mould,
    contactResistance: 0,
    surroundings: { temperature: cold, convection: 0, emissivity: 0 },
    shut: endless,
    start: mixedStart({ share, metal, mould }, metal.liquidus, cold),
  };
  // Shorter steps than usual: by those a big ball of pure metal comes 2 % late.
  const { total, imbalance } = runFreeze(problem, { stepShare: 0.035, heatShare: 0.0035 });
  expect(imbalance).toBeLessThan(1e-3);
  return total;
};

/** Slope and intercept of a straight line through points, least squares. */
const lineThrough = (points: readonly (readonly [number, number])[]): readonly [number, number] => {
  const n = points.length;
  const [mx, my] = [0, 1].map((k) => points.reduce((sum, p) => sum + p[k as 0]!, 0) / n) as [number, number];
  const slope =
    points.reduce((sum, [x, y]) => sum + (x - mx) * (y - my), 0) /
    points.reduce((sum, [x]) => sum + (x - mx) ** 2, 0);
  return [slope, my - slope * mx];
};

describe.each(Object.entries(pairs))('%s', (_, pair) => {
  const { metal, mould, cold, moduli } = pair;
  const drop = (metal.solidus + metal.liquidus) / 2 - cold;
  const heat =
    metal.density *
    (metal.latentHeat +
      ((metal.specificHeat.solid + metal.specificHeat.liquid) / 2) * (metal.liquidus - metal.solidus));
  const plain = { conductivity: mould.conductivity, capacity: mould.density * mould.specificHeat };
  const rows: { name: string; shape: Shape; times: readonly number[] }[] = [];
  beforeAll(() => {
    for (const [name, shape] of Object.entries(shapes))
      rows.push({ name, shape, times: moduli.map((m) => freezeTime(pair, shape, m)) });
    const table = rows.map(({ name, shape, times }) => ({
      shape: name,
      exponent: lineThrough(times.map((t, i) => [Math.log(moduli[i]!), Math.log(t)]))[0].toFixed(3),
      'B, s/mm²': (times[1]! / moduli[1]! ** 2).toFixed(2),
      'by theory': shape.kin ? theory(shape.kin, shape.modulus).toFixed(2) : '',
    }));
    console.table(table);
  });

  /** B, s/mm², of a metal at one temperature. */
  const theory = (kin: 'plate' | 'cylinder' | 'sphere', share: number): number =>
    rootBetween((t) => takenIn(plain, kin, 1 / share, t) * drop - heat, 1e-3, 1e4);

  test('every shape by itself goes with the square of V/A, exponent within 0.05 of 2', () => {
    for (const { name, times } of rows) {
      const [exponent] = lineThrough(times.map((t, i) => [Math.log(moduli[i]!), Math.log(t)]));
      expect(Math.abs(exponent - 2), `${name}: ${exponent}`).toBeLessThan(0.05);
    }
  });

  test('plate, round bar and sphere take the time of theory, or up to 6 % more: its metal conducts without end', () => {
    for (const { name, shape, times } of rows)
      if (shape.kin)
        for (const [i, t] of times.entries()) {
          const ratio = t / (theory(shape.kin, shape.modulus) * moduli[i]! ** 2);
          expect(ratio, `${name} of V/A ${moduli[i]}`).toBeGreaterThan(0.99);
          expect(ratio, `${name} of V/A ${moduli[i]}`).toBeLessThan(1.06);
        }
  });

  test('the endless plate has the B that gating reckons with, within 4 %', () => {
    const factor = freezingFactor({
      density: metal.density * 1e6,
      latentHeat: (heat / metal.density) * 1e3,
      liquidHeat: 0,
      superheat: 0,
      freezingTemperature: cold + drop,
      mouldTemperature: cold,
      mouldConductivity: mould.conductivity * 1e3,
      mouldDensity: mould.density * 1e6,
      mouldHeat: mould.specificHeat * 1e3,
    });
    expect(rows[0]!.times[1]! / (factor * moduli[1]! ** 2)).toBeGreaterThan(0.96);
    expect(rows[0]!.times[1]! / (factor * moduli[1]! ** 2)).toBeLessThan(1.04);
  });

  test('what holds more metal about the same middle freezes later: sphere in cube, round bar in square bar', () => {
    const time = (name: string): number => rows.find((r) => r.name === name)!.times[1]!;
    expect(time('sphere')).toBeLessThan(time('cube'));
    expect(time('round bar')).toBeLessThan(time('square bar'));
    expect(time('sphere')).toBeLessThan(time('round bar'));
    expect(time('round bar')).toBeLessThan(time('endless plate'));
  });

  const scatter = mould === sand ? 0.25 : 0.6;
  test(`all shapes together: exponent within 0.05 of 2, every casting within ${100 * scatter} % of one B`, () => {
    const points = rows.flatMap(({ times }) =>
      times.map((t, i) => [Math.log(moduli[i]!), Math.log(t)] as const),
    );
    const [exponent] = lineThrough(points);
    const mean = points.reduce((sum, [m, t]) => sum + t - 2 * m, 0) / points.length;
    console.log(`all together: exponent ${exponent.toFixed(3)}, B ${Math.exp(mean).toFixed(2)} s/mm²`);
    expect(Math.abs(exponent - 2)).toBeLessThan(0.05);
    for (const [m, t] of points) expect(Math.abs(Math.exp(t - 2 * m - mean) - 1)).toBeLessThan(scatter);
  });
});
