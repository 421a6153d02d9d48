import fc from 'fast-check';
import { beforeAll, describe, expect, it } from 'vitest';
import { seatOnTop } from '../../../../core/foundry/air/domed-top.js';
import { ventGating } from '../../../../core/foundry/air/index.js';
import {
  buildGating,
  type GatingInput,
  isBuildable,
  planGating,
} from '../../../../core/foundry/gating/index.js';
import { holdsFoot, measureSeat } from '../../../../core/foundry/gating/seat.js';
import type { GatePlace, VentPlace } from '../../../../core/part/contract.js';
import { inspectMesh, loadKernel, measureBounds } from '../../../../core/solid/index.js';
import type { Kernel, Mesh, Solid, Vec3 } from '../../../../core/solid/types.js';
import { castingOf } from '../../../helpers/casting-of.js';
import { tubeInput } from './cases.js';
import { pierce, shallowestOverhang } from './mesh-facts.js';

const degree = Math.PI / 180;
const tolerance = 0.01;
const range = { least: 1.5, largest: 4 };
let kernel: Kernel;
beforeAll(async () => {
  kernel = await loadKernel();
});

/** How deep a ball falls away within a circle about its top. */
const sagitta = (ball: number, circle: number): number => ball - Math.sqrt(ball * ball - circle * circle);

const inputFor = (
  mesh: Mesh,
  gates: readonly GatePlace[],
  vents: readonly VentPlace[] = [],
): GatingInput => ({
  gates,
  vents,
  casting: castingOf(mesh),
  metal: tubeInput(10, 0, 10, 8, []).input.metal,
});

const ball = (radius: number, at: Vec3 = [0, 0, radius]): Solid => kernel.sphere(at, radius, tolerance);
const meshOf = (make: () => Solid): Mesh => kernel.scope(() => make().mesh());

describe('the seat under a foot', () => {
  it('of a ball is its cap’s height', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 3, max: 40, noNaN: true }),
        fc.double({ min: 0.1, max: 0.8, noNaN: true }),
        (radius, share) => {
          const seat = measureSeat(
            meshOf(() => ball(radius)),
            [0, 0],
            share * radius,
            1,
          )!;
          const exact = sagitta(radius, share * radius);
          expect(seat.top).toBeCloseTo(2 * radius, 3);
          // Never less than it is but for the chords; at most what half a step more would give.
          expect(seat.fall).toBeGreaterThan(exact - tolerance);
          expect(seat.fall).toBeLessThan(sagitta(radius, share * radius * (1 + 1 / 16)) + 2 * tolerance);
        },
      ),
      { numRuns: 20, seed: 8 },
    );
  });

  it('of a slope is its rise across the foot; there is none over an edge', () => {
    const wedge = meshOf(() =>
      kernel
        .extrude(
          [
            [
              [-20, 0],
              [20, 0],
              [20, 10],
              [-20, 20],
            ],
          ],
          -15,
          15,
        )
        .rotate('x', Math.PI / 2),
    );
    const seat = measureSeat(wedge, [0, 0], 4, 2)!;
    expect(seat.fall).toBeGreaterThanOrEqual((8 * 10) / 40 - 1e-3);
    expect(seat.fall).toBeLessThan((8 * 10) / 40 + 0.15);
    expect(seat.beside - seat.top).toBeCloseTo((2 * 10) / 40, 0);
    expect(seat.under).toBeCloseTo(0, 6);
    expect(measureSeat(wedge, [17, 0], 4, 2)).toBeNull();
  });

  it('tells what is too thin to sink a foot into', () => {
    const plate = (t: number) =>
      measureSeat(
        meshOf(() => kernel.box([-9, -9, 0], [9, 9, t])),
        [0, 0],
        3,
        1,
      )!;
    expect(holdsFoot(plate(0.9))).toBe(false);
    expect(holdsFoot(plate(1.1))).toBe(true);
  });
});

/** Sound and one piece, not below the part, and printing without support above the part's own widest level. */
const expectGated = (part: Mesh, gated: Mesh, from: number): void => {
  expect(inspectMesh(gated)).toMatchObject({ ok: true, components: 1, genus: 0 });
  expect(measureBounds(gated)!.min[2]).toBe(measureBounds(part)!.min[2]);
  const over = shallowestOverhang(gated, from);
  if (over) expect(over.slope).toBeGreaterThanOrEqual(45 * degree);
};

describe('a gate', () => {
  it.each([
    [10, 8],
    [14, 20],
    [30, 12],
    [3, 4.6],
  ])('on a ball of radius %f: %f mm across, goes deeper by the seat', (radius, across) => {
    const part = meshOf(() => ball(radius));
    const seat = sagitta(radius, across / 2);
    const at: Vec3 = [0, 0, 2 * radius];
    const input = inputFor(part, [{ name: 'top', at, innerDiameter: 0, outerDiameter: across, seat }]);
    const plan = planGating(input);
    expect(isBuildable(plan)).toBe(true);
    expect(plan.gates[0]).toMatchObject({ at, seat });
    const { gating, gated, common } = kernel.scope(() => {
      const [solid, foot] = [kernel.fromMesh(part), buildGating(plan, kernel, tolerance)];
      return { gating: foot.mesh(), gated: solid.add(foot).mesh(), common: solid.intersect(foot).volume() };
    });
    expectGated(part, gated, radius + 0.01);
    expect(measureBounds(gating)!.min[2]).toBeCloseTo(2 * radius - seat - 0.4, 4);
    // A real overlap: a disc of four tenths of a millimetre and the cap over it.
    const foot = Math.PI * (plan.gates[0]!.outerDiameter / 2 - 0.2) ** 2;
    expect(common).toBeGreaterThan(0.4 * foot);
    // Nothing of the metal between foot and part is left hollow.
    for (const turn of [0.31, 1.37, 2.43, 3.53, 4.61, 5.71]) {
      const r = 0.8 * (plan.gates[0]!.outerDiameter / 2);
      expect(pierce(gated, r * Math.cos(turn), r * Math.sin(turn))).toHaveLength(2);
    }
  });

  it('without a seat would hang in the air at its rim: it is the seat that joins it', () => {
    const part = meshOf(() => ball(10));
    const place = { name: 'top', at: [0, 0, 20] as Vec3, innerDiameter: 0, outerDiameter: 12 };
    const gated = kernel.scope(() =>
      kernel
        .fromMesh(part)
        .add(buildGating(planGating(inputFor(part, [place])), kernel, tolerance))
        .mesh(),
    );
    expect(shallowestOverhang(gated, 17)!.slope).toBeLessThan(10 * degree);
  });

  it('on a slope, and at runners on two domes', () => {
    const wedge = meshOf(() =>
      kernel
        .extrude(
          [
            [
              [-20, 0],
              [20, 0],
              [20, 18],
              [-20, 26],
            ],
          ],
          -15,
          15,
        )
        .rotate('x', Math.PI / 2),
    );
    const found = measureSeat(wedge, [-4, 0], 5, 2)!;
    const place = {
      name: 'slope',
      at: [-4, 0, found.top] as Vec3,
      innerDiameter: 0,
      outerDiameter: 10,
      seat: found.fall,
    };
    const plan = planGating(inputFor(wedge, [place]));
    expectGated(
      wedge,
      kernel.scope(() =>
        kernel
          .fromMesh(wedge)
          .add(buildGating(plan, kernel, tolerance))
          .mesh(),
      ),
      0.01,
    );

    const pair = meshOf(() =>
      kernel.union([kernel.box([-30, -6, 0], [30, 6, 12]), ball(11, [-25, 0, 12]), ball(11, [25, 0, 12])]),
    );
    const domes = [-25, 25].map((x) => ({
      name: `dome ${x}`,
      at: [x, 0, 23] as Vec3,
      innerDiameter: 0,
      outerDiameter: 9,
      seat: sagitta(11, 4.5),
    }));
    const input = inputFor(pair, domes);
    const distances = domes.map(() => new Float64Array([1, 2, 3]));
    const two = planGating({ ...input, distances, settings: { gates: 2 } });
    expect(two.gates.map((g) => g.seat)).toEqual([sagitta(11, 4.5), sagitta(11, 4.5)]);
    const gated = kernel.scope(() =>
      kernel
        .fromMesh(pair)
        .add(buildGating(two, kernel, tolerance))
        .mesh(),
    );
    expect(inspectMesh(gated)).toMatchObject({ ok: true, components: 1, genus: 1 });
    expect(shallowestOverhang(gated, 12.1)!.slope).toBeGreaterThanOrEqual(45 * degree);
  });

  it('is refused where its seat is no number or deeper than the part', () => {
    const part = meshOf(() => ball(10));
    for (const seat of [-1, Number.NaN, 19.7, Number.POSITIVE_INFINITY]) {
      const plan = planGating(
        inputFor(part, [{ name: 'top', at: [0, 0, 20], innerDiameter: 0, outerDiameter: 8, seat }]),
      );
      expect(plan.findings.map((f) => f.code)).toContain('gating-input');
      expect(isBuildable(plan)).toBe(false);
    }
  });

  it('with a seat of nought is the same to the last bit as one without', () => {
    const { input } = tubeInput(30, 8, 20, 44, [[25, 0.3, 4]]);
    const zero = {
      ...input,
      gates: input.gates.map((g) => ({ ...g, seat: 0 })),
      vents: input.vents.map((v) => ({ ...v, seat: 0 })),
    };
    const build = (given: GatingInput) =>
      kernel.scope(() => buildGating(planGating(given), kernel, tolerance).mesh());
    expect(planGating(zero)).toEqual(planGating(input));
    expect(build(zero)).toEqual(build(input));
  });
});

describe('a vent', () => {
  it('of at least 1.5 mm stands on a ball of 3 mm', () => {
    const foot = seatOnTop(
      meshOf(() => ball(3)),
      [0, 0, 6],
      range,
    )!;
    expect(foot.footDiameter).toBeGreaterThanOrEqual(1.5);
    expect(foot.at[2]).toBeCloseTo(6, 3);
    expect(foot.seat).toBeGreaterThan(sagitta(3, foot.footDiameter / 2) - 2 * tolerance);
    expect(foot.seat).toBeLessThan(1);
  });

  it('stands on a cone’s tip, but on no needle, blade or top under a roof', () => {
    const cone = (radius: number, tip: Vec3) =>
      seatOnTop(
        meshOf(() => kernel.frustum([0, 0], 0, radius, 10, 0, tolerance)),
        tip,
        range,
      );
    // The least foot, 0.75 mm of radius, goes down to where the cone is as wide.
    const blunt = cone(5, [0, 0, 10])!;
    expect(blunt.footDiameter).toBe(1.5);
    expect(blunt.seat).toBeGreaterThanOrEqual(1.5 - 0.02);
    expect(blunt.seat).toBeLessThan(1.7);
    expect(cone(1.5, [0, 0, 10])).toBeNull();
    const blade = meshOf(() => kernel.box([-20, -0.6, 0], [20, 0.6, 12]));
    expect(seatOnTop(blade, [0, 0, 12], range)).toBeNull();
    const roofed = meshOf(() =>
      kernel.union([ball(5), kernel.box([-9, -9, 14], [9, 9, 16]), kernel.box([7, -9, 0], [9, 9, 16])]),
    );
    expect(seatOnTop(roofed, [0, 0, 10], range)).toBeNull();
  });

  it.each([
    ['a ball of 3 mm', (): Solid => ball(3, [30, 0, 22]), true],
    // Its top is flat enough for the least vent as it is.
    ['a larger ball', (): Solid => ball(7, [30, 0, 20]), false],
    ['a point', (): Solid => kernel.frustum([30, 0], 12, 5, 24, 0, tolerance), true],
  ])('lets the air out of %s that stands up beside the gate', (_, top, seated) => {
    const part = meshOf(() =>
      kernel.union([
        kernel.box([-12, -8, 0], [38, 8, 10]),
        kernel.box([-10, -8, 9], [10, 8, 40]),
        kernel.frustum([30, 0], 5, 2.2, 20, 2.2, tolerance),
        top(),
      ]),
    );
    const input = inputFor(part, [{ name: 'post', at: [0, 0, 40], innerDiameter: 0, outerDiameter: 14 }]);
    const { air, gating, gated } = kernel.scope(() => {
      const { air, gating, gated } = ventGating(planGating(input), input, part, kernel, tolerance);
      return { air, gating, gated: gated.mesh() };
    });
    expect(air.pockets).toHaveLength(1);
    expect(air.left).toEqual([]);
    expect(gating.vents).toHaveLength(1);
    expect((gating.vents[0]!.seat ?? 0) > 0).toBe(seated);
    expect(inspectMesh(gated)).toMatchObject({ ok: true, components: 1 });
    expect(measureBounds(gated)!.min[2]).toBe(0);
  });
});
