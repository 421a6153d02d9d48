/** Gating over runners: several gates on one pattern, and several patterns on one tree. */
import fc from 'fast-check';
import { beforeAll, describe, expect, test } from 'vitest';
import {
  buildGating,
  type GatingInput,
  isBuildable,
  placeTree,
  planGating,
} from '../../../../core/foundry/gating/index.js';
import { middleOf } from '../../../../core/foundry/gating/runners.js';
import { measureInnerDistances } from '../../../../core/solid/inner-distance.js';
import { inspectMesh } from '../../../../core/solid/inspect.js';
import { loadKernel } from '../../../../core/solid/kernel.js';
import type { Kernel, Mesh, Vec2, Vec3 } from '../../../../core/solid/types.js';
import { shallowestOverhang } from './mesh-facts.js';

const runs = Number(process.env.PROPERTY_RUNS ?? 40);
const seed = 20_261_126;
const tolerance = 0.03;
const degree = Math.PI / 180;

let kernel: Kernel;
beforeAll(async () => {
  kernel = await loadKernel();
});

interface Bar {
  readonly length: number;
  readonly width: number;
  readonly height: number;
  readonly sites: readonly number[];
  readonly gateWidth: number;
}

/** A flat bar along x with gate places on its top and vents near its ends. */
const barInput = (bar: Bar): { readonly input: GatingInput; readonly mesh: Mesh } => {
  const { length, width, height } = bar;
  const mesh = kernel.scope(() =>
    kernel.box([-length / 2, -width / 2, 0], [length / 2, width / 2, height]).mesh(),
  );
  const volume = length * width * height;
  const at = (share: number) => [(share - 0.5) * length, 0, height] as const;
  const gates = bar.sites.map((share, i) => ({
    name: `place ${i + 1}`,
    at: at(share),
    innerDiameter: 0,
    outerDiameter: bar.gateWidth,
    ...(i === 0 ? {} : { further: true as const }),
  }));
  const vents = [0.01, 0.99].map((share, i) => ({
    name: `end ${i + 1}`,
    at: at(share),
    footDiameter: Math.min(4, width / 2),
  }));
  return {
    mesh,
    input: {
      gates,
      vents,
      distances: measureInnerDistances(
        mesh,
        [...gates, ...vents].map((p) => p.at),
      ),
      casting: {
        volume,
        area: 2 * (length * width + width * height + height * length),
        mass: 0.0088 * volume,
        top: height,
        bottom: 0,
        radius: Math.hypot(length, width) / 2,
      },
      metal: {
        name: 'bronze',
        family: 'tin-bronze',
        liquidDensity: 0.008,
        freezingContraction: 0.05,
        freezingFactor: 25,
        freezingRange: 150,
      },
    },
  };
};

const bars: fc.Arbitrary<Bar> = fc
  .record({
    length: fc.double({ min: 60, max: 250, noNaN: true }),
    width: fc.double({ min: 14, max: 40, noNaN: true }),
    height: fc.double({ min: 3, max: 20, noNaN: true }),
    gateShare: fc.double({ min: 0.5, max: 0.95, noNaN: true }),
    count: fc.integer({ min: 2, max: 6 }),
  })
  .map(({ gateShare, count, ...bar }) => ({
    ...bar,
    gateWidth: gateShare * bar.width,
    sites: Array.from({ length: count }, (_, i) => (i + 0.5) / count),
  }));

const expectSound = (mesh: Mesh): ReturnType<typeof inspectMesh> => {
  const facts = inspectMesh(mesh);
  expect(facts).toMatchObject({ closed: true, oriented: true, selfIntersections: 0, degenerateTriangles: 0 });
  return facts;
};

test(`runners are one sound piece with the sprue, print without support and end in their places; seed ${seed}`, () => {
  let [built, apart] = [0, 0];
  fc.assert(
    fc.property(bars, fc.integer({ min: 2, max: 4 }), (bar, gates) => {
      const { input, mesh } = barInput(bar);
      const plan = planGating({ ...input, settings: { gates } });
      if (!isBuildable(plan)) {
        expect(plan.findings.map((f) => f.code)).toEqual(['too-many-gates']);
        return;
      }
      built++;
      expect(plan.gates.length).toBe(gates);
      kernel.scope(() => {
        const gating = buildGating(plan, kernel, tolerance);
        expect(expectSound(gating.mesh()).components).toBe(1 + plan.vents.length);
        const joined = gating.add(kernel.fromMesh(mesh)).mesh();
        // Each runner after the first closes a loop.
        expect(expectSound(joined)).toMatchObject({ components: 1, genus: gates - 1 });
        const over = shallowestOverhang(joined, bar.height + 1e-3);
        if (over !== null) expect(over.slope).toBeGreaterThanOrEqual(44.9 * degree);
        const [, , bend, junction] = plan.gates[0]!.runner!.path as readonly [Vec3, Vec3, Vec3, Vec3];
        const free = plan.vents.reduce((sum, v) => sum + (Math.PI / 4) * v.diameter ** 2, 0);
        const sectionAt = (z: number): number =>
          gating.slice(z).reduce((sum, polygon) => sum + signedArea(polygon), 0) - free;
        // Where the runners stand apart each is as wide, square to itself, as the plan says.
        const widest = Math.max(...plan.gates.map((g) => g.runner!.diameter));
        const lowest = Math.min(...plan.gates.map((g) => g.runner!.path[2]![2]));
        const closest = Math.min(
          ...plan.gates.flatMap((g, i) =>
            plan.gates.slice(i + 1).map((h) => Math.hypot(g.at[0] - h.at[0], g.at[1] - h.at[1])),
          ),
        );
        if (closest > 4 * widest && lowest === bend[2]) {
          const leaning = plan.gates.reduce((sum, g) => {
            const slope = Math.atan2(
              junction[2] - g.runner!.path[2]![2],
              Math.hypot(junction[0] - g.runner!.path[2]![0], junction[1] - g.runner!.path[2]![1]),
            );
            return sum + ((Math.PI / 4) * g.runner!.diameter ** 2) / Math.sin(slope);
          }, 0);
          // Those that lean least are just as wide, steeper ones a little wider.
          expect(sectionAt(bend[2] + 0.5)).toBeGreaterThan(0.98 * leaning);
          expect(sectionAt(bend[2] + 0.5)).toBeLessThan(1.31 * leaning);
          apart++;
        }
        // What the plan lets flow passes where the runners have become one, under the head over that place (Rao).
        const head = plan.topHeight - junction[2];
        const passes = 0.8 * sectionAt(junction[2]) * Math.sqrt(2 * 9806.65 * head);
        // Drawn circles are chords: a little less than the plan's.
        const chords = 1 + (8 * tolerance) / Math.min(...plan.gates.map((g) => g.runner!.diameter));
        expect(plan.fill.flow).toBeLessThan(chords * passes);
        return null;
      });
      // The handbooks' rules, from the plan's own sizes.
      const { sprue, entry, fill } = plan;
      const thinnest = Math.min(...plan.gates.map((g) => g.runner!.diameter));
      const codes = plan.findings.map((f) => f.code);
      expect(thinnest / 4 / fill.castingModulus < 1.2 * (1 - 1e-6)).toBe(
        codes.includes('sprue-freezes-early'),
      );
      expect(sprue.bottomDiameter).toBeGreaterThanOrEqual(
        1.1 * Math.max(...plan.gates.map((g) => g.runner!.diameter)) - 1e-9,
      );
      expect(entry.velocity * entry.area).toBeCloseTo(fill.flow, 3);
      expect(entry.velocity > entry.velocityLimit * (1 + 1e-6)).toBe(codes.includes('gate-velocity'));
      expect(fill.pourTime).toBeGreaterThanOrEqual(input.casting.mass / 0.008 / fill.flow - 1e-9);
      for (const g of plan.gates) expect(g.outerDiameter).toBeLessThanOrEqual(bar.gateWidth);
    }),
    { numRuns: runs, seed },
  );
  expect(built).toBeGreaterThan(runs / 2);
  expect(apart).toBeGreaterThan(runs / 20);
});

const signedArea = (points: readonly Vec2[]): number =>
  points.reduce((sum, [x, y], i) => {
    const [u, v] = points[(i + 1) % points.length]!;
    return sum + (x * v - u * y) / 2;
  }, 0);

describe('how many gates', () => {
  const long: Bar = {
    length: 200,
    width: 24,
    height: 4,
    sites: [0.5, 0.125, 0.25, 0.75, 0.875],
    gateWidth: 20,
  };
  const short: Bar = { ...long, length: 60 };

  test('one where it serves; two at a quarter from the ends where one cannot feed so far', () => {
    const single = planGating({ ...barInput(long).input, settings: { gates: 1 } });
    expect(single.fill.reach).toBeGreaterThan(single.fill.reachLimit);
    const plan = planGating(barInput(long).input);
    expect(plan.gates.map((g) => g.name)).toEqual(['place 3', 'place 4']);
    expect(plan.fill.reach).toBeLessThan(plan.fill.reachLimit);
    // The bar's quarter and half its width, by the straight line.
    expect(plan.fill.reach).toBeGreaterThan(50 - 7);
    expect(plan.fill.reach).toBeLessThan(1.09 * Math.hypot(50, 12) + 7);
    expect(plan.findings.map((f) => f.code)).toContain('gate-places-compared');
    expect(planGating(barInput(short).input).gates.length).toBe(1);
  });

  test('not where its mould is higher than the flasks', () => {
    const { input } = barInput(long);
    const one = planGating({ ...input, settings: { gates: 1 } });
    const two = planGating(input);
    expect(two.topHeight).toBeGreaterThan(one.topHeight + 40);
    const low = planGating({ ...input, heightLimit: one.topHeight + 20 });
    expect(low.gates.length).toBe(1);
    expect(low.findings.map((f) => f.code)).toContain('feeds-too-far');
  });

  test('never over runners too thin to feed, where one gate is thick enough', () => {
    const { input } = barInput({ ...long, gateWidth: 20 });
    const gates = input.gates.map((g) => (g.further ? { ...g, outerDiameter: 5 } : g));
    expect(planGating({ ...input, gates }).gates.length).toBe(1);
  });

  test('more gates than the rules ask for, and too thin: the way back is to ask for fewer', () => {
    const { input } = barInput({ ...long, gateWidth: 5 });
    const thin = (gates: number | null) =>
      planGating({ ...input, settings: { gates } }).findings.find((f) => f.code === 'sprue-freezes-early');
    expect(thin(3)!.remedy).toMatch(/^Ask for fewer gates, or give the gate place/);
    expect(thin(null)!.remedy).toMatch(/^Give the gate place/);
  });

  test('a number out of range is refused with what would be right', () => {
    for (const gates of [0, 5, 1.5]) {
      const [finding] = planGating({ ...barInput(long).input, settings: { gates } }).findings;
      expect(finding).toMatchObject({
        severity: 'stop',
        code: 'gating-input',
        remedy: expect.stringMatching(/1 to 4/),
      });
    }
  });
});

test(`the sprue's foot is the middle of the smallest circle: no shift makes it smaller; seed ${seed}`, () => {
  const place = (at: Vec2) => ({ name: '', at: [...at, 0] as const, innerDiameter: 0, outerDiameter: 5 });
  const points = fc.array(
    fc.tuple(fc.double({ min: -50, max: 50, noNaN: true }), fc.double({ min: -50, max: 50, noNaN: true })),
    { minLength: 1, maxLength: 8 },
  );
  fc.assert(
    fc.property(points, (given) => {
      const [x, y] = middleOf(given.map(place));
      const reach = (dx: number, dy: number): number =>
        Math.max(...given.map((p) => Math.hypot(p[0] - x - dx, p[1] - y - dy)));
      for (let i = 0; i < 16; i++) {
        const turn = (i * Math.PI) / 8;
        expect(reach(0.01 * Math.cos(turn), 0.01 * Math.sin(turn))).toBeGreaterThanOrEqual(
          reach(0, 0) - 1e-6,
        );
      }
    }),
    { numRuns: 300, seed },
  );
});

describe('trees', () => {
  const outlines = fc.array(
    fc.tuple(fc.double({ min: -60, max: 60, noNaN: true }), fc.double({ min: -20, max: 20, noNaN: true })),
    { minLength: 3, maxLength: 12 },
  );
  const moved = (p: Vec2, { turn, x, y }: { turn: number; x: number; y: number }): Vec2 => [
    p[0] * Math.cos(turn) - p[1] * Math.sin(turn) + x,
    p[0] * Math.sin(turn) + p[1] * Math.cos(turn) + y,
  ];

  /** A line between two sets with at least `gap` between them, sought by turning (separating axis of convex hulls). */
  const apart = (a: readonly Vec2[], b: readonly Vec2[]): number => {
    let most = Number.NEGATIVE_INFINITY;
    for (let i = 0; i < 3600; i++) {
      const [c, s] = [Math.cos((i * Math.PI) / 1800), Math.sin((i * Math.PI) / 1800)];
      const along = (p: Vec2): number => p[0] * c + p[1] * s;
      most = Math.max(most, Math.min(...b.map(along)) - Math.max(...a.map(along)));
    }
    return most;
  };

  test(`patterns stand the gap apart, each alike towards the sprue; seed ${seed}`, () => {
    fc.assert(
      fc.property(outlines, fc.integer({ min: 2, max: 8 }), (outline, copies) => {
        const places = placeTree(outline, outline[0]!, copies, 10);
        expect(places.length).toBe(copies);
        const hulls = places.map((place) => outline.map((p) => moved(p, place)));
        hulls.forEach((a, i) => {
          for (const b of hulls.slice(i + 1)) expect(apart(a, b)).toBeGreaterThan(10 - 0.01);
        });
        const radii = hulls.map((h) => Math.hypot(...h[0]!));
        for (const r of radii) expect(r).toBeCloseTo(radii[0]!, 6);
      }),
      { numRuns: 60, seed },
    );
  });

  test('a tree of k is filled and fed as k castings through one sprue', () => {
    const { input } = barInput({ length: 60, width: 20, height: 10, sites: [0.5], gateWidth: 18 });
    const tree = placeTree(
      [
        [-30, -10],
        [30, -10],
        [30, 10],
        [-30, 10],
      ],
      [0, 0],
      3,
      10,
    );
    const one = planGating(input);
    const plan = planGating({ ...input, casting: { ...input.casting, radius: 60 }, tree });
    expect(isBuildable(plan)).toBe(true);
    expect(plan.gates.length).toBe(3);
    expect(plan.vents.length).toBe(3 * one.vents.length);
    expect(plan.fill.castingModulus).toBeCloseTo(one.fill.castingModulus, 9);
    expect(plan.fill.feedDemand).toBeCloseTo(3 * one.fill.feedDemand, 6);
    kernel.scope(() => {
      const gating = buildGating(plan, kernel, tolerance).mesh();
      expect(expectSound(gating).components).toBe(1 + plan.vents.length);
      return null;
    });
  });
});
