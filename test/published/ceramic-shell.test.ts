import { beforeAll, describe, expect, it } from 'vitest';
import { findAlloy } from '../../core/foundry/alloys/index.js';
import { clampedPlateStress } from '../../core/foundry/flask-loads.js';
import { freezingFactor } from '../../core/foundry/gating/freezing.js';
import { gatingMould } from '../../core/foundry/gating/index.js';
import { metalContraction, mouldExpansion } from '../../core/foundry/growth-causes.js';
import { checkInvestment, findInvestment } from '../../core/foundry/investment.js';
import {
  clampedRectangleStress,
  coatClock,
  coolShell,
  grownArea,
  hoopStress,
  measureShellSurface,
  shellSlurryDensity,
  shellThickness,
  slurrySolids,
} from '../../core/foundry/shell/index.js';
import { loadKernel } from '../../core/solid/index.js';
import type { Kernel, Solid } from '../../core/solid/types.js';

const shell = findInvestment('ceramic-shell');
let kernel: Kernel;
beforeAll(async () => {
  kernel = await loadKernel();
});
const surfaceOf = (build: () => Solid) => measureShellSurface(kernel.scope(() => build().mesh()));

describe('shells as they are made (Beeley & Smart, Investment Casting; ASM Handbook 15; from memory)', () => {
  it.each([
    [5, 5, 6.5],
    [6, 6, 8],
    [7, 6.5, 9],
    [9, 8, 11],
  ])('%i coats come to %d to %d mm', (coats, least, most) => {
    expect(shellThickness(shell.coats, coats)).toBeGreaterThanOrEqual(least);
    expect(shellThickness(shell.coats, coats)).toBeLessThanOrEqual(most);
  });

  it('slurry of fused silica weighs 1.6 to 1.75 g/cm³ and is 70 to 78 % solid', () => {
    expect(shellSlurryDensity(shell.coats)).toBeGreaterThan(1.6e-3);
    expect(shellSlurryDensity(shell.coats)).toBeLessThan(1.75e-3);
    expect(slurrySolids(shell.coats)).toBeGreaterThan(0.7);
    expect(slurrySolids(shell.coats)).toBeLessThan(0.78);
  });

  it('7 coats and a seal take 2 to 5 days', () => {
    const last = coatClock(shell.coats, 7).at(-1)!;
    expect((last.at + last.dry) / 86_400).toBeGreaterThan(2);
    expect((last.at + last.dry) / 86_400).toBeLessThan(5);
  });

  it('the density is that of fused silica, 2.2 g/cm³, with 20 to 35 % pores', () => {
    const pores = 1 - shell.mould.density / 2.2e-3;
    expect(pores).toBeGreaterThan(0.2);
    expect(pores).toBeLessThan(0.35);
  });

  it('grows by 0.55 × 10⁻⁶/K, a thirtieth of what bronze contracts by', () => {
    expect(mouldExpansion(shell, 1000).usual / 980).toBeCloseTo(0.55e-6, 8);
    const bronze = metalContraction(findAlloy('tin-bronze')!).usual;
    expect(bronze / mouldExpansion(shell, 600).usual).toBeGreaterThan(30);
  });

  it('stands iron, which gypsum does not', () => {
    const iron = findAlloy('grey-iron')!;
    expect(checkInvestment(shell, iron)).toEqual([]);
    expect(checkInvestment(findInvestment('gypsum-bonded'), iron)[0]?.severity).toBe('stop');
  });
});

describe('stress', () => {
  // Timoshenko & Woinowsky-Krieger, Theory of Plates and Shells, table 35: moment at the middle of the long edge of a
  // clamped rectangle, −M / (q a²); σ = 6 M / t² (from memory).
  it.each([
    [1, 0.0513],
    [1.2, 0.0639],
    [1.4, 0.0726],
    [1.6, 0.078],
    [1.8, 0.0812],
    [2, 0.0829],
    [50, 0.0833],
  ])('a clamped rectangle %d times as long as wide: M = %d q a²', (ratio, moment) => {
    const stress = clampedRectangleStress(0.01, 80, 80 * ratio, 6);
    expect(stress / ((6 * moment * 0.01 * 80 ** 2) / 36)).toBeCloseTo(1, 2);
  });

  it('a square is bent more than the round plate in it, and less than the one about it', () => {
    const square = clampedRectangleStress(0.01, 80, 80, 6);
    expect(square).toBeGreaterThan(clampedPlateStress(0.01, 40, 6));
    expect(square).toBeLessThan(clampedPlateStress(0.01, 40 * Math.SQRT2, 6));
  });

  it('hoop p R / t: a column of bronze 100 mm high in a pipe of R 20, t 5 mm: 0.031 MPa', () => {
    expect(hoopStress(0.1 * 7850 * 9.80665 * 1e-6, 20, 5)).toBeCloseTo(0.0308, 4);
  });
});

describe('grown surface, against closed forms', () => {
  it('a box: 2 (ab + bc + ca) + 2π (a + b + c) t + 4π t² (Steiner)', () => {
    const surface = surfaceOf(() => kernel.box([0, 0, 0], [30, 20, 10]));
    expect(surface.area).toBeCloseTo(2200, 6);
    expect(surface.bend).toBeCloseTo(60 * Math.PI, 6);
    expect(surface.euler).toBe(2);
    expect(grownArea(surface, 6000, 5)).toBeCloseTo(2200 + 2 * Math.PI * 60 * 5 + 4 * Math.PI * 25, 6);
  });

  it('a cylinder: ∫H = π (h + π r)', () => {
    const surface = surfaceOf(() => kernel.frustum([0, 0], 0, 20, 50, 20, 0.001));
    expect(surface.bend / (Math.PI * (50 + Math.PI * 20))).toBeCloseTo(1, 3);
  });

  it('a ring of square section: χ = 0, and a hollow bends the other way', () => {
    // Outside R 30, inside r 10, h 12: walls π h − π h, edges ½ (π/2) (2 · 2πR + 2 · 2πr).
    const surface = surfaceOf(() =>
      kernel.frustum([0, 0], 0, 30, 12, 30, 0.001).subtract(kernel.frustum([0, 0], -1, 10, 13, 10, 0.001)),
    );
    expect(surface.euler).toBe(0);
    expect(surface.bend / (Math.PI ** 2 * (30 + 10))).toBeCloseTo(1, 3);
  });

  it('never less than a sphere of the volume, whose grown area is its own: 4π (r + t)²', () => {
    const sphere = { area: 0, bend: 0, euler: 2, top: 0, bottom: 0, flats: [] };
    const volume = (4 / 3) * Math.PI * 15 ** 3;
    expect(grownArea(sphere, volume, 0)).toBeCloseTo(4 * Math.PI * 15 ** 2, 6);
    const exact = { ...sphere, area: 4 * Math.PI * 100, bend: 4 * Math.PI * 10 };
    expect(grownArea(exact, 1, 5)).toBeCloseTo(4 * Math.PI * 225, 6);
  });
});

describe('cooling, against closed forms', () => {
  const { density, specificHeat, conductivity } = shell.mould;
  const alpha = conductivity / (density * specificHeat);

  // Incropera, Fundamentals of Heat and Mass Transfer, table 5.1: plane wall, Bi, ζ₁, C₁ (from memory).
  it.each([
    [0.1, 0.3111, 1.016],
    [1, 0.8603, 1.1191],
    [10, 1.4289, 1.262],
  ])('a plane wall at Bi = %d follows the first term of its series', (biot, zeta, c) => {
    const thickness = 8;
    const fourier = 0.6;
    const seconds = (fourier * thickness ** 2) / alpha;
    const left =
      coolShell({ mould: shell.mould, thickness }, 1020, seconds, {
        air: 20,
        emissivity: 0,
        film: (biot * conductivity) / thickness,
      }) - 20;
    expect(left / 1000 / (c * Math.exp(-(zeta ** 2) * fourier))).toBeCloseTo(1, 1.7);
  });

  it('a conducting plate that radiates to nothing: 1/T³ = 1/T₀³ + 3 ε σ t / (ρ c δ)', () => {
    const mould = { density, specificHeat, conductivity: 1 };
    const end = coolShell({ mould, thickness: 5 }, 900, 60, { air: -273.15, emissivity: 0.9, film: 0 });
    const start = 900 + 273.15;
    const exact = (start ** -3 + (3 * 0.9 * 5.670374419e-14 * 60) / (density * specificHeat * 5)) ** (-1 / 3);
    expect((end + 273.15) / exact).toBeCloseTo(1, 2);
  });
});

it('a shell takes heat 3 to 4 times as fast as plaster: Chvorinov’s B falls to 0.25 to 0.33 of it', () => {
  const bronze = findAlloy('tin-bronze')!;
  const factor = (name: string): number => {
    const mould = gatingMould(findInvestment(name)!);
    return freezingFactor({
      density: bronze.liquidDensity * 1e6,
      latentHeat: bronze.latentHeat * 1e3,
      liquidHeat: 0,
      superheat: 0,
      freezingTemperature: bronze.liquidus,
      mouldTemperature: 500,
      mouldConductivity: mould.conductivity,
      mouldDensity: mould.density,
      mouldHeat: mould.heat,
    });
  };
  const ratio = factor('ceramic-shell') / factor('gypsum-bonded');
  expect(ratio).toBeGreaterThan(0.25);
  expect(ratio).toBeLessThan(0.33);
  // As the gating has plaster: 0.35 W/(m·K), 1100 kg/m³, 840 J/(kg·K).
  expect(gatingMould(findInvestment('gypsum-bonded'))).toMatchObject({ heat: 840 });
});
