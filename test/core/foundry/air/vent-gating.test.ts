import { beforeAll, describe, expect, it } from 'vitest';
import { findPockets, ventGating } from '../../../../core/foundry/air/index.js';
import { findAlloy } from '../../../../core/foundry/alloys/index.js';
import { type GatingInput, gatingMetal, planGating } from '../../../../core/foundry/gating/index.js';
import { ventBackPressure } from '../../../../core/foundry/gating/vents.js';
import { findInvestment } from '../../../../core/foundry/investment.js';
import { noStock } from '../../../../core/part/stock.js';
import { loadKernel, measureBounds, measurePlanRadius } from '../../../../core/solid/index.js';
import type { Box, Kernel, Mesh, Vec3 } from '../../../../core/solid/types.js';
import doubleHelical from '../../../../generators/double-helical-gear.js';
import { castingOf } from '../../../helpers/casting-of.js';

const gypsum = findInvestment('gypsum-bonded')!;

let kernel: Kernel;
beforeAll(async () => {
  kernel = await loadKernel();
});

const alloy = findAlloy('tin-bronze')!;
const inputFor = (mesh: Mesh, at: Vec3, outerDiameter: number, innerDiameter = 0): GatingInput => ({
  gates: [{ name: 'gate', at, innerDiameter, outerDiameter }],
  vents: [],
  casting: castingOf(mesh),
  metal: gatingMetal(alloy, gypsum),
});

describe('vents for what is trapped', () => {
  const comb = (toothTop: number): Mesh =>
    kernel.scope(() =>
      kernel
        .union([
          kernel.box([0, -8, 0], [70, 8, 8]),
          ...[0, 1, 2].map((i) =>
            kernel.hull([
              kernel.box([45 + 9 * i, -4, 7], [51 + 9 * i, 4, 8]),
              kernel.box([48 + 9 * i - toothTop, -4, 17], [48 + 9 * i + toothTop, 4, 18]),
            ]),
          ),
        ])
        .mesh(),
    );
  const ventIt = (mesh: Mesh) => {
    const input = inputFor(mesh, [8, 0, 8], 14);
    return kernel.scope(() => {
      const { air, findings, gating, gated } = ventGating(planGating(input), input, mesh, kernel, 0.01);
      return { air, findings, gating, mesh: gated.mesh() };
    });
  };

  it('three teeth with flats get a vent each, and then nothing is left', () => {
    const { air, findings, gating, mesh } = ventIt(comb(3));
    expect(air.pockets.map((p) => Math.round(p.volume))).toEqual([480, 480, 480]);
    expect(air.ventsAdded).toHaveLength(3);
    expect(air.left).toEqual([]);
    expect(findings.map((f) => f.code)).toEqual(['air-vents-added']);
    expect(gating.vents).toHaveLength(3);
    expect(findPockets(mesh, { openHeight: gating.topHeight - 1e-3 }).pockets).toEqual([]);
  });

  it('teeth too narrow on top for a vent are told, with what is left and where', () => {
    const { air, findings } = ventIt(comb(0.3));
    expect(air.ventsAdded).toEqual([]);
    expect(air.left).toHaveLength(3);
    // Teeth from 6 mm to 0.6 mm wide over 10 mm, 8 mm long.
    for (const p of air.left) expect(p.volume).toBeCloseTo((8 * 10 * (6 + 0.6)) / 2, 1);
    const trapped = findings.find((f) => f.code === 'air-trapped');
    expect(trapped?.message).toContain('0.79 ml of air in 3 places');
    expect(trapped?.remedy.length).toBeGreaterThan(20);
  });
});

describe('a double-helical gear', () => {
  const built = (vents: boolean) =>
    kernel.scope(() => {
      const part = doubleHelical.build(doubleHelical.parameters.parse({}), noStock, {
        kernel,
        tolerance: 0.02,
      });
      if (part.solid === null) throw new Error('refused');
      const mesh = part.solid.mesh();
      const first = part.gates[0]!;
      const input = {
        ...inputFor(mesh, first.at, first.outerDiameter, first.innerDiameter),
        vents: vents ? part.vents : [],
      };
      const result = ventGating(planGating(input), input, mesh, kernel, 0.02);
      return { air: result.air, mesh, gate: first };
    });

  it('upright with its own vents traps nothing; leaning by 2° a wedge of the rim between two of them, until it is vented', () => {
    const { air } = built(true);
    expect(air.pockets).toEqual([]);
    expect(air.left).toEqual([]);
    expect(air.ventsAdded).toHaveLength(air.offLevel.ventsAdded);
    expect(air.offLevel.ventsAdded).toBeGreaterThan(0);
    expect(air.offLevel.before.volume).toBeGreaterThan(50);
    expect(air.offLevel.left.volume).toBe(0);
  });

  it('upright without vents: the rim above the web is one pocket; vents are put on it until none is left', () => {
    const { air, mesh } = built(false);
    const { max } = measureBounds(mesh) as Box;
    for (const p of air.pockets) expect(p.at[2]).toBeCloseTo(max[2], 3);
    expect(air.left).toEqual([]);
    expect(air.ventsAdded.length).toBeGreaterThanOrEqual(air.pockets.length);
  });

  it('on its side, gated at the height of its axis: the upper half is one pocket under its highest tooth', () => {
    const { mesh, gate } = built(true);
    const { min, max } = measureBounds(mesh) as Box;
    const across = (gate.innerDiameter + gate.outerDiameter) / 4;
    const [out, inside] = [-gate.at[2] - 20, -gate.at[2] + 0.5];
    const { gated, half } = kernel.scope(() => {
      const side = kernel.fromMesh(mesh).rotate('x', Math.PI / 2);
      const runner = kernel.box([across - 1, out, -2], [across + 1, inside, 2]);
      const sprue = kernel.frustum([across, out + 3], 0, 0.8, 200, 0.8, 0.01);
      return {
        gated: side.add(runner, sprue).mesh(),
        half: side.intersect(kernel.box([-200, -200, 2], [200, 200, 200])).volume(),
      };
    });
    const found = findPockets(gated, { openHeight: 199.9 });
    expect(found.pockets).toHaveLength(1);
    expect(found.pockets[0]!.volume / half).toBeCloseTo(1, 4);
    expect(found.pockets[0]!.at[2]).toBeGreaterThan(0.99 * max[1]);
    expect(min[1]).toBeLessThan(0);
  });
});

it('air through two vents by hand: 10 m/s in ø2 × 50 mm', () => {
  // 32 μ L v/d² = 32 · 3.3e-5 · 0.05 · 10 / 4e-6 = 132 Pa; 1.5 (0.52/2) 10² = 39 Pa.
  const vent = (x: number) => ({
    name: `vent ${x}`,
    diameter: 2,
    path: [
      [x, 0, 0],
      [x, 0, 50],
    ] as const,
  });
  expect(ventBackPressure([vent(0), vent(9)], 2 * 10_000 * Math.PI)).toBeCloseTo(171, 6);
});

describe('a webbed gear that names no vents', () => {
  it('gets them round its rim, level and off level, and comes to an end', () => {
    const wheel = { teeth: 41, faceWidth: 24, webThickness: 9, rimThickness: 7, bore: 16, hubDiameter: 32 };
    kernel.scope(() => {
      const kit = { kernel, tolerance: 0.02 };
      const part = doubleHelical.build(doubleHelical.parameters.parse(wheel), noStock, kit);
      if (part.solid === null) throw new Error('refused');
      const mesh = part.solid.mesh();
      const input = { ...inputFor(mesh, [0, 0, 24], 32, 16), gates: part.gates };
      const { air } = ventGating(planGating(input), input, mesh, kernel, 0.02);
      expect(air.pockets).toHaveLength(1);
      expect(air.left).toEqual([]);
      expect(air.offLevel.left.places).toBe(0);
      expect(air.ventsAdded.length).toBeGreaterThanOrEqual(3);
      const rim = measurePlanRadius(mesh);
      for (const v of air.ventsAdded) expect(Math.hypot(v.at[0], v.at[1])).toBeGreaterThan(0.6 * rim);
      return null;
    });
  });
});
