/** A job's small patterns put on trees by the program, and the same by hand. */
import { beforeAll, describe, expect, test } from 'vitest';
import { plate } from '../../../cli/api.js';
import type { JobResult } from '../../../core/job/make-job.js';
import { formatTraveller } from '../../../core/report/traveller.js';
import { inspectMesh } from '../../../core/solid/inspect.js';

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
  });

  test('written by hand as it says, it is the same', async () => {
    const { remedy } = packed.summary.findings.find((f) => f.code === 'flasks-packed')!;
    const parameters = { knob: '{ size: 24, door: 18 }', pull: '{ size: 20 }' };
    const entries = [...remedy.matchAll(/\{ name: tree-\d.*?\] \}/g)].map(([text]) =>
      text.replace(
        /(name: (knob|pull), part: [a-z-]+,)/g,
        (_, all: string, name: 'knob' | 'pull') => `${all} parameters: ${parameters[name]},`,
      ),
    );
    const alone = packed.summary.parts
      .filter((p) => !p.members)
      .map(({ name, quantity }) => {
        const line = parts.split('\n').find((l) => l.includes(`name: ${name},`))!;
        return /quantity: \d+/.test(line) ? line.replace(/quantity: \d+/, `quantity: ${quantity}`) : line;
      });
    const byHand = await made(job('', [...entries.map((e) => `  - ${e}`), ...alone].join('\n')));
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
    expect(trees(byHand)).toEqual(trees(packed));
    expect(moulds(byHand)).toBe(moulds(packed));
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
