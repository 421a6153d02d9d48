import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  defaultGatingSettings,
  type GatingInput,
  isBuildable,
  planGating,
} from '../../../../core/foundry/gating/index.js';
import type { GateSize, GatingPlan } from '../../../../core/foundry/plans.js';
import type { Vec3 } from '../../../../core/solid/types.js';
import { crowdedCases, type TubeCase, tubeCases, tubeInput } from './cases.js';

const runs = Number(process.env.PROPERTY_RUNS ?? 300);
const seed = 20_260_801;

const forEachPlan = (check: (plan: GatingPlan, given: TubeCase) => void, cases = tubeCases): void =>
  fc.assert(
    fc.property(cases, (given) => {
      const plan = planGating(given.input);
      if (isBuildable(plan)) check(plan, given);
      else expect(plan.findings.map((f) => f.code)).toEqual(['gate-place-too-small']);
    }),
    { numRuns: runs, seed },
  );

const codes = (plan: GatingPlan): readonly string[] => plan.findings.map((f) => f.code);

const numbersOf = (value: unknown): readonly number[] =>
  typeof value === 'number'
    ? [value]
    : typeof value === 'object' && value !== null
      ? Object.values(value).flatMap(numbersOf)
      : [];

/** Where a rising path is at a height it reaches. */
const at = (path: readonly Vec3[], z: number): readonly [number, number] => {
  const i = path.findIndex((p) => p[2] >= z);
  const [a, b] = [path[Math.max(0, i - 1)]!, path[i]!];
  const f = b[2] === a[2] ? 0 : (z - a[2]) / (b[2] - a[2]);
  return [a[0] + f * (b[0] - a[0]), a[1] + f * (b[1] - a[1])];
};

const heights = (from: number, to: number): readonly number[] =>
  Array.from({ length: 61 }, (_, i) => from + ((to - from) * i) / 60);

describe(`planGating over tubes and plates, seed ${seed}`, () => {
  test('every number is finite and none is negative but coordinates', () => {
    forEachPlan((plan) => {
      expect(numbersOf(plan).every(Number.isFinite)).toBe(true);
      const { gates, entry, sprue, cup, fill } = plan;
      expect(
        Math.min(...numbersOf([gates.map(({ at: _, ...g }) => g), entry, { ...sprue, at: [] }, cup, fill])),
      ).toBeGreaterThanOrEqual(0);
    });
  });

  test('cup rim and vents end at one level, over the part by the least head', () => {
    forEachPlan((plan, { height }) => {
      const { sprue, cup, topHeight } = plan;
      expect(plan.sprue.at[2] + sprue.length + cup.depth).toBeCloseTo(topHeight, 6);
      expect(sprue.head).toBeCloseTo(topHeight - plan.sprue.at[2], 9);
      for (const v of plan.vents) expect(v.path[v.path.length - 1]![2]).toBe(topHeight);
      expect(topHeight - height).toBeGreaterThanOrEqual(defaultGatingSettings.leastHead - 1e-6);
      expect(sprue.length).toBeGreaterThanOrEqual(defaultGatingSettings.leastSprueLength - 1e-6);
    });
  });

  test('vents stand clear of the sprue, the cup and each other, and lean 60° or steeper', () => {
    const clear = defaultGatingSettings.clearance - 1e-6;
    let leaning = 0;
    const check = (plan: GatingPlan): void => {
      leaning += plan.vents.filter((v) => v.path.length > 2).length;
      const { cup, sprue, topHeight } = plan;
      const cupBottom = topHeight - cup.depth;
      const rim = cup.topDiameter / 2;
      const throat = sprue.topDiameter / 2;
      plan.vents.forEach((v, i) => {
        const foot = v.path[0]!;
        for (const z of heights(foot[2], topHeight)) {
          const [x, y] = at(v.path, z);
          const gap = Math.hypot(x - plan.sprue.at[0], y - plan.sprue.at[1]) - v.diameter / 2;
          const cone = throat + ((rim - throat) * (z - cupBottom)) / cup.depth;
          expect(gap - Math.max(sprue.bottomDiameter / 2, cone)).toBeGreaterThanOrEqual(clear);
          for (const w of plan.vents.slice(0, i)) {
            if (z < w.path[0]![2]) continue;
            const [p, q] = at(w.path, z);
            expect(Math.hypot(x - p, y - q) - (v.diameter + w.diameter) / 2).toBeGreaterThanOrEqual(clear);
          }
        }
        const atFoot = Math.hypot(foot[0] - plan.sprue.at[0], foot[1] - plan.sprue.at[1]);
        expect(atFoot - v.diameter / 2 - plan.gates[0]!.outerDiameter / 2).toBeGreaterThanOrEqual(clear);
        v.path.forEach((p, k) => {
          const q = v.path[k - 1];
          if (!q) return;
          const out = Math.hypot(p[0] - q[0], p[1] - q[1]);
          expect(Math.atan2(p[2] - q[2], out)).toBeGreaterThanOrEqual(Math.PI / 3 - 1e-6);
        });
      });
    };
    forEachPlan(check);
    forEachPlan(check, crowdedCases);
    expect(leaning).toBeGreaterThan(runs / 2);
  });

  test('each vent starts at its place, fits it, and each place without one has a finding', () => {
    forEachPlan((plan, { input }) => {
      for (const v of plan.vents) {
        const place = input.vents.find((p) => p.name === v.name)!;
        expect(v.path[0]).toEqual(place.at);
        expect(v.diameter).toBeLessThanOrEqual(place.footDiameter);
        expect(v.diameter).toBeGreaterThanOrEqual(defaultGatingSettings.ventLeastDiameter);
      }
      const missed = codes(plan).filter((c) => c === 'vent-left-out' || c === 'vent-place-too-small');
      expect(plan.vents.length + missed.length).toBe(input.vents.length);
    });
  });

  test('the gate stays inside its place, and a rule is met or found', () => {
    forEachPlan((plan, { input, bore, radius }) => {
      const { gates, entry, fill, sprue } = plan;
      const [gate] = gates as [GateSize];
      expect(gate.outerDiameter).toBeLessThan(input.gates[0]!.outerDiameter);
      expect(gate.outerDiameter).toBeLessThanOrEqual(2 * radius);
      expect(gate.coversCore).toBe(bore > 0);
      if (bore > 0) expect(gate.innerDiameter).toBeGreaterThan(2 * bore);
      expect(sprue.bottomDiameter).toBeLessThanOrEqual(gate.outerDiameter + 1e-9);
      const found = codes(plan);
      const met = (rule: boolean, code: string): void => {
        if (!rule) expect(found).toContain(code);
        else expect(found).not.toContain(code);
      };
      met(entry.velocity <= entry.velocityLimit, 'gate-velocity');
      // A rule that more room would meet is broken only where there is no more.
      const all = input.gates[0]!.outerDiameter - 0.5;
      if (entry.velocity > entry.velocityLimit) expect(gate.outerDiameter).toBeGreaterThan(all);
      if (fill.modulusRatio < fill.modulusRatioLimit) expect(sprue.bottomDiameter).toBeGreaterThan(all);
      met(fill.modulusRatio >= fill.modulusRatioLimit, 'sprue-freezes-early');
      met(fill.feedSupply >= fill.feedDemand, 'feed-short');
      met(fill.ventArea >= fill.ventAreaLimit, 'vent-area');
    });
  });

  test('the choke is Rao’s formula at the plan’s own head and his or the freezing time, and flow is area times velocity', () => {
    const factors: Readonly<Record<string, number>> = { 'tin-bronze': 2.8, brass: 1.9, copper: 1.3 };
    forEachPlan((plan, { input }) => {
      const { casting, metal } = input;
      expect(plan.entry.velocity * plan.gates[0]!.area).toBeCloseTo(plan.fill.flow, 3);
      const factor = factors[metal.family];
      if (factor === undefined) return;
      const freezing = metal.freezingFactor * (casting.volume / casting.area) ** 2;
      const longest = Math.min(factor * (casting.mass / 1000) ** (1 / 3), freezing / 5);
      // Top gate: the whole head acts.
      const speed = 0.8 * Math.sqrt(2 * 9806.65 * plan.sprue.head);
      expect(plan.sprue.chokeArea).toBeCloseTo(casting.mass / (metal.liquidDensity * longest * speed), 6);
      if (codes(plan).includes('gate-too-narrow')) expect(plan.fill.pourTime).toBeGreaterThan(longest);
      else expect(plan.fill.pourTime).toBeLessThanOrEqual(longest * (1 + 1e-5));
    });
  });

  test('more metal of the same thickness never asks for less: choke, sprue, flow, feed', () => {
    fc.assert(
      fc.property(tubeCases, fc.double({ min: 1, max: 3, noNaN: true }), ({ input }, factor) => {
        const { volume, area, mass } = input.casting;
        const more = {
          ...input,
          casting: { ...input.casting, volume: volume * factor, area: area * factor, mass: mass * factor },
        };
        const [a, b] = [planGating(input), planGating(more)];
        const small = 1 - 1e-9;
        expect(b.sprue.chokeArea).toBeGreaterThanOrEqual(a.sprue.chokeArea * small);
        expect(b.sprue.bottomDiameter).toBeGreaterThanOrEqual(a.sprue.bottomDiameter * small);
        expect(b.fill.flow).toBeGreaterThanOrEqual(a.fill.flow * small);
        // A wider sprue leaves the cup less to hold; together they never give less.
        expect(b.fill.feedSupply).toBeGreaterThanOrEqual(a.fill.feedSupply * small);
        expect(b.fill.feedDemand).toBeGreaterThanOrEqual(a.fill.feedDemand * small);
      }),
      { numRuns: runs, seed },
    );
  });
});

describe('planGating, single cases', () => {
  test('a gate below the top: mean head H − h1²/(2 h2), and a sprue no wider than its place', () => {
    const input = tubeInput(40, 0, 30, 20, [[35, 1, 4]]).input;
    const plan = planGating({ ...input, gates: [{ ...input.gates[0]!, at: [0, 0, 12] }] });
    const mean = plan.sprue.head - 18 ** 2 / (2 * 30);
    const speed = 0.8 * Math.sqrt(2 * 9806.65 * mean);
    expect(plan.fill.flow).toBeCloseTo((Math.PI / 4) * plan.sprue.bottomDiameter ** 2 * speed, 3);
    expect(plan.sprue.topDiameter).toBeLessThan(20);
    expect(codes(plan)).toContain('sprue-taper');
    // The cup stands over the whole part.
    expect(plan.topHeight - plan.cup.depth).toBeGreaterThanOrEqual(30);
  });

  const gear = tubeInput(
    42,
    6,
    24,
    60,
    [0, 1, 2, 3].map((k) => [37, (k * Math.PI) / 2, 3] as const),
  ).input;

  test('a thick plate is governed by its modulus, a thin heavy one by the choke, a trinket by the printer', () => {
    expect(planGating(gear).sprue.governedBy).toBe('modulus');
    const casting = { volume: 1e5, area: 2e5, mass: 880, top: 10, bottom: 0, radius: 150 };
    expect(
      planGating({ ...gear, casting, gates: [{ ...gear.gates[0]!, at: [0, 0, 10] }], vents: [] }).sprue
        .governedBy,
    ).toBe('choke');
    expect(planGating(tubeInput(4, 0, 1.5, 8, []).input).sprue.governedBy).toBe('smallest printable');
    expect(planGating(tubeInput(40, 0, 40, 12, []).input).sprue.governedBy).toBe('largest the place allows');
  });

  test('the next gate place is used when the best is too small, and says so', () => {
    const tight = { name: 'boss', at: [0, 0, 24] as const, innerDiameter: 0, outerDiameter: 3 };
    const plan = planGating({ ...gear, gates: [tight, ...gear.gates] });
    expect(plan.gates[0]?.name).toBe('top');
    expect(codes(plan)).toContain('gate-place-skipped');
    expect(codes(planGating({ ...gear, gates: [tight] }))).toEqual(['gate-place-too-small']);
    expect(codes(planGating({ ...gear, gates: [] }))).toEqual(['no-gate-place']);
  });

  test('another place is taken only where it breaks fewer rules than the first; what was compared is told', () => {
    const warnsOf = (plan: GatingPlan): number => plan.findings.filter((f) => f.severity === 'warn').length;
    const [top] = gear.gates as readonly [(typeof gear.gates)[number]];
    const narrow = { ...top, name: 'narrow', outerDiameter: top.outerDiameter / 2 };
    const better = planGating({ ...gear, gates: [narrow, top] });
    expect(warnsOf(planGating({ ...gear, gates: [narrow] }))).toBeGreaterThan(
      warnsOf(planGating({ ...gear, gates: [top] })),
    );
    expect(better.gates[0]?.name).toBe('top');
    expect(better.compared.map((c) => c.gates)).toEqual([['narrow'], ['top']]);
    expect(better.findings.find((f) => f.code === 'gate-places-compared')!.message).toContain(
      'enters at top',
    );
    expect(planGating({ ...gear, gates: [top, narrow] }).gates[0]?.name).toBe('top');

    fc.assert(
      fc.property(
        tubeCases,
        fc.array(fc.double({ min: 0.1, max: 1.5, noNaN: true }), { maxLength: 3 }),
        (given, more) => {
          const { gates } = given.input;
          const all = [
            ...gates,
            ...more.map((share, i) => ({
              ...gates[0]!,
              name: `other ${i}`,
              outerDiameter: gates[0]!.outerDiameter * share,
            })),
          ];
          const plan = planGating({ ...given.input, gates: all });
          if (!isBuildable(plan)) return;
          const single = all.map((g) => planGating({ ...given.input, gates: [g] })).filter(isBuildable);
          const least = Math.min(...single.map(warnsOf));
          expect(warnsOf(plan)).toBe(least);
          // The first that does as well: the part's own order counts.
          expect(plan.gates[0]?.name).toBe(single.find((p) => warnsOf(p) === least)!.gates[0]?.name);
        },
      ),
      { numRuns: runs, seed },
    );
  });

  test('under a cup with a 45° wall vents near the sprue still lean 60° or steeper: the cup is raised for them', () => {
    const near = tubeInput(40, 0, 20, 12, [
      [14, 0, 3],
      [14, 2, 3],
    ]).input;
    const [steep, flat] = [Math.PI / 3, Math.PI / 4].map((cupWallAngle) =>
      planGating({ ...near, settings: { cupWallAngle, leastHead: 5, leastSprueLength: 5 } }),
    );
    expect(flat!.vents.length).toBe(2);
    for (const { path } of flat!.vents) {
      const [a, b] = [path[1]!, path[2]!];
      const slope = (b[2] - a[2]) / Math.hypot(b[0] - a[0], b[1] - a[1]);
      expect(Math.atan(slope)).toBeGreaterThanOrEqual(Math.PI / 3 - 1e-6);
    }
    expect(flat!.sprue.length).toBeGreaterThan(steep!.sprue.length);
  });

  test('aluminium bronze is held to a far slower gate than tin bronze', () => {
    const bronze = planGating({ ...gear, metal: { ...gear.metal, family: 'aluminium-bronze' } });
    expect(bronze.entry.velocityLimit).toBeLessThan(planGating(gear).entry.velocityLimit / 5);
    expect(codes(bronze)).toContain('gate-velocity');
  });

  test('a metal that grows on freezing asks for no feed', () => {
    const plan = planGating({ ...gear, metal: { ...gear.metal, freezingContraction: -0.025 } });
    expect(plan.fill.feedDemand).toBe(0);
  });

  test('a cored hole costs gate area, never less than the required choke without a finding', () => {
    const plan = planGating(tubeInput(30, 12, 20, 40, []).input);
    expect(plan.gates[0]!.area).toBeGreaterThan(plan.sprue.chokeArea);
    expect(codes(plan)).not.toContain('gate-too-narrow');
    const narrow = planGating(tubeInput(90, 12, 60, 27.5, []).input);
    expect(narrow.entry.area).toBeLessThan(narrow.sprue.chokeArea);
    expect(codes(narrow)).toContain('gate-too-narrow');
  });

  test('what is set in the job is used and named as its source', () => {
    const plan = planGating({ ...gear, settings: { velocityLimit: 300, leastHead: 120, pourTime: 2 } });
    expect(plan.entry.velocityLimit).toBe(300);
    expect(plan.sprue.head).toBeGreaterThanOrEqual(120);
    expect(plan.bases.velocityLimit!.source).toBe('set in the job');
    expect(plan.bases.pourTime!.source).toBe('set in the job');
  });

  test.each([
    ['mass', { casting: { ...gear.casting, mass: Number.NaN } }],
    ['area', { casting: { ...gear.casting, area: 0 } }],
    ['radius', { casting: { ...gear.casting, radius: -30 } }],
    ['liquidDensity', { metal: { ...gear.metal, liquidDensity: -8 } }],
    ['freezingContraction', { metal: { ...gear.metal, freezingContraction: 5.5 } }],
    ['cupWallAngle', { settings: { cupWallAngle: 0.5 } }],
    ['dischargeCoefficient', { settings: { dischargeCoefficient: 80 } }],
    ['ventLargestDiameter', { settings: { ventLargestDiameter: 1 } }],
    ['gate place', { gates: [{ ...gear.gates[0]!, at: [0, 0, 99] as const }] }],
    ['vent place', { vents: [{ ...gear.vents[0]!, footDiameter: Number.POSITIVE_INFINITY }] }],
  ] as const)('refuses a bad %s with one stop finding that names it', (name, change) => {
    const plan = planGating({ ...gear, ...change } as GatingInput);
    expect(plan.findings.map((f) => f.severity)).toEqual(['stop']);
    expect(plan.findings[0]!.message).toContain(name);
    expect(isBuildable(plan)).toBe(false);
  });
});
