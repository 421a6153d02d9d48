import { describe, expect, it } from 'vitest';
import { findAlloy, inchesPerFoot } from '../../core/foundry/alloys/index.js';
import { heatToMelt, planCharge } from '../../core/foundry/charge/charge.js';
import { handbookGrowth, measureGrowth, planGrowth } from '../../core/foundry/growth.js';
import { coreLimit } from '../../core/foundry/holes.js';
import { findInvestment, mixFor, slurryDensity } from '../../core/foundry/investment.js';
import { castingTolerance, requiredMachiningAllowance } from '../../core/foundry/iso-8062.js';
import { densityRatio, findPlastic, massOf } from '../../core/foundry/material.js';
import { printed } from './printed.js';

const bronze = findAlloy('C90500')!;
const gypsum = findInvestment('gypsum-bonded')!;

describe('Contraction', () => {
  // Shrink-rule tables of patternmakers' handbooks, in/ft to %.
  it.each([
    [3 / 32, '0.781'],
    [1 / 8, '1.042'],
    [5 / 32, '1.302'],
    [11 / 64, '1.432'],
    [3 / 16, '1.563'],
    [7 / 32, '1.823'],
    [15 / 64, '1.953'],
    [1 / 4, '2.083'],
    [5 / 16, '2.604'],
  ])('%f in/ft is %s %%', (inches, text) => printed(100 * inchesPerFoot(inches), text));

  // Usual allowance of a row, %, as its source prints it.
  it.each([
    ['yellow-brass-c85400', '1.56', 'CDA property sheet, 3/16 in/ft'],
    ['tin-bronze', '1.56', 'patternmakers’ supplier chart, 3/16 in/ft'],
    ['tin-bronze', '1.6', 'MakeItFrom, C90500'],
    ['silicon-bronze', '2.08', 'casting supplier’s data sheet, 1/4 in/ft'],
    ['silicon-brass', '1.95', 'casting supplier’s data sheet, 15/64 in/ft'],
    ['aluminium-bronze', '1.82', 'patternmakers’ supplier chart, 7/32 in/ft'],
    ['manganese-bronze', '1.82', 'patternmakers’ supplier chart, 7/32 in/ft'],
    ['copper', '1.56', 'patternmakers’ supplier chart, 3/16 in/ft'],
    ['a356', '1.30', 'patternmakers’ supplier chart, 5/32 in/ft'],
    ['zinc-alloy-3', '1.5', 'Westermann Tables, p. 2'],
    ['za-12', '1.3', 'MakeItFrom, ZA-12 sand cast'],
    ['grey-iron', '1.0', 'Westermann Tables, p. 2'],
  ])('%s: %s %% (%s)', (name, text) => printed(100 * (handbookGrowth(findAlloy(name)!) - 1), text));

  it('Rao’s steel pattern at 21 mm/m: 200 → 204.20, 150 → 153.15, 100 → 102.10, 80 → 81.68 (from memory)', () => {
    const settings = {
      investment: findInvestment('gypsum-bonded')!,
      plastic: findPlastic('PLA')!,
      flaskTemperature: 500,
    };
    const g = planGrowth(bronze, settings, 1.021).value;
    printed(200 * g, '204.20');
    printed(150 * g, '153.15');
    printed(100 * g, '102.10');
    printed(80 * g, '81.68');
  });

  it('the measured bar: a 12 in mould and an 11.750 in bar teach 1.021277', () =>
    printed(measureGrowth(12, 11.75), '1.021277'));
});

describe('ISO 8062-3', () => {
  it('the standard’s own drawing example, RMA 6 (H) for 400 to 630 mm (ISO 8062:1994, from memory)', () => {
    expect(requiredMachiningAllowance(401, 'H')).toBe(6);
    expect(requiredMachiningAllowance(630, 'H')).toBe(6);
  });

  // Table of RMAG (from memory).
  it.each([
    [40, 'E', 0.4],
    [40.01, 'E', 0.4],
    [63, 'F', 0.5],
    [63.1, 'F', 1],
    [100, 'E', 0.7],
    [84, 'F', 1],
    [160, 'F', 1.5],
    [250, 'G', 2.8],
    [250, 'K', 8],
    [1000, 'A', 0.6],
  ] as const)('RMA at %f mm, grade %s: %f mm', (size, grade, value) =>
    expect(requiredMachiningAllowance(size, grade)).toBe(value),
  );

  // Table of DCTG (from memory).
  it.each([
    [10, 4, 0.26],
    [25, 6, 0.58],
    [38, 6, 0.64],
    [63, 7, 1],
    [100, 8, 1.6],
    [160, 12, 7],
    [250, 2, 0.24],
    [400, 9, 3.2],
  ])('DCTG at %f mm, grade %i: %f mm in all', (size, grade, value) =>
    expect(castingTolerance(size, grade)).toBe(value),
  );

  it('each tolerance grade is 1.2 to 1.6 times the finer one and grows with size', () => {
    const sizes = [10, 16, 25, 40, 63, 100, 160, 250, 400];
    for (let grade = 4; grade <= 12; grade++) {
      for (const [i, size] of sizes.entries()) {
        const value = castingTolerance(size, grade);
        const ratio = value / castingTolerance(size, grade - 1);
        expect(ratio, `${size} mm, ${grade}`).toBeGreaterThan(1.2);
        expect(ratio, `${size} mm, ${grade}`).toBeLessThan(1.6);
        if (i > 0) expect(value).toBeGreaterThan(castingTolerance(sizes[i - 1]!, grade));
      }
    }
  });

  it('leaves undefined what the standard does', () => {
    expect(() => castingTolerance(250, 1)).toThrow(/not defined/);
    expect(() => castingTolerance(400, 2)).toThrow(/not defined/);
  });
});

describe('Slurry', () => {
  // Mass balance at a true powder density of 2.5 g/cm³: slurry kg/L, powder kg per L.
  it.each([
    [0.36, '1.789', '1.316'],
    [0.38, '1.769', '1.282'],
    [0.4, '1.750', '1.250'],
    [0.42, '1.732', '1.220'],
    [0.44, '1.714', '1.190'],
    [0.5, '1.667', '1.111'],
  ])('w = %f', (w, slurry, powder) => {
    printed(slurryDensity(w, 2.5e-3) * 1000, slurry);
    printed(mixFor(1e6, gypsum, w, 0).powder / 1000, powder);
  });

  it('4 lb, 1816 g, at 40 : 100 take 726.4 g of water (jewellery trade)', () => {
    const { powder, water } = mixFor(1816 / 1.25e-3, gypsum, 0.4, 0);
    printed(powder, '1816');
    printed(water, '726.4');
  });

  it('a refiner’s rule 20 D² H (inches, g, water 0.44) stays 1.31 times the balance at its own ratio', () => {
    // 20 g a cubic inch-diameter against π/4 × 16.387 ml × 1.190 g/ml = 15.32 g: 31 % for waste and safety.
    for (const [d, h] of [
      [2.5, 3],
      [3.5, 4],
      [4, 8],
    ] as const) {
      const volume = (Math.PI / 4) * (25.4 * d) ** 2 * 25.4 * h;
      printed((20 * d * d * h) / mixFor(volume, gypsum, 0.44, 0).powder, '1.31');
      printed((20 * d * d * h) / mixFor(volume, gypsum, 0.4, 0).powder, '1.24');
    }
  });

  it('stays under the flask charts of suppliers for small flasks and near them for tall ones', () => {
    // D × H in, chart g of powder: 2.5×3 about 1 lb; 2.5×4 1.5 lb; 3.5×3 1.5 lb; 3.5×5 2 lb (jewellery trade).
    for (const [d, h, chart, ratio] of [
      [2.5, 3, 12 * 28.35, '1.13'],
      [3.5, 5, 2 * 453.6, '0.92'],
      [3.5, 3, 1.5 * 453.6, '1.15'],
    ] as const) {
      const volume = (Math.PI / 4) * (25.4 * d) ** 2 * 25.4 * h;
      printed(chart / mixFor(volume, gypsum, 0.4, 0).powder, ratio);
    }
  });
});

describe('Charge and energy', () => {
  it('C90500, 20 → 1150 °C: 369.1 + 190 + 68.0 = 627 kJ/kg = 0.174 kWh/kg', () => {
    printed(heatToMelt(bronze, 1150), '627');
    printed(heatToMelt(bronze, 1150) - heatToMelt(bronze, 999), '68.0');
    printed(heatToMelt(bronze, 999) - bronze.latentHeat, '369.1');
    printed(heatToMelt(bronze, 1150) / 3600, '0.174');
  });

  it('A356, 20 → 720 °C: 573.0 + 389 + 115.5 = 1077 kJ/kg', () => {
    const a356 = findAlloy('a356')!;
    // 1077.485: the printed 1077 drops the half.
    expect(heatToMelt(a356, 720)).toBeCloseTo(573 + 389 + 115.5, 1);
  });

  it('latent heats: 190, 230, 120 (MakeItFrom), 389 (ASM Handbook vol. 2) J/g', () => {
    expect(bronze.latentHeat).toBe(190);
    expect(findAlloy('C95400')!.latentHeat).toBe(230);
    expect(findAlloy('za-12')!.latentHeat).toBe(120);
    expect(findAlloy('a356')!.latentHeat).toBe(389);
  });

  it('1 kg in the moulds, 10 % reserve, 1.5 % lost: 1116.8 g (mass balance)', () => {
    const plan = planCharge({ alloy: bronze, inMoulds: 1000, pourTemperature: 1150 });
    printed(plan.charge, '1116.8');
    printed(plan.energy / plan.charge, '627');
  });
});

describe('Mass', () => {
  const pla = findPlastic('PLA')!;
  // Metal : solid-printed pattern at 1.24 g/cm³.
  it.each([
    ['C90500', '7.03'],
    ['C83600', '7.12'],
    ['C95400', '6.01'],
    ['a356', '2.17'],
    ['sterling-silver', '8.35'],
  ])('%s weighs %s times its pattern', (name, text) => printed(densityRatio(findAlloy(name)!, pla), text));

  it('cylinder ø50 × 100 and tube ø80/ø20 × 20 in tin bronze, closed form', () => {
    printed(massOf((Math.PI / 4) * 50 ** 2 * 100, bronze), '1712.2');
    printed(massOf((Math.PI / 4) * (80 ** 2 - 20 ** 2) * 20, bronze), '821.8');
  });

  it('round bar of 1 in in copper weighs 3.05 lb a foot (bar-stock tables, from memory)', () => {
    const mass = massOf((Math.PI / 4) * 25.4 ** 2 * 304.8, findAlloy('C81100')!);
    // Tables use 0.323 to 0.324 lb/in³.
    expect(Math.abs(mass / 453.59237 - 3.05)).toBeLessThan(0.01);
  });
});

describe('Cast holes: never more than any of three investment-foundry guides allows', () => {
  it.each([
    ['through', 2, 2],
    ['through', 3, 2],
    ['through', 4, 5],
    ['through', 7, 5],
    ['through', 8, 5],
    ['through', 20, 5],
    ['blind', 4, 1],
    ['blind', 8, 1],
    ['blind', 25, 2],
  ] as const)('%s ø%f: %f D', (kind, d, ratio) =>
    expect(coreLimit(d, kind).maxDepth).toBeCloseTo(ratio * d, 9),
  );

  it('leaves small holes solid', () => {
    expect(coreLimit(1.9, 'through')).toMatchObject({ castable: false, maxDepth: 0 });
    expect(coreLimit(3, 'blind')).toMatchObject({ castable: false, maxDepth: 0 });
  });
});
