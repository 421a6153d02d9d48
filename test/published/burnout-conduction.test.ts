import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  type ConductionBody,
  coreLag,
  mouldWater,
  planBurnout,
  simulateMould,
  startConduction,
  waterHeat,
} from '../../core/foundry/burnout.js';
import { findInvestment, slurryDensity } from '../../core/foundry/investment.js';
import { findPlastic } from '../../core/foundry/material.js';

const gypsum = findInvestment('gypsum-bonded')!;
const { conductivity, density, specificHeat } = gypsum.mould;
const alpha = conductivity / (density * specificHeat);
const radius = 33;
const body: ConductionBody = { radius, height: null, conductivity, heatCapacity: density * specificHeat };
const fine = { rings: 30, layers: 16 };
/** Left of a unit step of temperature at the core, at Fourier number `fo` = α t / R². */
const left = (b: ConductionBody, fo: number, steps = 1000): number => {
  const state = startConduction(b, 1, fine);
  const time = (fo * radius ** 2) / alpha;
  for (let i = 0; i < steps; i++) state.step(time / steps, 0);
  return state.core();
};

/** Incropera, Fundamentals of Heat and Mass Transfer, table 5.1: Bi, ζ and C of cylinder and plane wall. */
const table = [
  [0.1, 0.4417, 1.0246, 0.3111, 1.0161],
  [0.5, 0.9408, 1.1143, 0.6533, 1.0701],
  [1, 1.2558, 1.2071, 0.8603, 1.1191],
  [2, 1.5994, 1.3384, 1.0769, 1.1785],
  [5, 1.9898, 1.5029, 1.3138, 1.2402],
  [10, 2.1795, 1.5677, 1.4289, 1.262],
  [100, 2.3809, 1.6015, 1.5552, 1.2731],
  [Number.POSITIVE_INFINITY, 2.4048, 1.602, 1.5708, 1.2732],
] as const;
const film = (bi: number) => (Number.isFinite(bi) ? { film: (bi * conductivity) / radius } : {});

describe('Conduction in the mould: first term of the series, Incropera table 5.1', () => {
  it.each(table)('long cylinder, Bi %d', (bi, zeta, c) => {
    for (const fo of [0.3, 0.6])
      expect(Math.abs(left({ ...body, ...film(bi) }, fo) - c * Math.exp(-(zeta ** 2) * fo))).toBeLessThan(
        0.003,
      );
  });

  it.each(table)('short cylinder as product of cylinder and wall, Bi %d', (bi, zeta, c, zetaWall, cWall) => {
    // As high as wide, so that both have the same Biot and Fourier numbers.
    // Later than in the long one: the wall's second term must have died away.
    for (const fo of [0.6, 1]) {
      const product = c * Math.exp(-(zeta ** 2) * fo) * cWall * Math.exp(-(zetaWall ** 2) * fo);
      const ours = left({ ...body, height: 2 * radius, ...film(bi) }, fo);
      expect(Math.abs(ours - product)).toBeLessThan(0.003);
    }
  });
});

describe('Conduction in the mould', () => {
  it('a steady ramp: core lag r R² / 4α (Carslaw & Jaeger, ch. VII)', () => {
    const state = startConduction(body, 20);
    let skin = 20;
    for (let i = 0; i < 300; i++) {
      skin += 100 / 60;
      state.step(60, skin);
    }
    expect(Math.abs((skin - state.core()) / coreLag(100, 2 * radius, gypsum) - 1)).toBeLessThan(0.005);
  });

  it('drying inward from the skin: limit of small Stefan number, t = L R² / (4 k ΔT)', () => {
    // Quasi-steady front in a cylinder (London & Seban, Trans. ASME 65, 1943): exact as the sensible heat vanishes.
    const [heat, drive] = [1, 50];
    const state = startConduction(
      { ...body, heatCapacity: 1e-5, latent: [{ from: 99.9, to: 100.1, heat }] },
      99.9,
      fine,
    );
    let time = 0;
    while (state.core() < 100.1 && time < 1e6) {
      state.step(30, 100 + drive);
      time += 30;
    }
    expect(Math.abs(time / ((heat * radius ** 2) / (4 * conductivity * drive)) - 1)).toBeLessThan(0.02);
  });

  it('latent heat is taken up once: dried, cooled and heated again it costs sensible heat alone', () => {
    const latent = [{ from: 99, to: 101, heat: 1 }];
    const state = startConduction({ ...body, latent }, 20);
    const volume = Math.PI * radius ** 2;
    for (const [outside, held] of [
      [150, 130 * body.heatCapacity + 1],
      [20, 1],
      [150, 130 * body.heatCapacity + 1],
    ] as const) {
      for (let i = 0; i < 3000; i++) state.step(60, outside);
      expect(state.heatHeld() / volume).toBeCloseTo(held, 6);
    }
  });

  it('refuses what is no body', () => {
    expect(() => startConduction({ ...body, radius: 0 }, 20)).toThrow(/radius is 0/);
    expect(() => startConduction({ ...body, height: -1 }, 20)).toThrow(/height is -1/);
    expect(() => startConduction({ ...body, latent: [{ from: 5, to: 5, heat: 1 }] }, 20)).toThrow(/latent/);
  });
});

describe('Water in the mould', () => {
  it('free and bound make the mix’s water and a quarter of the gypsum’s', () => {
    const { free, bound, inside } = mouldWater(gypsum);
    const powder = slurryDensity(0.4, gypsum.powderDensity) / 1.4;
    // 400 g : 160 g; 0.28 g of CaSO4·½H2O (145.15) takes up 1½ H2O (27.02) and holds 2 (36.03).
    expect(bound / powder).toBeCloseTo((0.28 * 36.03) / 145.15, 6);
    expect(free / powder).toBeCloseTo(0.4 - (0.28 * 27.02) / 145.15, 4);
    expect(inside / powder).toBeCloseTo(0.1, 9);
  });

  it('boiling water from 20 °C takes 2.59 kJ/g (steam tables: 2676 − 84 kJ/kg)', () => {
    expect(waterHeat({ free: 1, bound: 0, inside: 0 }, 20)).toBeCloseTo(2592, -1);
  });
});

describe('Burnout programmes by conduction', () => {
  const plan = (largestFlaskDiameter: number) =>
    planBurnout({
      largestFlaskDiameter,
      plastic: findPlastic('PLA')!,
      castingTemperature: 593,
      investment: gypsum,
      kiln: { segments: 8 },
    });

  it.each([50, 75, 100, 150])('%d mm: eight segments, core within 20 °C at the end of each hold', (d) => {
    const { segments } = plan(d);
    expect(segments).toHaveLength(8);
    const held = segments.filter((s) => s.soak > 0);
    expect(held).toHaveLength(4);
    for (const s of held) expect(s.coreLag).toBeLessThan(20);
  });

  it('a hold that was lengthened would not do a quarter of an hour shorter', () => {
    const { segments } = plan(150);
    const [dry] = segments;
    const short = simulateMould([{ purpose: '', to: dry!.to, rate: dry!.rate, soak: 0 }], 20, {
      diameter: 150,
      investment: gypsum,
    });
    expect(short.lags[0]).toBeGreaterThan(20);
    const at = (soak: number) =>
      simulateMould([{ purpose: '', to: dry!.to, rate: dry!.rate, soak }], 20, {
        diameter: 150,
        investment: gypsum,
      });
    expect(at(dry!.soak).soaks).toEqual([dry!.soak]);
    expect(at(dry!.soak - 900).soaks).toEqual([dry!.soak]);
  });

  const seed = 5050;
  it(`heat balance closes at every size and height (seed ${seed})`, () => {
    const number = (min: number, max: number) => fc.double({ min, max, noNaN: true });
    fc.assert(
      fc.property(
        number(20, 300),
        fc.option(number(20, 400), { nil: undefined }),
        number(5, 1000),
        (diameter, height, rate) => {
          const run = simulateMould(
            [
              { purpose: '', to: 149, rate, soak: 7200 },
              { purpose: '', to: 730, rate, soak: 3600 },
              { purpose: '', to: 500, rate, soak: 3600 },
            ],
            20,
            { diameter, investment: gypsum, ...(height === undefined ? {} : { height }) },
          );
          expect(Math.abs(run.imbalance)).toBeLessThan(1e-6);
          for (const lag of run.lags) expect(lag).toBeLessThan(20);
          for (const [, c] of run.core) expect(c).toBeGreaterThan(19.9);
        },
      ),
      { seed, numRuns: 40 },
    );
  });
});
