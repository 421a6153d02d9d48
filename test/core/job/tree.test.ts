/** Several patterns on one tree, through the whole job: what one mould holds, and what of it falls on a casting. */
import { beforeAll, describe, expect, test } from 'vitest';
import { plate } from '../../../cli/api.js';
import type { JobResult } from '../../../core/job/make-job.js';
import { spareFindings } from '../../../core/job/tree.js';
import { inspectMesh } from '../../../core/solid/inspect.js';

const job = (extra: string): string => `job: cleats
freeze: off
alloy: silicon-bronze
prices: { currency: EUR, metalPerKg: 10, investmentPerKg: 2, plasticPerKg: 20, consumablesPerMould: 3, energyPerKwh: 0.3 }
parts:
  - name: cleat
    part: horn-cleat
    preset: dinghy
    quantity: 5
${extra}`;

const make = async (extra: string): Promise<JobResult> => {
  const result = await plate(job(extra));
  if ('refused' in result) throw new Error(JSON.stringify(result.refused));
  return result;
};

let single: JobResult;
let tree: JobResult;
beforeAll(async () => {
  single = await make('');
  tree = await make('    patternsPerTree: 2\n');
});

describe('five cleats, two on a tree', () => {
  test('make three moulds: on the plates, in the flasks, of the melt', () => {
    const [part] = tree.summary.parts;
    expect(part).toMatchObject({ quantity: 5, patternsPerTree: 2, moulds: 3 });
    expect(tree.summary.plates.flatMap((p) => p.placements).length).toBe(3);
    const poured = tree.summary.charge[0]!.melt!.heats.flatMap((h) => h.moulds);
    expect(poured.length).toBe(3);
    expect(tree.summary.charge[0]!.inMoulds).toBeCloseTo(3 * part!.mass.charge, 6);
    const consumables = tree.summary.cost!.lines.find((l) => l.item === 'consumables');
    expect(consumables).toMatchObject({ quantity: expect.closeTo(3, 9), amount: expect.closeTo(9, 9) });
  });

  test('one mould’s metal is two castings and the gating; the part itself does not change', () => {
    const [alone, two] = [single.summary.parts[0]!, tree.summary.parts[0]!];
    expect(two.mass.casting).toBe(alone.mass.casting);
    expect(two.mass.charge).toBeCloseTo(2 * two.mass.casting + two.mass.gating, 6);
    expect(two.dimensions).toEqual(alone.dimensions);
    expect(tree.parts.get('cleat')!.meshes.pattern).toEqual(single.parts.get('cleat')!.meshes.pattern);
  });

  test('the gated tree is one sound piece, larger than two patterns by its gating alone', () => {
    const { meshes, gatingMesh } = tree.parts.get('cleat')!;
    const gated = inspectMesh(meshes.gated);
    expect(gated).toMatchObject({ components: 1, selfIntersections: 0, closed: true });
    const both = 2 * inspectMesh(meshes.pattern).volume;
    expect(gated.volume).toBeGreaterThan(both);
    // The roots sunk into the patterns count once.
    expect(gated.volume).toBeLessThan(both + inspectMesh(gatingMesh).volume);
    expect(gated.volume).toBeGreaterThan(both + 0.97 * inspectMesh(gatingMesh).volume);
  });

  test('the sixth casting is told, with what would spare it', () => {
    const told = (r: JobResult) => r.summary.parts[0]!.findings.find((f) => f.code === 'tree-spares');
    expect(told(single)).toBeUndefined();
    expect(told(tree)).toMatchObject({
      message: expect.stringMatching(/^3 trees of 2 give 6 castings, 1 more than the 5 wanted;/),
      remedy: 'Keep them as spares, or make the quantity 6.',
    });
    const cases = [
      [7, 6, /2 trees of 6 give 12 castings, 5 more/, /stand 4 on a tree, or make the quantity 12\./],
      [1, 8, /^One tree of 8 gives 8 castings, 7 more/, /leave patternsPerTree out/],
    ] as const;
    const request = tree.parts.get('cleat')!.request;
    for (const [quantity, patternsPerTree, message, remedy] of cases) {
      const [found] = spareFindings({ ...request, quantity, patternsPerTree });
      expect(found!.message).toMatch(message);
      expect(found!.remedy).toMatch(remedy);
    }
    expect(spareFindings({ ...request, quantity: 12, patternsPerTree: 6 })).toEqual([]);
  });

  test('the melting paid for is what the furnace is said to draw', () => {
    const { cost, charge } = tree.summary;
    const drawn = charge[0]!.melt!.heats.reduce((sum, h) => sum + h.drawn, 0);
    const line = cost!.lines.find((l) => l.item.startsWith('melting'));
    expect(line).toMatchObject({ quantity: expect.closeTo(drawn / 3.6e6, 9), unit: 'kWh' });
  });

  test('what the parts cost adds up to the whole', () => {
    for (const { summary } of [single, tree]) {
      const { parts, total } = summary.cost!;
      expect(parts.reduce((sum, p) => sum + p.all, 0)).toBeCloseTo(total, 6);
    }
  });
});

test('gates asked for are made, or refused with how many there are', async () => {
  const two = await make('    gates: 1\n');
  expect(two.summary.parts[0]!.gating.gates.length).toBe(1);
  const three = await make('    gates: 3\n');
  expect(three.summary.parts[0]!.gating.gates.map((g) => g.runner !== undefined)).toEqual([true, true, true]);
  await expect(make('    gates: 4\n')).rejects.toThrow(/too-many-gates/);
  await expect(make('    gates: 7\n')).rejects.toThrow(/gates.*1 to 4/s);
  await expect(make('    patternsPerTree: 0\n')).rejects.toThrow(/patternsPerTree.*1 to 8/s);
});

test.each([3, 5])(
  '%i racks, whose runners meet in one plane as mirror images, make one sound mesh',
  async (n) => {
    const result = await plate(
      `job: racks\nalloy: tin-bronze\nparts: [{ name: rack, part: rack, quantity: ${n}, patternsPerTree: ${n} }]`,
    );
    if ('refused' in result) throw new Error(JSON.stringify(result.refused));
    const gated = inspectMesh(result.parts.get('rack')!.meshes.gated);
    expect(gated).toMatchObject({ components: 1, selfIntersections: 0, closed: true });
  },
);

test('seven fairleads: every vent added for the air is there, under a name of its own', async () => {
  const result = await plate(
    'job: rings\nalloy: silicon-bronze\ninvestment: ceramic-shell\nbed: { width: 300, depth: 300 }\nparts: [{ name: ring, part: fairlead, quantity: 7, patternsPerTree: 7 }]',
  );
  if ('refused' in result) throw new Error(JSON.stringify(result.refused));
  const { air, gating, findings } = result.summary.parts[0]!;
  const names = air!.ventsAdded.map((v) => v.name);
  expect(names.length).toBeGreaterThan(0);
  expect(new Set(names).size).toBe(names.length);
  for (const { name, at } of air!.ventsAdded)
    expect(gating.vents.find((v) => v.name === name)?.path[0]).toEqual(at);
  expect(findings.filter((f) => /No vent fits at air vent/.test(f.message))).toEqual([]);
});

test('a flask wider than the burnout is worked out for is refused where it is listed', async () => {
  const listed = 'flasks: [{ name: drum, diameter: 320mm, height: 400mm }]\n';
  await expect(plate(`${listed}${job('')}`)).rejects.toThrow(/flasks\[0\]\.diameter.*20 to 300 mm/s);
});

describe('what a job sets of the gating', () => {
  const alone = (gating: string): string => `job: cleat
alloy: silicon-bronze
gating: ${gating}
parts: [{ name: cleat, part: horn-cleat, preset: dinghy }]`;
  const planned = async (gating: string) => {
    const result = await plate(alone(gating));
    if ('refused' in result) throw new Error(JSON.stringify(result.refused));
    return result.summary.parts[0]!.gating;
  };

  test('is used, in its own units, and named as the source', async () => {
    const plan = await planned(
      '{ velocityLimit: 0.3, pourTime: 1.5s, cupWallAngle: 50deg, ventLargestDiameter: 3/32in }',
    );
    expect(plan.entry.velocityLimit).toBe(300);
    expect(plan.fill.pourTime).toBeGreaterThanOrEqual(1.5);
    expect(plan.cup.wallAngle).toBeCloseTo((50 * Math.PI) / 180, 9);
    for (const v of plan.vents) expect(v.diameter).toBeLessThanOrEqual((3 / 32) * 25.4 + 1e-9);
    expect(plan.bases.velocityLimit).toMatchObject({ source: 'set in the job' });
    // Bare durations are seconds: a pour of 1.5 min freezes.
    expect((await planned('{ pourTime: 1.5 }')).bases.pourTime).toEqual(
      (await planned('{ pourTime: 1.5s }')).bases.pourTime,
    );
  });

  test('is refused with its place and what would be right', async () => {
    await expect(planned('{ cupShare: -1 }')).rejects.toThrow(/gating\.cupShare.*0 to 10/s);
    await expect(planned('{ neckLength: 4 }')).rejects.toThrow(/neckLength/);
    await expect(planned('{ cupLargestDiameter: 20mm, cupLeastDiameter: 1in }')).rejects.toThrow(
      /cupLargestDiameter is 20 mm.*at least cupLeastDiameter, 25.4 mm/,
    );
    await expect(planned('{ gates: two }')).rejects.toThrow(/write it like 3 \(a whole number from 1 to 4\)/);
    await expect(planned('{ pourTime: 3min }')).rejects.toThrow(/from 0\.2 to 120 s/);
    await expect(planned('{ ventLargestDiameter: 1mm }')).rejects.toThrow(
      /at least ventLeastDiameter, 1.5 mm/,
    );
  });
});
