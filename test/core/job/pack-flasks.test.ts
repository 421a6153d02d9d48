/** A job's small patterns put on trees by the program, and the same by hand. */
import { beforeAll, describe, expect, test } from 'vitest';
import { plate } from '../../../cli/api.js';
import type { Job, JobPart } from '../../../core/job/job.js';
import type { JobResult } from '../../../core/job/make-job.js';
import { packAdvice } from '../../../core/job/pack-advice.js';
import { formatTraveller } from '../../../core/report/traveller.js';
import { inspectMesh } from '../../../core/solid/inspect.js';
import { formatDuration } from '../../../core/units/index.js';

const job = (packing: string, parts: string): string => `job: fittings
alloy: yellow-brass
flasks: [{ name: can-100, diameter: 100mm, height: 130mm, base: closed }]
freeze: off
${packing}
parts:
${parts}`;
const parts = `  - { name: knob, part: knob, quantity: 6, parameters: { size: 24, door: 18 } }
  - { name: pull, part: hatch-pull, quantity: 4, parameters: { size: 20 } }
  - { name: eye, part: deck-eye, alloy: tin-bronze, parameters: { line: 8 } }
`;

const made = async (text: string): Promise<JobResult> => {
  const result = await plate(text);
  if ('refused' in result) throw new Error(JSON.stringify(result.refused));
  return result;
};

let packed: JobResult;
let single: JobResult;
beforeAll(async () => {
  packed = await made(job('packFlasks: yes', parts));
  single = await made(job('packFlasks: no', parts));
});

const moulds = ({ summary }: JobResult): number => summary.parts.reduce((sum, p) => sum + p.moulds, 0);
const castings = ({ summary }: JobResult, name: string): number =>
  summary.parts.reduce(
    (sum, p) =>
      sum +
      (p.name === name ? p.quantity : 0) +
      (p.members ?? []).reduce((s, m) => s + (m.name === name ? m.quantity : 0), 0),
    0,
  );

describe('ten knobs and pulls in cans of 100 mm, and an eye of another alloy', () => {
  test('every casting is still made, in less than half the flasks', () => {
    for (const [name, count] of [
      ['knob', 6],
      ['pull', 4],
      ['eye', 1],
    ] as const)
      expect(castings(packed, name)).toBe(count);
    expect(moulds(single)).toBe(11);
    expect(moulds(packed)).toBeLessThanOrEqual(5);
    // Nothing of its own alloy hangs with the eye.
    expect(packed.summary.parts.find((p) => p.name === 'eye')).toMatchObject({ quantity: 1, moulds: 1 });
    for (const p of packed.summary.parts.filter((q) => q.members)) expect(p.alloy).toBe('yellow-brass');
  });

  test('every tree is sound, clears its can and breaks no rule that its patterns keep', () => {
    const broken = new Set(
      single.summary.parts.flatMap((p) =>
        p.gating.findings.filter((f) => f.severity === 'warn').map((f) => f.code),
      ),
    );
    for (const p of packed.summary.parts.filter((q) => q.members)) {
      const { clearance } = p.flask!;
      expect(clearance.wall).toBeGreaterThan((p.mass.charge >= 500 ? 13 : 6.4) - 1e-9);
      expect(clearance.floor).toBeGreaterThan(25 - 1e-9);
      expect(p.patternsPerTree).toBeLessThanOrEqual(8);
      for (const f of p.gating.findings) if (f.severity === 'warn') expect(broken).toContain(f.code);
      expect(p.gating.fill.modulusRatio).toBeGreaterThan(1.2 * (1 - 1e-6));
      const gated = inspectMesh(packed.parts.get(p.name)!.meshes.gated);
      expect(gated).toMatchObject({ components: 1, selfIntersections: 0, closed: true });
    }
  });

  test('stood as the papers say, each has the wall that is told', () => {
    const { summary, parts: made } = packed;
    for (const { name, flask, flaskAxis, gating } of summary.parts) {
      const { positions } = made.get(name)!.meshes.gated;
      const { min, max } = made.get(name)!.gatedBox;
      const [x, y] = flaskAxis ?? [(min[0] + max[0]) / 2, (min[1] + max[1]) / 2];
      if (flaskAxis) expect(flaskAxis).toEqual(gating.sprue.at.slice(0, 2));
      let reach = 0;
      for (let i = 0; i < positions.length; i += 3)
        reach = Math.max(reach, Math.hypot(positions[i]! - x, positions[i + 1]! - y));
      expect(flask!.insideDiameter / 2 - reach).toBeCloseTo(flask!.clearance.wall, 3);
    }
    const bySprue = summary.parts.filter((p) => p.flaskAxis).length;
    expect(bySprue).toBeGreaterThan(0);
    const traveller = formatTraveller(summary, {}, {}, { lengthUnit: 'mm', degrees: 'C' });
    expect(traveller.match(/cover [\d.]+; its sprue in the middle</g)).toHaveLength(bySprue);
    expect(traveller).toContain('A tree stands with its sprue in the middle of the flask');
    const without = formatTraveller(single.summary, {}, {}, { lengthUnit: 'mm', degrees: 'C' });
    expect(without).not.toContain('sprue in the middle');
  });

  test('what it spares is told, by the numbers of both', () => {
    const found = packed.summary.findings.find((f) => f.code === 'flasks-packed')!;
    const onTrees = packed.summary.parts.filter((p) => p.members);
    const hung = onTrees.reduce((sum, p) => sum + p.quantity, 0);
    const flasks = onTrees.reduce((sum, p) => sum + p.moulds, 0);
    expect(found.message).toContain(
      `${hung} castings hang in ${flasks} flasks in place of one each: ${hung - flasks} flasks fewer`,
    );
    const powder = ({ summary }: JobResult): number =>
      summary.parts.reduce((s, p) => s + p.moulds * p.flask!.weigh.powder, 0);
    const told = /([\d.]+) kg less investment powder/.exec(found.message)!;
    expect(Math.abs(1000 * Number(told[1]) - (powder(single) - powder(packed)))).toBeLessThan(60);
    // And what it costs: hours in the kiln.
    const hours = ({ summary }: JobResult): string => formatDuration(summary.burnout.total);
    expect(found.message).toMatch(
      hours(packed) === hours(single)
        ? /; the burnout takes as long\.$/
        : new RegExp(`; the burnout takes ${hours(packed)} in place of ${hours(single)}\\.$`),
    );
  });

  test('written by hand as it says, it is the same', async () => {
    const byHand = await made(job('', byAdvice(parts, packed)));
    expect(trees(byHand)).toEqual(trees(packed));
    expect(moulds(byHand)).toBe(moulds(packed));
  });
});

const adviceOf = ({ summary }: JobResult): string =>
  summary.findings.find((f) => f.code === 'flasks-packed')!.remedy;

/** The list of a job's parts after somebody has done what the advice says, word by word. */
function byAdvice(list: string, packed: JobResult): string {
  const steps = adviceOf(packed).replace(/\.$/, '');
  const gone = /take out ([^;]+);/.exec(steps)?.[1]?.split(', ') ?? [];
  const fewer = [...steps.matchAll(/([\w-]+) \(quantity: (\d+)\)/g)].map(([, name, n]) => [name, n] as const);
  const added = /on a line of its own: (.*)$/.exec(steps)![1]!.split('; ');
  const lines = list
    .split('\n')
    .filter((line) => line !== '' && !gone.some((n) => line.includes(`name: ${n},`)));
  const kept = lines.map((line) => {
    const [, n] = fewer.find(([name]) => line.includes(`name: ${name},`)) ?? [];
    return n === undefined ? line : line.replace(/quantity: \d+/, `quantity: ${n}`);
  });
  return [...kept, ...added.map((entry) => `  - ${entry}`)].join('\n');
}

const trees = (r: JobResult) =>
  r.summary.parts
    .filter((p) => p.members)
    .map(({ name, moulds: n, mass, gating, flask }) => ({
      name,
      n,
      mass,
      gates: gating.gates,
      flask: flask!.name,
      clearance: flask!.clearance,
    }));

describe('the advice', () => {
  test('has the words of the job: its units, stock, growth and gating, and the pieces that are over', async () => {
    const inInches = `  - { name: hasp, part: strap-hinge, quantity: 2, parameters: { size: 3 in } }
  - { name: pull, part: hatch-pull, quantity: 3, stock: { skin: 0.01 }, gating: { velocityLimit: 0.48 }, growth: 1.018, parameters: { size: 0.8 } }
`;
    const text = (list: string, packing: string): string => `units: in\n${job(packing, list)}`;
    const result = await made(text(inInches, 'packFlasks: yes'));
    expect(adviceOf(result)).toContain('stock: { skin: 0.01 }');
    const byHand = await made(text(byAdvice(inInches, result), ''));
    expect(trees(byHand)).toEqual(trees(result));
    expect(moulds(byHand)).toBe(moulds(result));
    expect(byHand.summary.parts.map((p) => [p.name, p.quantity]).sort()).toEqual(
      result.summary.parts.map((p) => [p.name, p.quantity]).sort(),
    );
  });

  test('of many trees tells some and how many more', () => {
    const names = Array.from({ length: 60 }, (_, i) => `knob-${i}`);
    const written = { casting: 'parameters: { size: 24 }', gating: '' };
    const base = { alloy: 'yellow-brass', stock: {}, parameters: {} };
    const many = {
      parts: names.map((name) => ({ ...base, name, part: 'knob', quantity: 1, written })),
    } as unknown as Job;
    const packedTrees = names.flatMap((name, i): readonly JobPart[] =>
      i % 2 === 1
        ? []
        : [
            {
              ...base,
              name: `tree-${i}`,
              part: 'tree',
              quantity: 2,
              patternsPerTree: 2,
              tree: [name, names[i + 1]!].map((n) => ({ ...base, name: n, part: 'knob', count: 1 })),
            },
          ],
    );
    const advice = packAdvice(many, packedTrees);
    expect(advice.length).toBeLessThan(2200);
    expect(advice).toContain('knob-10 and 49 more;');
    const told = advice.match(/\{ name: tree-/g)!.length;
    expect(advice).toContain(`and ${30 - told} more; the traveller tells what hangs on each.`);
  });
});

test('trees by hand and copies on trees stay as they are; shells are not packed', async () => {
  const own = `  - { name: knobs, quantity: 2, tree: [{ part: knob, count: 2, parameters: { size: 24, door: 18 } }] }
  - { name: pull, part: hatch-pull, quantity: 4, patternsPerTree: 2, parameters: { size: 20 } }
`;
  const kept = await made(job('packFlasks: yes', own));
  expect(kept.summary.parts.map((p) => [p.name, p.moulds])).toEqual([
    ['knobs', 2],
    ['pull', 2],
  ]);
  expect(kept.summary.findings.map((f) => f.code)).toContain('nothing-packed');
  const shells = await made(
    'job: shells\ninvestment: ceramic-shell\nalloy: silicon-bronze\nfreeze: off\npackFlasks: yes\nparts: [{ name: knob, part: knob, quantity: 4 }]',
  );
  expect(shells.summary.parts.map((p) => p.name)).toEqual(['knob']);
  expect(shells.summary.findings.find((f) => f.code === 'nothing-packed')!.message).toMatch(
    /shells, not flasks/,
  );
});

test('a crucible that holds no tree is told as what keeps patterns from one', async () => {
  const packing = 'packFlasks: yes\nshop: { crucibles: [{ name: thimble, volume: 25 }] }';
  const knobs = '  - { name: knob, part: knob, quantity: 6, parameters: { size: 20 } }\n';
  const result = await made(job(packing, knobs));
  const [found] = result.summary.findings.filter((f) => f.code === 'nothing-packed');
  expect(found!.message).toMatch(/^No patterns are put on trees: the largest crucible /);
  expect(found!.remedy).toMatch(/^List a larger crucible/);
});
