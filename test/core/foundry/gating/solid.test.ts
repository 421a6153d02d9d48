import fc from 'fast-check';
import { beforeAll, describe, expect, test } from 'vitest';
import { buildGating, isBuildable, planGating } from '../../../../core/foundry/gating/index.js';
import { inspectMesh } from '../../../../core/solid/inspect.js';
import { loadKernel } from '../../../../core/solid/kernel.js';
import type { Kernel, Mesh, Solid } from '../../../../core/solid/types.js';
import { crowdedCases, type TubeCase, tubeCases, tubeInput } from './cases.js';
import { pierce, shallowestOverhang } from './mesh-facts.js';

const runs = Number(process.env.PROPERTY_RUNS ?? 200);
const seed = 20_260_802;
const tolerance = 0.02;
const degree = Math.PI / 180;

let kernel: Kernel;
beforeAll(async () => {
  kernel = await loadKernel();
});

const tube = ({ radius, bore, height }: TubeCase, at: readonly [number, number] = [0, 0]): Solid => {
  const body = kernel.frustum(at, 0, radius, height, radius, tolerance);
  return bore === 0 ? body : body.subtract(kernel.frustum(at, -1, bore, height + 1, bore, tolerance));
};

const build = (given: TubeCase, at?: readonly [number, number]) => {
  const plan = planGating(given.input);
  return kernel.scope(() => ({
    plan,
    gating: buildGating(plan, kernel, tolerance).mesh(),
    part: tube(given, at).mesh(),
    joined: tube(given, at)
      .add(buildGating(plan, kernel, tolerance))
      .mesh(),
  }));
};

const expectSound = (mesh: Mesh): ReturnType<typeof inspectMesh> => {
  const facts = inspectMesh(mesh);
  expect(facts).toMatchObject({ closed: true, oriented: true, selfIntersections: 0, degenerateTriangles: 0 });
  return facts;
};

test.each([
  ['tubes and plates', tubeCases, runs],
  ['plates crowded with vents', crowdedCases, Math.ceil(runs / 4)],
] as const)(
  `gating is sound, in as many pieces as it has bars, and joins to one; %s, seed ${seed}`,
  (_, cases, numRuns) => {
    fc.assert(
      fc.property(cases, (given) => {
        if (!isBuildable(planGating(given.input))) return;
        const { plan, gating, joined } = build(given);
        expect(expectSound(gating)).toMatchObject({ components: 1 + plan.vents.length, genus: 0 });
        // A covered bore is closed at the top: a tube, genus 1, becomes a blind hole.
        expect(expectSound(joined)).toMatchObject({ components: 1, genus: 0 });
        const over = shallowestOverhang(joined, given.height + 1e-3);
        if (over !== null) expect(over.slope).toBeGreaterThanOrEqual(45 * degree);
        let top = Number.NEGATIVE_INFINITY;
        for (let i = 2; i < joined.positions.length; i += 3) top = Math.max(top, joined.positions[i]!);
        expect(top).toBeCloseTo(plan.topHeight, 3);
      }),
      { numRuns, seed },
    );
  },
);

describe('over a cored hole', () => {
  const at = [7.3, -4.1] as const;
  const given = tubeInput(
    30,
    8,
    20,
    44,
    [
      [25, 0.3, 4],
      [25, 2.4, 4],
      [25, 4.5, 4],
    ],
    'tin-bronze',
    at,
  );

  test('straight down the bore: sprue, then the apex of the roof, then nothing to the bottom', () => {
    const { plan, joined } = build(given, at);
    // A hair off the axis, so as not to hit the apex itself.
    const hits = pierce(joined, at[0] + 1e-3, at[1] + 2e-3);
    expect(hits.map((h) => h.enters)).toEqual([true, false]);
    expect(hits[0]!.z).toBeCloseTo(plan.topHeight, 3);
    const roof = hits[1]!.z - given.height;
    // At 45° the roof would be as high as the hole's radius; it is steeper, and metal stands over it.
    expect(roof).toBeGreaterThan(given.bore);
    expect(roof).toBeLessThan(given.bore * 1.4);
    expect(hits[0]!.z - hits[1]!.z).toBeGreaterThan(plan.cup.depth);
  });

  test('nothing of the gating is in the hole, and the roof is hollow', () => {
    const plan = planGating(given.input);
    kernel.scope(() => {
      const joined = tube(given, at).add(buildGating(plan, kernel, tolerance));
      const inside = given.bore * Math.cos(Math.PI / 32) - 2 * tolerance;
      const hole = kernel.frustum(at, 0, inside, given.height, inside, tolerance);
      expect(joined.intersect(hole).isEmpty()).toBe(true);
      const roof = kernel.frustum(at, given.height, inside, given.height + inside, 0.05, tolerance);
      expect(joined.intersect(roof).isEmpty()).toBe(true);
      return null;
    });
  });

  test('the gating is sunk into the ring only, off both its edges', () => {
    const plan = planGating(given.input);
    const outlines = kernel.scope(() =>
      buildGating({ ...plan, vents: [] }, kernel, tolerance).slice(given.height - 0.1),
    );
    const radii = outlines.flat().map(([x, y]) => Math.hypot(x - at[0], y - at[1]));
    expect(outlines.length).toBe(2);
    expect(Math.min(...radii)).toBeGreaterThan(given.bore);
    expect(Math.max(...radii)).toBeLessThan(given.input.gates[0]!.outerDiameter / 2);
  });

  test(`metal round the roof is never less than the choke, nor than the smaller of gate and sprue; seed ${seed}`, () => {
    fc.assert(
      fc.property(tubeCases, ({ bore, height, input }) => {
        fc.pre(bore > 0);
        const plan = planGating(input);
        if (!isBuildable(plan)) return;
        const areas = kernel.scope(() => {
          const sprue = buildGating({ ...plan, vents: [] }, kernel, 0.002);
          return Array.from({ length: 25 }, (_, i) =>
            sprue.slice(height + 0.01 + (1.5 * bore * i) / 24).reduce((sum, o) => sum + areaOf(o), 0),
          );
        });
        const least = Math.min(plan.gates[0]!.area, (Math.PI / 4) * plan.sprue.bottomDiameter ** 2);
        // Chords cost well under one in a hundred here.
        expect(Math.min(...areas)).toBeGreaterThanOrEqual(0.99 * least);
        const narrow = plan.findings.some((f) => f.code === 'gate-too-narrow');
        if (!narrow) expect(Math.min(...areas)).toBeGreaterThanOrEqual(0.99 * plan.sprue.chokeArea);
      }),
      { numRuns: 60, seed },
    );
  });
});

/** Signed area of an outline, mm²; holes count negative. */
const areaOf = (outline: readonly (readonly [number, number])[]): number =>
  outline.reduce((sum, [x, y], i) => {
    const [p, q] = outline[(i + 1) % outline.length]!;
    return sum + (x * q - p * y) / 2;
  }, 0);

test('a block and a cup: volumes of the mesh are the plan’s', () => {
  const given = tubeInput(35, 0, 18, 40, [
    [30, 0, 4],
    [30, 3, 4],
  ]);
  const plan = planGating(given.input);
  const [cup, vent] = kernel.scope(() => {
    const gating = buildGating(plan, kernel, 0.001);
    const bottom = plan.topHeight - plan.cup.depth;
    const wide = plan.cup.topDiameter;
    const above = gating.intersect(kernel.box([-wide, -wide, bottom], [wide, wide, plan.topHeight + 1]));
    // Largest first: the cup, then the vents' tops.
    const [c, v] = above.components();
    return [c!.volume(), v!.volume()];
  });
  expect(cup! / plan.cup.volume).toBeCloseTo(1, 3);
  const area = (Math.PI / 4) * plan.vents[0]!.diameter ** 2;
  expect(vent! / (area * plan.cup.depth)).toBeCloseTo(1, 2);
});

test('a stop finding builds nothing', () => {
  const plan = planGating(tubeInput(2, 0, 5, 3, []).input);
  expect(() => kernel.scope(() => buildGating(plan, kernel, tolerance).volume())).toThrow(
    /^Gating cannot be built: No gate place holds a sprue/,
  );
});
