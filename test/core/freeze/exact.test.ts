/** The solver against exact solutions of conduction and freezing. */
import { describe, expect, test } from 'vitest';
import { evenEdges, gridOf, stretchedEdges } from '../../../core/freeze/grid.js';
import { type HeatProblem, heatInField, startField, stepField } from '../../../core/freeze/heat-field.js';
import type { FreezingMetal } from '../../../core/freeze/substance.js';

const one = Float64Array.of(0, 1);
/** As good as a surface held at a temperature, W/(mm²·K). */
const held = 1e3;
const plain = { density: 1e-3, specificHeat: 1, conductivity: 1e-3 };

/** Aluminium at its melting point (Incropera, Table A.1, from memory), phases alike. */
const aluminium: FreezingMetal = {
  density: 2.385e-3,
  solidus: 660.3,
  liquidus: 660.3,
  latentHeat: 397,
  specificHeat: { solid: 1.181, liquid: 1.181 },
  conductivity: { solid: 0.211, liquid: 0.211 },
};

const barOf = (cells: number, length: number, over: Partial<HeatProblem>): HeatProblem => ({
  grid: gridOf(evenEdges(0, length, cells), one, one),
  share: new Float64Array(cells).fill(1),
  metal: aluminium,
  mould: plain,
  contactResistance: 0,
  surroundings: { temperature: 300, convection: held, emissivity: 0 },
  shut: [1, 2],
  start: new Float64Array(cells).fill(660.3),
  ...over,
});

/** Thickness frozen from the left, mm. */
const frozen = (cells: number, step: number, seconds: number): number => {
  const field = startField(barOf(cells, 200, {}));
  for (let t = 0; t < seconds - 1e-9; t += step) stepField(field, step);
  const { heat, content } = field;
  const full = heat.within[0]! * (heat.liquidus - heat.solidus);
  let sum = 0;
  for (let i = 0; i < cells / 2; i++) sum += Math.min(1, Math.max(0, 1 - content[i]! / full));
  return (sum * 200) / cells;
};

describe('Neumann’s front: λ exp(λ²) erf λ = Ste/√π, X = 2 λ √(α t) (Carslaw and Jaeger, ch. XI)', () => {
  test('aluminium at its melting point on a wall at 300 °C: X(10 s) = 34.877 mm', () => {
    expect(frozen(400, 0.02, 10) / 34.877).toBeCloseTo(1, 2);
    const rows = [50, 100, 200, 400].map((n) => Math.abs(frozen(n, 0.02, 10) / 34.877 - 1));
    console.log('front', rows);
  });
});

test('heat is kept: what the cells lose is what the surroundings get', () => {
  const field = startField(barOf(100, 60, {}));
  const before = heatInField(field);
  for (let i = 0; i < 400; i++) stepField(field, 0.1);
  expect(before - heatInField(field)).toBeCloseTo(field.lost, 6);
  expect(field.lost).toBeGreaterThan(0.5 * before);
});

test('contact temperature of two half-spaces: T = (b1 T1 + b2 T2)/(b1 + b2) (Carslaw and Jaeger)', () => {
  const n = 400;
  const share = new Float64Array(n).map((_, i) => (i < n / 2 ? 1 : 0));
  const metal: FreezingMetal = { ...aluminium, solidus: 2000, liquidus: 2001 };
  const mould = { density: 1.1e-3, specificHeat: 0.84, conductivity: 0.35e-3 };
  const start = share.map((s) => (s === 1 ? 640 : 300));
  const edges = [
    ...stretchedEdges([-400, 0], [-4, 0], 0.02),
    ...[...stretchedEdges([0, 100], [0, 4], 0.02)].slice(1),
  ];
  const count = edges.length - 1;
  const halfway = edges.indexOf(0);
  const sh = new Float64Array(count).map((_, i) => (i < halfway ? 1 : 0));
  const field = startField({
    ...barOf(1, 1, {}),
    grid: gridOf(edges, one, one),
    share: sh,
    metal,
    mould,
    surroundings: { temperature: 300, convection: 0, emissivity: 0 },
    start: sh.map((s) => (s === 1 ? 640 : 300)),
  });
  for (let i = 0; i < 500; i++) stepField(field, 0.01);
  const [b1, b2] = [Math.sqrt(0.211 * 2.385e-3 * 1.181), Math.sqrt(0.35e-3 * 1.1e-3 * 0.84)];
  const exact = (b1 * 640 + b2 * 300) / (b1 + b2);
  console.log(exact, field.temperature[halfway - 1], field.temperature[halfway]);
  expect(n + start.length + share.length).toBeGreaterThan(0);
  expect((field.temperature[halfway - 1]! - 300) / (exact - 300)).toBeCloseTo(1, 2);
});

describe('one-term solutions (Heisler; Incropera, Table 5.1), Bi = 1, Fo = 0.5', () => {
  const solid: FreezingMetal = {
    ...aluminium,
    solidus: 5000,
    liquidus: 5001,
    density: 1e-3,
    specificHeat: { solid: 1, liquid: 1 },
    conductivity: { solid: 0.05, liquid: 0.05 },
  };
  // α = 50 mm²/s; L = 20 mm: Fo 0.5 at 4 s; h = k/L.
  test('slab: θ0 = 1.1191 exp(−0.8603² Fo)', () => {
    const field = startField(
      barOf(80, 40, {
        metal: solid,
        surroundings: { temperature: 0, convection: 0.05 / 20, emissivity: 0 },
        start: new Float64Array(80).fill(100),
      }),
    );
    for (let i = 0; i < 800; i++) stepField(field, 0.005);
    const exact = 100 * 1.1191 * Math.exp(-(0.8603 ** 2) * 0.5);
    expect(field.temperature[40]! / exact).toBeCloseTo(1, 2);
  });
  test('a cube is the product of three slabs', () => {
    const edges = evenEdges(0, 40, 24);
    const size = 24 ** 3;
    const field = startField({
      ...barOf(1, 1, {}),
      grid: gridOf(edges, edges, edges),
      share: new Float64Array(size).fill(1),
      metal: solid,
      surroundings: { temperature: 0, convection: 0.05 / 20, emissivity: 0 },
      shut: [],
      start: new Float64Array(size).fill(100),
    });
    for (let i = 0; i < 200; i++) stepField(field, 0.02);
    const slab = 1.1191 * Math.exp(-(0.8603 ** 2) * 0.5);
    console.log(field.temperature[12 + 24 * (12 + 24 * 12)]! / (100 * slab ** 3));
    expect(field.temperature[12 + 24 * (12 + 24 * 12)]! / (100 * slab ** 3)).toBeCloseTo(1, 1);
  });
});
