/**
 * The solver against exact solutions of freezing (F. Neumann; C. Schwarz, 1931; Carslaw and Jaeger, Conduction of Heat in
 * Solids, ch. XI) and of bodies in contact (the same, ch. II). Every run's heat balance closes to 0.1 %. Titles say how
 * far a run is off.
 */
import { describe, expect, test } from 'vitest';
import { mixedStart, runFreeze } from '../../../core/freeze/freeze.js';
import { evenEdges, stretchedEdges } from '../../../core/freeze/grid.js';
import { fullHeat } from '../../../core/freeze/substance.js';
import {
  effusivity,
  erfc,
  neumannRoot,
  rangeRoot,
  rootBetween,
  schwarzRoot,
} from '../../helpers/freeze-exact.js';
import { aluminium, barOf, held, plaster, type Run, sand, startRun } from '../../helpers/freeze-run.js';

const plain = { conductivity: 0.211, capacity: 2.385e-3 * 1.181 };
const percent = (ratio: number): string => `${(100 * (ratio - 1)).toFixed(2)} %`;

/** Thickness frozen in the nearer half of the bar, mm: every cell's solid share of its length. */
function frozenLength({ field }: Run): number {
  const { problem, law, content } = field;
  const [edges] = problem.grid.edges;
  let sum = 0;
  for (const [i, s] of problem.share.entries())
    if (s > 0 && edges[i]! < edges.at(-1)! / 2)
      sum += Math.min(1, Math.max(0, 1 - content[i]! / fullHeat(law, s))) * (edges[i + 1]! - edges[i]!);
  return sum;
}

/** °C of the face between two cells, as one straight line from the middle of each, by what lies to the left and right. */
const faceBetween = ({ field }: Run, left: number, conductLeft: number, conductRight: number): number => {
  const { temperature: t, problem } = field;
  const [e] = problem.grid.edges;
  const a = (2 * conductLeft) / (e[left + 1]! - e[left]!);
  const b = (2 * conductRight) / (e[left + 2]! - e[left + 1]!);
  return (a * t[left]! + b * t[left + 1]!) / (a + b);
};

const check = (name: string, ratio: number, run: Run, within = 0.01): void => {
  const imbalance = run.imbalance();
  test(`${name}: off by ${percent(ratio)}; balance open by ${imbalance.toExponential(0)}`, () => {
    expect(Math.abs(ratio - 1)).toBeLessThan(within);
    expect(imbalance).toBeLessThan(1e-3);
  });
};

describe('front on a wall held at 300 °C, X = 2 λ √(α t) (Neumann)', () => {
  for (const poured of [660.25, 760.25]) {
    // Molten aluminium conducts half as well as solid.
    const liquid = poured > 661 ? { conductivity: 0.1, capacity: 2.385e-3 * 1.08 } : plain;
    const metal = {
      ...aluminium,
      specificHeat: { solid: 1.181, liquid: liquid.capacity / aluminium.density },
      conductivity: { solid: 0.211, liquid: liquid.conductivity },
    };
    const root = neumannRoot(
      { solid: plain, liquid, latent: 397 * metal.density, melting: 660.25, poured },
      300,
    );
    const run = startRun(
      barOf(evenEdges(0, 400, 3200), {
        metal,
        surroundings: { temperature: 300, convection: held, emissivity: 0 },
        start: new Float32Array(3200).fill(poured),
      }),
    );
    for (const time of [1, 3, 10, 20]) {
      run.growing(time, 0.001, 0.002);
      const exact = 2 * root * Math.sqrt((plain.conductivity / plain.capacity) * time);
      check(`poured at ${poured} °C, λ = ${root.toFixed(4)}, ${time} s`, frozenLength(run) / exact, run);
    }
  }
  test('the root for aluminium at its melting point is the published 0.6371: 34.877 mm in 10 s', () => {
    const metal = { solid: plain, liquid: plain, latent: 397 * 2.385e-3, melting: 660.3, poured: 660.3 };
    expect(neumannRoot(metal, 300)).toBeCloseTo(0.6371, 4);
  });
});

describe('front where latent heat comes out evenly over a range of 100 K, on a wall held at 300 °C', () => {
  const metal = { ...aluminium, solidus: 560.25 };
  const mushy = { conductivity: 0.211, capacity: metal.density * (1.181 + 397 / 100) };
  const root = rangeRoot(plain, mushy, [300, 560.25, 660.25]);
  const run = startRun(
    barOf(evenEdges(0, 400, 1600), {
      metal,
      surroundings: { temperature: 300, convection: held, emissivity: 0 },
      start: new Float32Array(1600).fill(660.25),
    }),
  );
  for (const time of [3, 10, 20]) {
    run.to(time, 0.01);
    const { temperature } = run.field;
    // Where the line through the cells' middles passes the solidus.
    const i = temperature.findIndex((t) => t > 560.25);
    const part = (560.25 - temperature[i - 1]!) / (temperature[i]! - temperature[i - 1]!);
    const at = 0.25 * (i - 0.5 + part);
    const exact = 2 * root * Math.sqrt((plain.conductivity / plain.capacity) * time);
    check(`solidus, λ = ${root.toFixed(4)}, ${time} s`, at / exact, run);
  }
});

/** Metal to the left of 0, mould to the right, both long; the cell left of the face. */
function halfSpaces(fine: number, over: Parameters<typeof barOf>[1]): { run: Run; last: number } {
  const left = stretchedEdges([-600, 0], [-12, 0], fine);
  const right = stretchedEdges([0, 300], [0, 12], fine);
  const edges = Float64Array.from([...left, ...right.slice(1)]);
  const last = left.length - 2;
  const share = new Float32Array(edges.length - 1).fill(1, 0, last + 1);
  const { start } = over;
  const begin = share.map((s) => (s === 1 ? start![0]! : start![1]!));
  return { run: startRun(barOf(edges, { ...over, share, start: begin })), last };
}

/** Cast iron, from memory. */
const iron = { density: 7.2e-3, specificHeat: 0.54, conductivity: 0.05 };

describe('metal at its melting point and above in a mould that reaches far (Schwarz)', () => {
  for (const [name, mould, cold, poured] of [
    ['sand at 25 °C', sand, 25, 660.25],
    ['plaster at 400 °C', plaster, 400, 660.25],
    ['iron at 25 °C', iron, 25, 660.25],
    ['iron at 25 °C, 100 K of superheat', iron, 25, 760.25],
  ] as const) {
    const metal = { solid: plain, liquid: plain, latent: 397 * 2.385e-3, melting: 660.25, poured };
    const exact = schwarzRoot(
      metal,
      { conductivity: mould.conductivity, capacity: mould.density * mould.specificHeat },
      cold,
    );
    const { run, last } = halfSpaces(0.05, { mould, start: Float32Array.of(poured, cold) });
    for (const time of [20, 60]) {
      run.growing(time, 0.0005, 0.005);
      const frozen = frozenLength(run);
      const face = faceBetween(run, last, plain.conductivity, mould.conductivity);
      const front = 2 * exact.root * Math.sqrt((plain.conductivity / plain.capacity) * time);
      check(`${name}: front after ${time} s, ${front.toFixed(2)} mm`, frozen / front, run);
      check(
        `${name}: face after ${time} s, ${exact.face.toFixed(2)} °C`,
        (face - cold) / (exact.face - cold),
        run,
      );
    }
  }
  test('roots are those worked out for aluminium in sand at 25 °C: λ = 0.0445, 5.97 mm in 60 s', () => {
    const metal = { solid: plain, liquid: plain, latent: 397 * 2.385e-3, melting: 660.3, poured: 660.3 };
    const { root, face } = schwarzRoot(metal, { conductivity: 0.6e-3, capacity: 1.74e-3 }, 25);
    expect(root).toBeCloseTo(0.04451, 5);
    expect(face).toBeCloseTo(658.97, 2);
  });
});

describe('two half-spaces at 400 and 25 °C brought together (Carslaw and Jaeger, ch. II)', () => {
  const pair = { metal: { ...aluminium, liquidus: 700, solidus: 690 }, start: Float32Array.of(400, 25) };
  const [hot, cold] = [effusivity(plain), effusivity({ conductivity: 0.35e-3, capacity: 0.924e-3 })];
  {
    const { run, last } = halfSpaces(0.05, pair);
    const exact = (hot * 400 + cold * 25) / (hot + cold);
    for (const time of [1, 10, 60]) {
      run.growing(time, 0.001, 0.005);
      const face = faceBetween(run, last, 0.211, 0.35e-3);
      check(`touching, ${exact.toFixed(2)} °C, ${time} s: face`, (face - 25) / (exact - 25), run);
    }
  }
  for (const resistance of [500, 2000]) {
    // q = h ΔT exp(β²t) erfc(β√t), β = h (1/b1 + 1/b2).
    const { run, last } = halfSpaces(0.05, { ...pair, contactResistance: resistance });
    const beta = (1 / hot + 1 / cold) / resistance;
    for (const time of [0.5, 5, 50]) {
      run.growing(time, 0.001, 0.005);
      const scaled = Math.exp(beta ** 2 * time) * erfc(beta * Math.sqrt(time));
      const taken = (375 / resistance / beta ** 2) * (scaled - 1 + 2 * beta * Math.sqrt(time / Math.PI));
      const face = 25 + (375 / resistance / (cold * beta)) * (1 - scaled);
      const { temperature, problem } = run.field;
      const e = problem.grid.edges[0];
      let got = 0;
      for (let i = last + 1; i < temperature.length; i++)
        got += 0.924e-3 * (temperature[i]! - 25) * (e[i + 1]! - e[i]!);
      const half = (e[last + 2]! - e[last + 1]!) / (2 * 0.35e-3);
      const behind = (e[last + 1]! - e[last]!) / (2 * 0.211) + resistance;
      const own = (temperature[last]! * half + temperature[last + 1]! * behind) / (half + behind);
      check(`${resistance} mm²·K/W between, ${time} s: heat that passed`, got / taken, run);
      check(
        `${resistance} mm²·K/W between, ${time} s: mould's face, ${face.toFixed(1)} °C`,
        (own - 25) / (face - 25),
        run,
      );
    }
  }
});

describe('wall 0.6 mm thick of metal at one temperature, under a film of 1000 mm²·K/W in plaster at 300 °C', () => {
  const metal = { ...aluminium, conductivity: { solid: 2, liquid: 2 } };
  const cold = effusivity({ conductivity: 0.35e-3, capacity: 0.924e-3 });
  const beta = 1 / 1000 / cold;
  const heat = 0.3 * metal.density * (397 + 0.5 * 1.181);
  // Heat that passes a film into a half-space, by its time (as above).
  const exact = rootBetween(
    (t) =>
      (360 / 1000 / beta ** 2) *
        (Math.exp(beta ** 2 * t) * erfc(beta * Math.sqrt(t)) - 1 + 2 * beta * Math.sqrt(t / Math.PI)) -
      heat,
    1e-3,
    100,
  );
  for (const [cell, shift] of [
    [0.1, 0],
    [0.6, 0],
    [0.6, 0.3],
    [1, 0],
    [1, 0.5],
  ] as const) {
    const edges = stretchedEdges([-30 + shift, 30 + shift], [-3 + shift, 3 + shift], cell);
    const share = Float32Array.from({ length: edges.length - 1 }, (_, i) => {
      const inside = Math.min(0.3, edges[i + 1]!) - Math.max(-0.3, edges[i]!);
      return inside > 1e-6 ? Math.min(1, inside / (edges[i + 1]! - edges[i]!)) : 0;
    });
    const mixed = barOf(edges, { metal, share, contactResistance: 1000 });
    const { total, imbalance } = runFreeze({ ...mixed, start: mixedStart(mixed, 660.25, 300) });
    test(`cells of ${cell} mm, ${shift} mm aside: off by ${percent(total / exact)} of ${exact.toFixed(2)} s`, () => {
      // In one cell it has its whole film on both sides; cut in two, its film lies inside the cells and it freezes early.
      const cut = cell > 0.5 && shift === 0;
      expect(total / exact).toBeLessThan(cell < 0.5 ? 1.01 : 1.08);
      if (!cut) expect(total / exact).toBeGreaterThan(cell < 0.5 ? 0.99 : 0.92);
      expect(imbalance).toBeLessThan(1e-3);
    });
  }
});
