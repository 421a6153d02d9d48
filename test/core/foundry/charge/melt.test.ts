import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { findAlloy } from '../../../../core/foundry/alloys/index.js';
import { benchCheck } from '../../../../core/foundry/charge/bench-check.js';
import { coolInCrucible, crucibleBody, heatLoss } from '../../../../core/foundry/charge/cooling.js';
import {
  bilgeCrucible,
  crucibles,
  measuredCrucible,
  workingCapacity,
} from '../../../../core/foundry/charge/crucibles.js';
import { splitHeats } from '../../../../core/foundry/charge/heats.js';
import { planMelt } from '../../../../core/foundry/charge/melt.js';
import type { MeltInput } from '../../../../core/foundry/charge/melt-plan.js';
import { findPlastic } from '../../../../core/foundry/material.js';
import { lowestPour } from '../../../../core/foundry/pour.js';

const seed = 20512;
const bronze = findAlloy('tin-bronze')!;
const casting = (name: string, metal: number, thinnestModulus: number, quantity = 1) => ({
  name,
  quantity,
  metal,
  thinnestModulus,
  pourTime: 3,
});
const base: MeltInput = {
  alloy: bronze,
  castings: [casting('wheel', 600, 3), casting('pinion', 200, 1.5, 3)],
  metalTemperature: 1130,
  metalRange: [1050, 1200],
  meltLoss: 0.015,
  reserveFraction: 0.1,
  furnace: { power: 3000, efficiency: 0.5 },
};

const anyCasting = fc.record({
  quantity: fc.integer({ min: 1, max: 6 }),
  metal: fc.double({ min: 5, max: 3000, noNaN: true }),
  thinnestModulus: fc.double({ min: 0.4, max: 10, noNaN: true }),
  pourTime: fc.double({ min: 0.5, max: 12, noNaN: true }),
});
const anyCastings = fc
  .array(anyCasting, { minLength: 1, maxLength: 8 })
  .map((list) => list.map((c, i) => ({ ...c, name: `part-${i}` })));

describe('splitHeats', () => {
  it(`loses no mould, halves none, overfills none but those too large, thinnest first (seed ${seed})`, () => {
    fc.assert(
      fc.property(
        anyCastings,
        fc.double({ min: 200, max: 8000, noNaN: true }),
        fc.integer({ min: 1, max: 9 }),
        (castings, capacity, most) => {
          const { heats, tooLarge } = splitHeats(castings, capacity, most);
          const poured = heats
            .flat()
            .map((m) => `${m.name} ${m.copy}`)
            .sort();
          const wanted = castings
            .flatMap((c) => Array.from({ length: c.quantity }, (_, i) => `${c.name} ${i + 1}`))
            .sort();
          expect(poured).toEqual(wanted);
          for (const heat of heats) {
            expect(heat.length).toBeLessThanOrEqual(most);
            const metal = heat.reduce((s, m) => s + m.metal, 0);
            if (metal > capacity * (1 + 1e-9)) {
              expect(heat).toHaveLength(1);
              expect(tooLarge).toContain(heat[0]!.name);
            }
            const moduli = heat.map((m) => m.thinnestModulus);
            expect(moduli).toEqual([...moduli].sort((a, b) => a - b));
          }
          expect(tooLarge).toEqual(castings.filter((c) => c.metal > capacity).map((c) => c.name));
          const firsts = heats.map((h) => h[0]!.thinnestModulus);
          expect(firsts).toEqual([...firsts].sort((a, b) => a - b));
        },
      ),
      { seed, numRuns: 300 },
    );
  });

  it('largest first where that saves a heat: 6, 5, 4, 3 kg and 2, thinnest lightest, in heats of 10 kg', () => {
    // Thinnest first fills 2 + 3 + 4 and 5, then 6 with neither: 3 heats. Largest first fills 6 + 4 and 5 + 3 + 2.
    const castings = [2, 3, 4, 5, 6].map((kg) => casting(`c${kg}`, kg * 1000, kg));
    const { heats } = splitHeats(castings, 10_000);
    expect(heats.map((h) => h.map((m) => m.name))).toEqual([
      ['c2', 'c3', 'c5'],
      ['c4', 'c6'],
    ]);
  });
});

describe('planMelt', () => {
  it('takes one heat in the smallest crucible that holds it', () => {
    const plan = planMelt(base);
    expect(plan.heats).toHaveLength(1);
    const charge = (1200 * 1.1) / 0.985;
    expect(plan.heats[0]!.charge).toBe(Math.ceil(charge));
    expect(plan.crucible.owned).toBe(false);
    const next = crucibles.filter((c) => workingCapacity(c, bronze) < Math.ceil(charge)).at(-1)!;
    expect(workingCapacity(next, bronze)).toBeLessThan(charge);
    expect(plan.crucible.capacity).toBeGreaterThanOrEqual(charge);
  });

  it('rounds up to the scale’s step, and counts time from power and efficiency', () => {
    const plan = planMelt({ ...base, scaleStep: 50 });
    const [heat] = plan.heats;
    expect(heat!.charge).toBe(1350); // 1340.1 g
    expect(heat!.time).toBeCloseTo(heat!.drawn / 3000, 9);
    // 627 J/g to 1150 °C over 0.5, and a little more for what it loses on the way.
    expect(heat!.drawn / 1350).toBeGreaterThan(2 * 610);
    expect(heat!.drawn / 1350).toBeLessThan(2 * 660);
    expect(planMelt({ ...base, furnace: { efficiency: 0.5 } }).heats[0]!.time).toBeUndefined();
  });

  it('a small crucible makes several heats; each mould whole, in one of them', () => {
    const own = [measuredCrucible('little', 130_000)];
    const plan = planMelt({ ...base, crucibles: own });
    expect(plan.crucible).toMatchObject({ name: 'little', owned: true });
    expect(plan.heats.length).toBeGreaterThan(1);
    for (const h of plan.heats) expect(h.charge).toBeLessThanOrEqual(workingCapacity(own[0]!, bronze));
    expect(plan.findings.map((f) => f.code)).toContain('several-heats');
  });

  it('says so when one mould exceeds the crucible, and which would hold it', () => {
    const plan = planMelt({ ...base, crucibles: [measuredCrucible('tiny', 80_000)] });
    const finding = plan.findings.find((f) => f.code === 'mould-exceeds-crucible')!;
    expect(finding.severity).toBe('warn');
    // 600 · 1.1/0.985 = 671 g; 80 ml · 0.8 · 7.8 = 499 g.
    expect(finding.message).toMatch(/One mould of wheel takes a charge of 671 g; tiny holds 499 g/);
    expect(finding.remedy).toMatch(/as much as A-shape crucible A0/); // 998 g of brass
    expect(finding.remedy).toMatch(/or lighten the casting or its gating\.$/);
    const tree = planMelt({
      ...base,
      castings: base.castings.map((c) => ({ ...c, patterns: 3 })),
      crucibles: [measuredCrucible('tiny', 80_000)],
    });
    const told = tree.findings.find((f) => f.code === 'mould-exceeds-crucible')!;
    expect(told.remedy).toMatch(/or stand fewer patterns on the tree\.$/);
  });

  it('of two flasks from one melt the second, larger one gets colder metal (common practice, no source)', () => {
    const plan = planMelt({ ...base, castings: [casting('large', 500, 3), casting('small', 150, 1.5)] });
    const [first, second] = plan.heats[0]!.moulds;
    expect([first!.name, second!.name]).toEqual(['small', 'large']);
    // A pot of a pound or two of bronze: tens of degrees between two flasks.
    expect(first!.temperature - second!.temperature).toBeGreaterThan(20);
    expect(first!.temperature - second!.temperature).toBeLessThan(120);
    expect(plan.heats[0]!.leaves).toBeGreaterThan(first!.temperature);
  });

  it('raises the start so that the last still fills, and no higher than the range', () => {
    const lowest = lowestPour(bronze, 1.5);
    const castings = [casting('pinion', 400, 1.5, 2)];
    const plan = planMelt({ ...base, castings, metalTemperature: lowest });
    expect(plan.metalTemperature).toBeGreaterThan(lowest + 10);
    expect(plan.metalTemperature).toBeLessThanOrEqual(1200);
    expect(plan.findings.map((f) => f.code)).toEqual(['pour-raised', 'melt-leaves-hot']);
    // A degree less would not do.
    const set = { ...base, castings, temperatureSet: true };
    const pots = (metalTemperature: number) =>
      planMelt({ ...set, metalTemperature }).heats.flatMap((h) => h.moulds.map((m) => m.reheated));
    expect(pots(plan.metalTemperature)).toEqual([false, false]);
    expect(pots(plan.metalTemperature - 1.3)).toEqual([false, true]);
  });

  it('a temperature set by hand is kept, and the pot goes back before the mould it would not fill', () => {
    const plan = planMelt({
      ...base,
      metalTemperature: lowestPour(bronze, 1.5),
      temperatureSet: true,
      castings: [casting('thin', 200, 1.5, 2)],
    });
    expect(plan.metalTemperature).toBe(lowestPour(bronze, 1.5));
    expect(plan.heats[0]!.moulds.map((m) => m.reheated)).toEqual([false, true]);
    const [finding] = plan.findings;
    expect(finding).toMatchObject({ code: 'metal-cools', severity: 'warn' });
    expect(finding!.message).toMatch(/thin \(mould 2 of 2\) would get .* at 10\d\d °C; it needs 1092 °C/);
  });

  it('a reheated pot leaves hotter than the mould gets it, by what the way takes, and more so with less in it', () => {
    const plan = planMelt({
      ...base,
      metalTemperature: lowestPour(bronze, 1.5),
      temperatureSet: true,
      castings: [casting('thin', 200, 1.5, 3)],
    });
    const [heat] = plan.heats;
    const again = heat!.moulds.filter((m) => m.reheated);
    expect(again.length).toBeGreaterThan(1);
    let before = heat!.leaves;
    for (const m of again) {
      expect(m.temperature).toBe(plan.metalTemperature);
      expect(m.leaves!).toBeGreaterThan(before);
      before = m.leaves!;
    }
    expect(heat!.moulds.filter((m) => !m.reheated).every((m) => m.leaves === undefined)).toBe(true);
  });

  it('says so when little metal must leave the furnace over its range', () => {
    const codes = (metal: number) =>
      planMelt({ ...base, castings: [casting('one', metal, 3)] }).findings.map((f) => f.code);
    expect(codes(100)).toContain('melt-leaves-hot');
    expect(codes(6000)).not.toContain('melt-leaves-hot');
  });

  it(`no mould gets metal under its least; cooler from first to last but where reheated (seed ${seed + 1})`, () => {
    fc.assert(
      fc.property(
        anyCastings,
        fc.constantFrom(...crucibles),
        fc.integer({ min: 1, max: 50 }),
        (castings, crucible, scaleStep) => {
          const plan = planMelt({ ...base, castings, crucibles: [crucible], scaleStep });
          const moulds = plan.heats.flatMap((h) => h.moulds);
          for (const m of moulds) expect(m.temperature).toBeGreaterThanOrEqual(m.lowest - 1e-6);
          expect(moulds.some((m) => m.reheated)).toBe(plan.findings.some((f) => f.code === 'metal-cools'));
          for (const heat of plan.heats) {
            heat.moulds.forEach((m, i) => {
              if (i > 0 && !m.reheated) expect(m.temperature).toBeLessThan(heat.moulds[i - 1]!.temperature);
              else expect(m.temperature).toBe(plan.metalTemperature);
            });
            expect(heat.charge % scaleStep).toBeCloseTo(0, 6);
            expect(heat.charge * (1 - base.meltLoss)).toBeGreaterThanOrEqual(
              heat.inMoulds * 1.1 * (1 - 1e-9),
            );
            expect(heat.castings.reduce((s, c) => s + c.quantity, 0)).toBe(heat.moulds.length);
            expect(heat.leaves).toBeGreaterThan(plan.metalTemperature);
          }
          expect(moulds.length).toBe(castings.reduce((s, c) => s + c.quantity, 0));
        },
      ),
      { seed: seed + 1, numRuns: 60 },
    );
  });
});

describe('coolInCrucible', () => {
  const body = crucibleBody(bilgeCrucible(2));

  it('black-body part of the loss: ε σ A T⁴ at 1100 °C is 201.6 kW/m² of ε A (σ = 5.67e-8)', () => {
    // Dark surfaces only: silver's skin counts 0.1, the ware 0.85. Convection 10 W/(m² K) over 1080 K.
    const area = { openArea: 10_000, wallArea: 0, heatCapacity: 1 };
    const fourth = (1373.15 ** 4 - 293.15 ** 4) * 5.670374419e-8;
    expect(heatLoss(area, 'silver', 1100)).toBeCloseTo(0.01 * (0.1 * fourth + 10 * 1080), 6);
  });

  it('backwards undoes forwards; two halves make the whole', () => {
    const later = coolInCrucible(bronze, body, 1500, 1180, 40);
    expect(later).toBeLessThan(1180);
    expect(coolInCrucible(bronze, body, 1500, later, -40)).toBeCloseTo(1180, 3);
    const half = coolInCrucible(bronze, body, 1500, 1180, 20);
    expect(coolInCrucible(bronze, body, 1500, half, 20)).toBeCloseTo(later, 6);
  });

  it('radiation alone follows 1/T³ − 1/T₀³ = 3 ε σ A t/C, the closed form of dT/dt = −k T⁴', () => {
    // A huge heat makes room temperature and convection small beside it: iron at 1500 °C, 1 % of the loss.
    const hot = { openArea: 5000, wallArea: 20_000, heatCapacity: 800 };
    const k = (5.670374419e-14 * (0.4 * 5000 + 0.85 * 20_000)) / 800;
    const closed = (3 * k * 60 + 1773.15 ** -3) ** (-1 / 3) - 273.15;
    const iron = findAlloy('grey-iron')!;
    const drop = 1500 - coolInCrucible(iron, hot, 0, 1500, 60);
    expect(drop).toBeGreaterThan(1500 - closed);
    expect(drop / (1500 - closed)).toBeLessThan(1.06);
  });
});

describe('benchCheck', () => {
  it('metal over plastic, less the growth: 8.72/1.24/1.016³ = 6.71', () => {
    const pla = findPlastic('PLA')!;
    const volume = 20_000;
    const metal = (volume / 1.016 ** 3) * bronze.density;
    const check = benchCheck('knob', volume, metal, pla);
    expect(check.pattern).toBeCloseTo(24.8, 9);
    expect(check.ratio).toBeCloseTo(8.72 / 1.24 / 1.016 ** 3, 9);
    expect(check.ratio).toBeCloseTo(6.705, 3);
    expect(check.pattern * check.ratio).toBeCloseTo(metal, 9);
  });
});
