/** A tree of several kinds: every rule of a gate is met by its own pattern's numbers, worked out here anew. */
import fc from 'fast-check';
import { beforeAll, describe, expect, test } from 'vitest';
import {
  allKinds,
  buildGating,
  type GatingInput,
  planGating,
  type TreeKind,
} from '../../../../core/foundry/gating/index.js';
import { placeKinds } from '../../../../core/foundry/pack/place-kinds.js';
import { inspectMesh } from '../../../../core/solid/inspect.js';
import { loadKernel } from '../../../../core/solid/kernel.js';
import type { Kernel, Vec2 } from '../../../../core/solid/types.js';
import { tubeInput } from './cases.js';
import { shallowestOverhang } from './mesh-facts.js';

const kindOf = (
  name: string,
  [radius, height, gate]: readonly [number, number, number],
  places: readonly (readonly [number, number])[],
): TreeKind => {
  const { input } = tubeInput(radius, 0, height, gate, [[0.9 * radius, 0, 3]]);
  const { gates, vents, casting } = input;
  return { name, gates, vents, casting, places: places.map(([x, y]) => ({ turn: 0, x, y })) };
};

const { metal } = tubeInput(10, 0, 10, 10, []).input;
const inputOf = (kinds: readonly TreeKind[]): GatingInput => ({
  gates: [],
  vents: [],
  kinds,
  casting: allKinds(kinds, 60),
  metal,
});

// A flat disc, a stout one, two small ones; metal enters in the middle of each.
const flat = kindOf('flat', [20, 6, 20], [[40, 0]]);
const stout = kindOf('stout', [14, 22, 24], [[-30, 30]]);
const small = kindOf(
  'small',
  [8, 8, 14],
  [
    [-30, -30],
    [10, -42],
  ],
);
const kinds = [flat, stout, small];
const plan = planGating(inputOf(kinds));

/** mm³/s: Q = C A √(2 g h) through the smaller of ring and bar, h from the cup to the gate, less what fills above it: none. */
function flowsOf({ gates, topHeight, fill }: typeof plan): readonly number[] {
  const full = gates.map((g) => {
    const area = Math.min(g.area, (Math.PI / 4) * g.runner!.diameter ** 2);
    return 0.8 * area * Math.sqrt(2 * 9806.65 * (topHeight - g.at[2]));
  });
  // Where the sprue lets less through they share it.
  const share = fill.flow / full.reduce((a, b) => a + b);
  expect(share).toBeLessThan(1 + 1e-9);
  return full.map((flow) => share * flow);
}

/** V/A of a disc, mm. */
const modulus = (r: number, h: number): number => (r * h) / (2 * (r + h));

describe('four patterns of three kinds', () => {
  const sizes = { flat: [20, 6], stout: [14, 22], small: [8, 8] } as const;
  const of = (name: string): readonly [number, number] => sizes[name.split(':')[0] as keyof typeof sizes];

  test('each has one gate where it stands, called after it, with a runner', () => {
    expect(plan.gates.map((g) => g.name)).toEqual(['flat: top', 'stout: top', 'small: top', 'small: top']);
    const at = kinds.flatMap((k) => k.places.map(({ x, y }) => [x, y, k.casting.top]));
    expect(plan.gates.map((g) => g.at)).toEqual(at);
    for (const { runner } of plan.gates) expect(runner).toBeDefined();
  });

  test('each runner’s D/4 is 1.2 of its own pattern’s modulus, or more where the flow asks for it', () => {
    const ratios = plan.gates.map((g) => g.runner!.diameter / 4 / modulus(...of(g.name)));
    for (const ratio of ratios) expect(ratio).toBeGreaterThan(1.2);
    expect(plan.fill.modulusRatio).toBeCloseTo(Math.min(...ratios), 9);
    // The stout disc asks for most: a mean of all would starve it.
    const diameters = plan.gates.map((g) => g.runner!.diameter);
    expect(Math.max(...diameters)).toBe(diameters[1]);
    expect(diameters[1]).toBeCloseTo(4 * 1.2 * modulus(14, 22), 4);
    expect(plan.sprue.bottomDiameter).toBeGreaterThan(1.1 * diameters[1]! - 1e-6);
  });

  test('every casting is full in the longest pour, no gate faster than its metal bears', () => {
    const { family } = metal;
    expect(family).toBe('tin-bronze');
    const flows = flowsOf(plan);
    for (const [i, g] of plan.gates.entries()) {
      const flow = flows[i]!;
      const [r, h] = of(g.name);
      const time = (Math.PI * r * r * h * 0.0088) / metal.liquidDensity / flow;
      expect(time).toBeLessThan(plan.fill.pourTime * (1 + 1e-6));
      expect(flow / g.area).toBeLessThan(500 * (1 + 1e-6));
    }
    expect(plan.entry.velocity).toBeLessThan(500 * (1 + 1e-6));
    // The thinnest of them, the flat disc's, sets it: a fifth of B M².
    const thinnest = Math.min(...Object.values(sizes).map(([r, h]) => modulus(r, h)));
    const mass = kinds.reduce((sum, k) => sum + k.places.length * k.casting.mass, 0);
    const longest = Math.min(0.2 * metal.freezingFactor * thinnest ** 2, 2.8 * Math.cbrt(mass / 1000));
    expect(plan.fill.pourTime).toBeCloseTo(longest, 6);
  });

  test('cup and sprue feed the sum of all', () => {
    const volume = Math.PI * (20 ** 2 * 6 + 14 ** 2 * 22 + 2 * 8 ** 2 * 8);
    expect(plan.fill.feedDemand).toBeCloseTo(metal.freezingContraction * volume, 6);
    expect(plan.fill.feedSupply).toBeGreaterThan(plan.fill.feedDemand * (1 - 1e-6));
  });

  test('runners lean 45° or steeper, from over the tallest to one junction', () => {
    const ends = plan.gates.map((g) => g.runner!.path.at(-1)!);
    for (const end of ends) expect(end).toEqual(ends[0]);
    for (const { runner } of plan.gates) {
      const path = runner!.path;
      for (let i = 1; i < path.length; i++) {
        const [p, q] = [path[i - 1]!, path[i]!];
        const out = Math.hypot(q[0] - p[0], q[1] - p[1]);
        expect(q[2] - p[2]).toBeGreaterThan(0);
        // The turn from round to ellipse leans its back alone.
        if (i === path.length - 1 && out > 0) expect(q[2] - p[2]).toBeGreaterThan(out);
        if (out > 0) expect(p[2]).toBeGreaterThan(22);
      }
    }
  });

  test('vents are called after their patterns', () => {
    expect(plan.vents.map((v) => v.name)).toEqual(['flat: vent 1']);
    // Beside the others' runners there is no room.
    const left = plan.findings.flatMap((f) => /No vent fits at (\w+): vent 1/.exec(f.message)?.[1] ?? []);
    expect([...new Set(left)].sort()).toEqual(['small', 'stout']);
  });
});

test('of one kind all numbers are those of a tree of copies', () => {
  const places = [0, 1, 2].map((i) => ({
    turn: (2 * Math.PI * i) / 3,
    x: 30 * Math.cos((2 * Math.PI * i) / 3),
    y: 30 * Math.sin((2 * Math.PI * i) / 3),
  }));
  const { input } = tubeInput(14, 0, 22, 24, [[0.8, 0, 3]]);
  const copies = planGating({ ...input, casting: { ...input.casting, radius: 60 }, tree: places });
  const kind: TreeKind = { ...kindOf('stout', [14, 22, 24], []), places };
  const one = planGating(inputOf([kind]));
  const plain = JSON.parse(JSON.stringify(one).replaceAll('stout: ', '')) as typeof one;
  expect(plain.gates.map((g) => g.at)).toEqual(copies.gates.map((g) => g.at));
  for (const key of ['pourTime', 'flow', 'modulusRatio', 'feedDemand', 'feedSupply', 'ventArea'] as const)
    expect(plain.fill[key]).toBeCloseTo(copies.fill[key], 4);
  expect(plain.topHeight).toBeCloseTo(copies.topHeight, 6);
});

describe('what a pattern does not meet is told with its name', () => {
  const codes = (found: ReturnType<typeof planGating>): Record<string, string> =>
    Object.fromEntries(found.findings.map((f) => [f.code, f.message]));

  test('a gate place too narrow to feed its own', () => {
    const narrow = kindOf('narrow', [14, 22, 9], [[-30, 30]]);
    const told = codes(planGating(inputOf([flat, narrow, small])));
    expect(told['sprue-freezes-early']).toMatch(
      /^The runner's modulus is 0\.\d\d of that of narrow; it should be 1\.2/,
    );
  });

  test('a gate too narrow for the pour, with the time its pattern takes', () => {
    const narrow = kindOf('narrow', [14, 22, 6], [[-30, 30]]);
    const hurried = planGating({ ...inputOf([flat, narrow, small]), settings: { pourTime: 0.4 } });
    const flows = flowsOf(hurried);
    const time = narrow.casting.mass / metal.liquidDensity / flows[1]!;
    expect(codes(hurried)['gate-too-narrow']).toBe(
      `The gate at narrow: top lets its casting fill in ${time.toFixed(1)} s; all of the tree should fill in at most 0.4 s.`,
    );
  });

  test('more gates than one each, where the job asks for them', () => {
    const told = (gates: number | null): string | undefined =>
      codes(planGating({ ...inputOf(kinds), settings: { gates } }))['one-gate-each'];
    expect(told(3)).toBe('3 gates are asked for; on a tree of several kinds each pattern has one.');
    for (const gates of [null, 1]) expect(told(gates)).toBeUndefined();
  });

  test('a place that holds no runner, and a pattern without a place, refuse the tree', () => {
    const tiny = kindOf('tiny', [14, 22, 4], [[-30, 30]]);
    expect(planGating(inputOf([flat, tiny])).findings).toEqual([
      expect.objectContaining({
        severity: 'stop',
        code: 'gate-place-too-small',
        message: 'No gate place of tiny holds a runner: the widest, top, is 4.0 mm across.',
      }),
    ]);
    const none = { ...stout, name: 'none', gates: [] };
    expect(planGating(inputOf([flat, none])).findings[0]).toMatchObject({
      severity: 'stop',
      message: 'No place where metal may enter is named on none.',
    });
  });

  test('the better place of a kind is taken, and what was compared is told', () => {
    const [narrow, wide] = [kindOf('k', [14, 22, 9], [[-30, 30]]), kindOf('k', [14, 22, 24], [[-30, 30]])];
    const both = { ...narrow, vents: [], gates: [narrow.gates[0]!, { ...wide.gates[0]!, name: 'other' }] };
    const found = planGating(inputOf([{ ...flat, vents: [] }, both]));
    expect(found.gates.map((g) => g.name)).toEqual(['flat: top', 'k: other']);
    expect(found.compared.length).toBeGreaterThan(1);
    expect(codes(found)['sprue-freezes-early']).toBeUndefined();
  });
});

describe('random trees of discs, placed and built', () => {
  let kernel: Kernel;
  beforeAll(async () => {
    kernel = await loadKernel();
  });

  const disc = fc.record({
    radius: fc.double({ min: 8, max: 22, noNaN: true }),
    height: fc.double({ min: 4, max: 25, noNaN: true }),
    count: fc.integer({ min: 1, max: 3 }),
  });

  test('are one sound piece, every gate fed, no runner flatter than 45°', () => {
    fc.assert(
      fc.property(fc.array(disc, { minLength: 2, maxLength: 3 }), (discs) => {
        const placed = placeKinds(
          discs.map(({ radius, count }) => ({
            outline: Array.from(
              { length: 48 },
              (_, i): Vec2 => [radius * Math.cos((i * Math.PI) / 24), radius * Math.sin((i * Math.PI) / 24)],
            ),
            gate: [0, 0],
            count,
          })),
          10,
        );
        const trees = discs.map(
          ({ radius, height }, i): TreeKind => ({
            ...kindOf(`disc ${i}`, [radius, height, 1.7 * radius], []),
            places: placed[i]!,
          }),
        );
        const found = planGating(inputOf(trees));
        expect(found.findings.filter((f) => f.severity === 'stop')).toEqual([]);
        expect(found.gates.length).toBe(discs.reduce((sum, d) => sum + d.count, 0));
        const { gated, components, over } = kernel.scope(() => {
          const bodies = trees.flatMap(({ casting, places }) =>
            places.map(({ x, y }) =>
              kernel.frustum([x, y], 0, casting.radius, casting.top, casting.radius, 0.05),
            ),
          );
          const gating = buildGating(found, kernel, 0.05);
          const gatingMesh = gating.mesh();
          return {
            gated: kernel.union([...bodies, gating]).mesh(),
            components: gating.components().length,
            over: shallowestOverhang(gatingMesh, Math.max(...trees.map((t) => t.casting.top)) + 0.5),
          };
        });
        // Sprue with its runners, and the vents.
        expect(components).toBe(1 + found.vents.length);
        expect(inspectMesh(gated)).toMatchObject({ components: 1, selfIntersections: 0, closed: true });
        expect(over?.slope ?? Math.PI / 2).toBeGreaterThan((44.9 * Math.PI) / 180);
      }),
      { seed: 20261126, numRuns: 5 },
    );
  });
});
