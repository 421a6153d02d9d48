/**
 * What the trade has found by doing, each fact by name against our own calculation. All common practice, no source.
 */
import { beforeAll, describe, expect, it } from 'vitest';
import { findPockets } from '../../core/foundry/air/index.js';
import { findAlloy } from '../../core/foundry/alloys/index.js';
import { checkBurnout, planBurnout } from '../../core/foundry/burnout.js';
import { planMelt } from '../../core/foundry/charge/melt.js';
import { planFlask } from '../../core/foundry/flask.js';
import { findFlask, flaskVolume } from '../../core/foundry/flasks.js';
import {
  buildGating,
  copperPourFactors,
  copperPourTime,
  gatingMetal,
  planGating,
} from '../../core/foundry/gating/index.js';
import { handbookGrowth } from '../../core/foundry/growth.js';
import { findInvestment, mixFor, planInvestment } from '../../core/foundry/investment.js';
import { castingTolerance } from '../../core/foundry/iso-8062.js';
import { findPlastic } from '../../core/foundry/material.js';
import { planPour } from '../../core/foundry/pour.js';
import { planStock } from '../../core/foundry/stock.js';
import { noStock } from '../../core/part/stock.js';
import { loadKernel, measureBounds, measureMesh, measurePlanRadius } from '../../core/solid/index.js';
import type { Box, Kernel } from '../../core/solid/types.js';
import doubleHelical from '../../generators/double-helical-gear.js';

const bronze = findAlloy('tin-bronze')!;
const gypsum = findInvestment('gypsum-bonded')!;
const celsius = (fahrenheit: number) => ((fahrenheit - 32) * 5) / 9;
const hour = 3600;
const programme = (diameter: number) =>
  planBurnout({
    largestFlaskDiameter: diameter,
    plastic: findPlastic('PLA')!,
    castingTemperature: celsius(1100),
    investment: gypsum,
  });

describe('Facts of the trade (common practice, no source)', () => {
  // 1 h up to 300 °F, hold 3 h; 1 h up to 700 °F, hold 2 h; 2 h up to 1382 °F, hold 4 h; down to 1100 °F.
  const oneCan = [
    { from: 20, to: celsius(300), hours: 1, hold: 3 },
    { from: celsius(300), to: celsius(700), hours: 1, hold: 2 },
    { from: celsius(700), to: celsius(1382), hours: 2, hold: 4 },
  ];
  const can = findFlask('soup-can')!;

  it('the one-can burnout: same holds at the same steps, no faster a ramp, not a third longer in all', () => {
    const plan = programme(can.insideDiameter);
    const held = plan.segments.slice(0, -1).filter((s) => s.soak > 0);
    expect(held.map((s) => s.soak / hour)).toEqual(oneCan.map((s) => s.hold));
    // 730 °C keeps 20 °C under the 1382 °F (750 °C) that is the plaster's ceiling; the lower steps agree within 2 °C.
    const off = held.map((s, i) => s.to - oneCan[i]!.to);
    expect(Math.abs(off[0]!)).toBeLessThan(2);
    expect(Math.abs(off[1]!)).toBeLessThan(2);
    expect(off[2]).toBeCloseTo(-20, 6);
    for (const step of oneCan) {
      const theirs = (step.to - step.from) / step.hours;
      for (const s of plan.segments.filter(
        (x) => x.from >= step.from - 2 && x.to <= step.to + 2 && x.rate > 0,
      ))
        expect(s.rate).toBeLessThanOrEqual(theirs);
    }
    const theirs = oneCan.reduce((t, s) => t + s.hours + s.hold, 0);
    const last = plan.segments.at(-1)!;
    const ours = (plan.total - last.ramp - last.soak) / hour;
    expect(ours).toBeGreaterThanOrEqual(theirs);
    expect(ours).toBeLessThan(theirs * 1.33);
    expect(last.to).toBeCloseTo(593.33, 2);
  });

  it('the one-can programme itself passes the check', () => {
    const segments = oneCan.map((s) => ({
      from: s.from,
      to: s.to,
      rate: (s.to - s.from) / s.hours,
      soak: s.hold * hour,
    }));
    expect(checkBurnout(segments, can.insideDiameter, gypsum)).toEqual([]);
  });

  it('a mould jumped from 450 °F straight to 1200 °F is warned of', () => {
    // "Straight" at the 800 °C/h and more of a kiln at full power.
    const segments = [
      { from: 20, to: 149, rate: 100, soak: 3 * hour },
      { from: 149, to: celsius(450), rate: 100, soak: hour },
      { from: celsius(450), to: celsius(1200), rate: 800, soak: hour },
    ];
    const findings = checkBurnout(segments, can.insideDiameter, gypsum);
    expect(findings.map((f) => f.code)).toEqual(['burnout-ramp-steep']);
    expect(findings[0]!.message).toContain('cristobalite and quartz');
  });

  it('1100 °F is a flask temperature our pour gives for thin bronze', () => {
    const at = (thinnestModulus: number) =>
      planPour({ alloy: bronze, parts: [{ name: 'gear', thinnestModulus }], investment: gypsum })
        .flaskTemperature;
    // Plates of 1.4 and 2 mm.
    expect(at(0.7)).toBeGreaterThan(celsius(1100));
    expect(at(1)).toBeLessThan(celsius(1100));
  });

  it('400 g of powder and 160 g of water is about one soup-can mould; a 25 lb bag makes about 25', () => {
    // A pattern with sprue of 20 ml, as for a piece 1.5 in across.
    const net = mixFor(flaskVolume(can) - 20e3, gypsum, 0.4, 0);
    expect(Math.abs(net.powder / 400 - 1)).toBeLessThan(0.05);
    expect(Math.abs(net.water / 160 - 1)).toBeLessThan(0.05);
    const flask = planFlask({
      gatedSize: [38, 38, 70],
      gatedVolume: 20e3,
      gatedRadius: 19,
      patternHeight: 38,
      alloy: bronze,
      investment: gypsum,
      flasks: [can],
    });
    expect(flask.findings).toEqual([]);
    const bag = 25 * 453.59237;
    const made = bag / planInvestment({ investment: gypsum, flasks: [flask] }).powder;
    expect(made).toBeGreaterThan(24);
    expect(made).toBeLessThan(27);
  });

  it('a bronze piece of pattern 1.490 in comes out, filed, at 1.457 in', () => {
    const rough = (1.49 * 25.4) / handbookGrowth(bronze);
    const finished = 1.457 * 25.4;
    const filed = (rough - finished) / 2;
    // What is left to file is a light hand's work, and within our skin stock for a print of 0.2 mm layers.
    const skin = planStock({ largestDimension: finished, layerHeight: 0.2 }).stock.skin;
    expect(filed).toBeGreaterThan(0.05);
    expect(filed).toBeLessThanOrEqual(skin);
    // The pattern we would print for that part agrees within half the DCTG 6 of investment casting (± 0.32 mm).
    const ours = (finished + 2 * skin) * handbookGrowth(bronze);
    expect(Math.abs(ours - 1.49 * 25.4)).toBeLessThan(castingTolerance(finished, 6) / 2);
  });

  it('a mould with no can round it cracked: warned of, and what to do', () => {
    const mould = (wall: number) =>
      planFlask({
        gatedSize: [38, 38, 70],
        gatedVolume: 20e3,
        gatedRadius: 19,
        patternHeight: 38,
        alloy: bronze,
        investment: gypsum,
        flasks: [{ ...can, wall }],
      }).findings;
    expect(mould(can.wall)).toEqual([]);
    const [bare, ...others] = mould(0);
    expect(others).toEqual([]);
    expect(bare).toMatchObject({ code: 'mould-unbanded', severity: 'warn' });
    expect(bare!.remedy.length).toBeGreaterThan(10);
  });

  it('of two flasks from one melt the second, larger one filled worse: its margins are the smaller ones', () => {
    // Two gears with rims alike, so that only size and turn differ.
    const cast = (name: string, metal: number) => ({
      name,
      quantity: 1,
      metal,
      thinnestModulus: 1.5,
      pourTime: copperPourTime(metal, copperPourFactors.tinBronze),
    });
    const margins = (...castings: ReturnType<typeof cast>[]) =>
      planMelt({
        alloy: bronze,
        castings,
        metalTemperature: 1130,
        metalRange: [1050, 1200],
        temperatureSet: true,
        meltLoss: 0.015,
        reserveFraction: 0.1,
        furnace: { efficiency: 0.5 },
      }).heats[0]!.moulds.map((m) => [m.name, m.reheated ? -1 : m.temperature - m.lowest] as const);
    const [first, second] = margins(cast('small', 200), cast('large', 600));
    expect([first![0], second![0]]).toEqual(['small', 'large']);
    expect(second![1]).toBeLessThan(first![1]);
    // Poured first it has the margin that the small one had, or more: the turn, not the mould, takes it away.
    const [, turned] = margins(cast('large', 600), cast('small', 200));
    expect(turned![1]).toBeLessThan(first![1]);
    // And it is longer in filling, while sections alike freeze in the same time.
    expect(cast('large', 600).pourTime).toBeGreaterThan(cast('small', 200).pourTime);
  });

  it('of two flasks from one melt the thinner goes first, whatever its size', () => {
    const parts = [
      { name: 'large', thinnestModulus: 3 },
      { name: 'small', thinnestModulus: 1.5 },
    ];
    expect(planPour({ alloy: bronze, parts, investment: gypsum }).order).toEqual(['small', 'large']);
  });

  describe('teeth blunt at the far rim, where air had no way out', () => {
    let kernel: Kernel;
    beforeAll(async () => {
      kernel = await loadKernel();
    });

    const wheel = { teeth: 41, faceWidth: 24, webThickness: 9, rimThickness: 7, bore: 16, hubDiameter: 32 };
    /** A gear whose rim stands over its web, gated at the hub. */
    const gear = (ownVents: boolean) =>
      kernel.scope(() => {
        const part = doubleHelical.build(doubleHelical.parameters.parse(wheel), noStock, {
          kernel,
          tolerance: 0.02,
        });
        if (part.solid === null) throw new Error('refused');
        const mesh = part.solid.mesh();
        const { volume, area } = measureMesh(mesh);
        const { min, max } = measureBounds(mesh) as Box;
        const radius = measurePlanRadius(mesh);
        const input = {
          gates: part.gates,
          vents: ownVents ? part.vents : [],
          casting: { volume, area, mass: volume * 0.0088, top: max[2], bottom: min[2], radius },
          metal: gatingMetal(bronze, gypsum),
        };
        const gated = part.solid.add(buildGating(planGating(input), kernel, 0.02)).mesh();
        // Cup and vents end at one level, open to the air.
        const openHeight = (measureBounds(gated) as Box).max[2] - 0.1;
        const { pockets } = findPockets(gated, { openHeight });
        // The rim above the web: all that is over the web's upper face and outside the hub.
        const [web, hub] = [(wheel.faceWidth + wheel.webThickness) / 2, wheel.hubDiameter / 2 + 4];
        const above = part.solid
          .intersect(kernel.box([-100, -100, web], [100, 100, 100]))
          .subtract(kernel.frustum([0, 0], 0, hub, 100, hub, 0.02))
          .volume();
        return { pockets, above, vents: part.vents, radius, top: max[2] };
      });

    it('without vents the whole rim above the web is shut in, to its very top', () => {
      const { pockets, above, top } = gear(false);
      expect(pockets).toHaveLength(1);
      expect(pockets[0]!.at[2]).toBeCloseTo(top, 3);
      expect(Math.abs(pockets[0]!.volume / above - 1)).toBeLessThan(0.02);
    });

    it('the gear’s own vents stand there, all on the rim, and leave no air in', () => {
      const { pockets, vents, radius, top } = gear(true);
      expect(pockets).toEqual([]);
      for (const v of vents) {
        expect(v.at[2]).toBeCloseTo(top, 3);
        expect(Math.hypot(v.at[0], v.at[1])).toBeGreaterThan(0.7 * radius);
      }
    });
  });
});
