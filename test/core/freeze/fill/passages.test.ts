/** Passages out of planned gatings, over the legal space of plates and tubes. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { circleArea, fallVelocity } from '../../../../core/foundry/gating/choke.js';
import { type GatingInput, isBuildable, planGating } from '../../../../core/foundry/gating/index.js';
import { flowAt } from '../../../../core/freeze/fill/flow.js';
import { flowProblemOf } from '../../../../core/freeze/fill/passages.js';
import type { Vec3 } from '../../../../core/solid/types.js';
import { tubeCases, tubeInput } from '../../foundry/gating/cases.js';

const seed = 20_261_126;
const metal = 8e-3;

/** In a plate it is straight through the metal, to places all round the rim. */
const straight = (
  places: readonly { readonly at: Vec3 }[],
  { casting: { radius, top } }: GatingInput,
): readonly Float64Array[] =>
  places.map(({ at }) =>
    Float64Array.from({ length: 36 }, (_, i) =>
      Math.hypot(
        radius * Math.cos((i * Math.PI) / 18) - at[0],
        radius * Math.sin((i * Math.PI) / 18) - at[1],
        top,
      ),
    ),
  );

test('a plain case by hand: its own discharge coefficient is between 0.75 and 1', () => {
  const plan = planGating(tubeInput(30, 0, 20, 20, [[22, 0, 4]]).input);
  const flow = flowProblemOf(plan, metal);
  expect(flow.cupLevel).toBe(plan.topHeight);
  expect(flow.branches).toHaveLength(1);
  expect(flow.branches[0]!.outlet).toBe(20);
  const ideal =
    Math.min(circleArea(plan.sprue.bottomDiameter), plan.entry.area) * fallVelocity(plan.topHeight - 20);
  const { flow: q } = flowAt({ ...flow, vents: flow.vents.map((v) => ({ ...v, diameter: 100 })) }, 0);
  expect(q / ideal).toBeGreaterThan(0.75);
  expect(q / ideal).toBeLessThan(1);
});

test(`plans of every kind: finite, falling with the level to nothing, below Torricelli, seed ${seed}`, () => {
  let [count, several] = [0, 0];
  fc.assert(
    fc.property(tubeCases, fc.constantFrom(1, 1, 1, 3, null), ({ input }, gates) => {
      const ring = [0, 1, 2].map((i) => ({
        name: `place ${i}`,
        at: [
          0.7 * input.casting.radius * Math.cos((i * 2 * Math.PI) / 3),
          0.7 * input.casting.radius * Math.sin((i * 2 * Math.PI) / 3),
          input.casting.top,
        ] as const,
        innerDiameter: 0,
        outerDiameter: 0.4 * input.casting.radius,
        ...(i === 0 ? {} : { further: true as const }),
      }));
      const plan = planGating({
        ...input,
        ...(gates === 3 ? { gates: ring, distances: straight([...ring, ...input.vents], input) } : {}),
        settings: { gates },
      });
      if (!isBuildable(plan)) return;
      count++;
      const problem = flowProblemOf(plan, metal);
      if (problem.branches.length > 1) several++;
      const low = Math.min(...problem.branches.map((b) => b.outlet));
      const levels = Array.from({ length: 6 }, (_, i) => low + ((plan.topHeight - low) * i) / 5);
      const flows = levels.map((z) => flowAt(problem, z));
      for (const [i, { flow, backPressure }] of flows.entries()) {
        expect(flow).toBeGreaterThanOrEqual(0);
        expect(Number.isFinite(backPressure)).toBe(true);
        expect(backPressure).toBeGreaterThanOrEqual(0);
        if (i > 0) expect(flow).toBeLessThanOrEqual(flows[i - 1]!.flow * (1 + 1e-6));
      }
      expect(flows[0]!.flow).toBeGreaterThan(0);
      expect(flows.at(-1)!.flow).toBe(0);
      const outlets = plan.gates.reduce(
        (sum, g) => sum + Math.min(g.area, circleArea(g.runner?.diameter ?? plan.sprue.bottomDiameter)),
        0,
      );
      const ideal = outlets * fallVelocity(plan.topHeight - low);
      expect(flows[0]!.flow).toBeLessThan(ideal);
      const wide = [
        {
          name: 'v',
          diameter: 1000,
          path: [
            [0, 0, 0],
            [0, 0, 1],
          ] as const,
        },
      ];
      const free = flowAt({ ...problem, vents: wide }, low).flow;
      // What handbooks give tapered sprues: 0.8 to 0.95 (lecture notes on gating system design; Rao).
      if (problem.branches.length === 1) {
        expect(free / ideal).toBeGreaterThan(0.78);
        expect(free / ideal).toBeLessThan(0.95);
      }
      // More vents are never slower: none, the plan's, one more.
      const with0 = flowAt({ ...problem, vents: [] }, low).flow;
      const more = flowAt(
        { ...problem, vents: [...problem.vents, { ...wide[0]!, diameter: 1.5 }] },
        low,
      ).flow;
      expect(flows[0]!.flow).toBeGreaterThanOrEqual(with0 * (1 - 1e-6));
      expect(more).toBeGreaterThanOrEqual(flows[0]!.flow * (1 - 1e-6));
      expect(free).toBeGreaterThanOrEqual(more * (1 - 1e-6));
    }),
    { numRuns: 120, seed },
  );
  expect(count).toBeGreaterThan(60);
  expect(several).toBeGreaterThan(8);
});
