/** Where runners meet, all that the castings take in comes through: trees of thin patterns, whose runners are thin. */
import fc from 'fast-check';
import { beforeAll, describe, expect, test } from 'vitest';
import {
  allKinds,
  buildGating,
  type GatingInput,
  isBuildable,
  metalFamilies,
  planGating,
  type TreeKind,
} from '../../../../core/foundry/gating/index.js';
import { loadKernel } from '../../../../core/solid/kernel.js';
import type { Kernel } from '../../../../core/solid/types.js';
import { tubeInput } from './cases.js';

const runs = Number(process.env.PROPERTY_RUNS ?? 60);
const seed = 20_261_127;

let kernel: Kernel;
beforeAll(async () => {
  kernel = await loadKernel();
});

interface Thin {
  readonly radius: number;
  readonly height: number;
  readonly copies: number;
  readonly gate: number;
}

const thin = (gate: fc.Arbitrary<number>): fc.Arbitrary<Thin> =>
  fc.record({
    radius: fc.double({ min: 20, max: 60, noNaN: true }),
    height: fc.double({ min: 1, max: 4, noNaN: true }),
    copies: fc.integer({ min: 2, max: 8 }),
    gate,
  });

const family = fc.constantFrom(...metalFamilies);

/** In a circle that leaves mould between them. */
const round = (copies: number, from: number, all: number, radius: number) =>
  Array.from({ length: copies }, (_, i) => {
    const turn = (2 * Math.PI * (from + i)) / all;
    const out = (radius + 5) / Math.sin(Math.PI / all);
    return { turn, x: out * Math.cos(turn), y: out * Math.sin(turn) };
  });

const treeOf = ({ radius, height, copies, gate }: Thin, of: (typeof metalFamilies)[number]): GatingInput => {
  const { input } = tubeInput(radius, 0, height, gate, [], of);
  const tree = round(copies, 0, copies, radius);
  return {
    ...input,
    tree,
    casting: { ...input.casting, radius: 2 * radius + Math.hypot(tree[0]!.x, tree[0]!.y) },
  };
};

const mixedOf = (thins: readonly Thin[], of: (typeof metalFamilies)[number]): GatingInput => {
  const widest = Math.max(...thins.map((t) => t.radius));
  const all = thins.reduce((sum, t) => sum + t.copies, 0);
  const kinds = thins.map(({ radius, height, copies, gate }, k): TreeKind => {
    const { gates, vents, casting } = tubeInput(radius, 0, height, gate, [], of).input;
    const from = thins.slice(0, k).reduce((sum, t) => sum + t.copies, 0);
    return { name: `kind-${k}`, gates, vents, casting, places: round(copies, from, all, widest) };
  });
  const { metal } = tubeInput(10, 0, 10, 10, [], of).input;
  return { gates: [], vents: [], kinds, casting: allKinds(kinds, 200), metal };
};

const mixes = (gate: fc.Arbitrary<number>): fc.Arbitrary<readonly Thin[]> =>
  fc
    .array(
      thin(gate).map((t) => ({ ...t, copies: 1 + (t.copies % 3) })),
      { minLength: 2, maxLength: 3 },
    )
    .filter((all) => all.reduce((sum, t) => sum + t.copies, 0) <= 8);

type Plan = ReturnType<typeof planGating>;

const slow = (plan: Plan) => plan.findings.filter((f) => /too-narrow/.test(f.code));

/** s for each pattern to fill, by what flows down under the head over its gate (Torricelli, C = 0.8), shared where it is less. */
const timesOf = (plan: Plan, volumes: readonly number[]): readonly number[] => {
  const full = plan.gates.map(
    (g) =>
      0.8 *
      Math.min(g.area, (Math.PI / 4) * g.runner!.diameter ** 2) *
      Math.sqrt(2 * 9806.65 * (plan.topHeight - g.at[2])),
  );
  const share = plan.fill.flow / full.reduce((a, b) => a + b);
  return full.map((flow, i) => volumes[i]! / (share * flow));
};

/** What is liquid, mm³: as heavy as the casting. */
const liquid = (t: Thin): number => (Math.PI * t.radius ** 2 * t.height * 0.0088) / 0.008;

test(`trees of thin discs in wide places fill in time; seed ${seed}`, () => {
  let widened = 0;
  fc.assert(
    fc.property(thin(fc.constant(40)), family, (t, of) => {
      const plan = planGating(treeOf(t, of));
      expect(isBuildable(plan)).toBe(true);
      expect(slow(plan)).toEqual([]);
      const times = timesOf(
        plan,
        plan.gates.map(() => liquid(t)),
      );
      for (const time of times) expect(time).toBeLessThan(plan.fill.pourTime * (1 + 1e-6));
      if (plan.sprue.governedBy === 'junction') widened++;
      // No wider than is asked for: else the modulus or the flow of its own sets it.
      else expect(['modulus', 'choke', 'smallest printable']).toContain(plan.sprue.governedBy);
    }),
    { numRuns: runs, seed },
  );
  expect(widened).toBeGreaterThan(runs / 5);
});

test(`trees of several thin kinds fill in time, each by its own gate's share; seed ${seed}`, () => {
  fc.assert(
    fc.property(mixes(fc.constant(40)), family, (thins, of) => {
      const plan = planGating(mixedOf(thins, of));
      expect(slow(plan)).toEqual([]);
      const times = timesOf(
        plan,
        thins.flatMap((t) => Array.from({ length: t.copies }, () => liquid(t))),
      );
      for (const time of times) expect(time).toBeLessThan(plan.fill.pourTime * (1 + 1e-6));
    }),
    { numRuns: runs, seed },
  );
});

describe('places too narrow for that', () => {
  const narrow = fc.double({ min: 4.5, max: 12, noNaN: true });
  const told = (remedy: string): number => Number(/([\d.]+) mm across or more/.exec(remedy)![1]);

  test(`are told with a width that mends it; seed ${seed}`, () => {
    let choked = 0;
    fc.assert(
      fc.property(thin(narrow), family, (t, of) => {
        const [finding] = slow(planGating(treeOf(t, of)));
        if (finding === undefined) return;
        choked++;
        const gate = told(finding.remedy);
        expect(gate).toBeGreaterThan(t.gate);
        expect(slow(planGating(treeOf({ ...t, gate }, of)))).toEqual([]);
        // And no wider than is needed to fill and feed.
        if (gate - 0.5 > t.gate)
          expect(planGating(treeOf({ ...t, gate: gate - 0.5 }, of)).findings.map((f) => f.code)).toEqual(
            expect.arrayContaining([expect.stringMatching(/too-narrow|sprue-freezes-early/)]),
          );
      }),
      { numRuns: runs, seed },
    );
    expect(choked).toBeGreaterThan(runs / 5);
  });

  test(`of several kinds each with its own; seed ${seed}`, () => {
    let choked = 0;
    fc.assert(
      fc.property(mixes(narrow), family, (thins, of) => {
        const found = slow(planGating(mixedOf(thins, of)));
        if (found.length === 0) return;
        choked++;
        const remedies = found.map((f) => f.remedy).join(' ');
        const wider = thins.map((t, k) => {
          const asked = new RegExp(`kind-${k} a place ([\\d.]+) mm across or more`).exec(remedies)?.[1];
          return asked === undefined ? t : { ...t, gate: Number(asked) };
        });
        expect(wider).not.toEqual(thins);
        expect(slow(planGating(mixedOf(wider, of)))).toEqual([]);
      }),
      { numRuns: runs, seed },
    );
    expect(choked).toBeGreaterThan(runs / 5);
  });

  test('where the runners meet, in words', () => {
    const found = slow(planGating(treeOf({ radius: 50, height: 1.5, copies: 8, gate: 5 }, 'tin-bronze')));
    expect(found).toMatchObject([
      {
        severity: 'warn',
        code: 'junction-too-narrow',
        message: expect.stringMatching(
          /^Where the runners meet the metal's way is 6\.8 mm across, so that the castings fill in [\d.]+ s; it should take at most [\d.]+ s\.$/,
        ),
        remedy: expect.stringMatching(
          /^Give the place [\d.]+ mm across or more, or hang fewer patterns on the tree\.$/,
        ),
      },
    ]);
  });
});

test('as built: the section where the runners have become one lets through what fills the castings', () => {
  for (const t of [
    { radius: 50, height: 1.5, copies: 4, gate: 40 },
    { radius: 40, height: 1.2, copies: 8, gate: 40 },
    { radius: 30, height: 3, copies: 6, gate: 40 },
  ]) {
    const plan = planGating(treeOf(t, 'copper'));
    const junction = plan.gates[0]!.runner!.path.at(-1)!;
    kernel.scope(() => {
      const gating = buildGating(plan, kernel, 0.02);
      const section = gating.slice(junction[2]).reduce((sum, ring) => {
        const twice = ring.reduce((s, [x, y], i) => {
          const [u, v] = ring[(i + 1) % ring.length]!;
          return s + x * v - u * y;
        }, 0);
        return sum + twice / 2;
      }, 0);
      const through = 0.8 * section * Math.sqrt(2 * 9806.65 * (plan.topHeight - junction[2]));
      // Drawn circles are chords.
      expect(through * 1.02).toBeGreaterThan((t.copies * liquid(t)) / plan.fill.pourTime);
      return null;
    });
  }
});
