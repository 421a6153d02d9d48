/** What a job's limits are to packed trees: none refuses a job that is made without them. */
import { beforeAll, expect, test } from 'vitest';
import { findAlloy } from '../../../core/foundry/alloys/index.js';
import { type JobResult, makeJob, type RefusedJob } from '../../../core/job/make-job.js';
import { parseJob } from '../../../core/job/read-job.js';
import { rememberLast } from '../../../core/job/remember.js';
import { loadKernel } from '../../../core/solid/index.js';
import type { Kernel } from '../../../core/solid/types.js';
import { findPart } from '../../../generators/index.js';
import { jobContext } from '../../../generators/job-context.js';

let kernel: Kernel;
const remember = rememberLast(200);
beforeAll(async () => {
  kernel = await loadKernel();
});

const run = (more: object, keepGoing = false): JobResult => {
  const source = { job: 'a', tolerance: 0.1, freeze: 'off', packFlasks: true, ...more };
  const reading = parseJob(JSON.stringify(source), jobContext('job'));
  if (!reading.ok) throw new Error(JSON.stringify(reading.problems));
  const result: JobResult | RefusedJob = makeJob(reading.job, { kernel, findPart, remember, keepGoing });
  if ('refused' in result) throw new Error(JSON.stringify(result.refused));
  return result;
};
const trees = ({ summary }: JobResult) => summary.parts.filter((p) => p.members);

const knob = { name: 'knob', part: 'knob', quantity: 4, parameters: { size: 24 } };
const flasks = [
  { name: 'can', diameter: 60, height: 130 },
  { name: 'pot', diameter: 80, height: 140 },
];

test('no tree stands in a flask that does not go into the kiln', () => {
  const kiln = (width: number) => ({
    parts: [knob],
    flasks,
    shop: { kiln: { width, depth: 400, height: 400 } },
  });
  // A pot with 25 mm of air on either side.
  expect(trees(run(kiln(130))).map((p) => p.flask!.name)).toContain('pot');
  const small = run(kiln(129));
  expect(trees(small).filter((p) => p.flask!.name === 'pot')).toEqual([]);
  expect(small.summary.parts.reduce((sum, p) => sum + p.quantity, 0)).toBe(4);
});

test('no tree hangs that a zone of the bed leaves no room', () => {
  const wide = { width: 200, depth: 200, height: 200 };
  const parts = [{ ...knob, quantity: 8 }];
  const pots = [{ name: 'pot', diameter: 110, height: 140 }];
  const free = run({ parts, flasks: pots, bed: wide });
  const size = Math.min(...trees(free).map((p) => Math.min(...p.meshes.gated.size.slice(0, 2))));
  const alone = Math.max(
    ...run({ parts, flasks: pots, bed: wide, packFlasks: false }).summary.parts[0]!.meshes.gated.size.slice(
      0,
      2,
    ),
  );
  expect(size).toBeGreaterThan(alone + 8);
  const strip = alone + 14;
  const narrow = run({
    parts,
    flasks: pots,
    bed: { ...wide, keepOut: [{ x: strip, y: 0, width: 200 - strip, depth: 200 }] },
  });
  expect(narrow.summary.parts.reduce((sum, p) => sum + p.quantity, 0)).toBe(8);
});

test('what is left out for another’s sake hangs on no tree', () => {
  const parts = [knob, { name: 'ring', part: 'ring-pull', quantity: 2, parameters: { size: 40 } }];
  const pot = { flasks: [{ name: 'pot', diameter: 80, height: 140 }] };
  const kept = run({ parts, ...pot }, true);
  expect(kept.notMade.map((r) => r.name)).toEqual(['ring-ring', 'ring-plate', 'ring-pin']);
  const without = run({ parts: [knob], ...pot });
  const { notMade: _, ...told } = kept.summary;
  expect(told).toEqual(without.summary);
});

test('the metal of a tree is that of its castings and of its gating, whatever their growths and their order', () => {
  const of = (name: string, growth: number, count: number) => ({
    name,
    part: 'knob',
    count,
    growth,
    parameters: { size: 24 },
  });
  const [little, large] = [of('a', 1, 3), of('b', 1.05, 2)];
  const density = findAlloy('tin-bronze')!.density;
  const masses = [
    [little, large],
    [large, little],
  ].map((tree) => {
    const { summary, parts } = run({ parts: [{ name: 't', alloy: 'tin-bronze', tree }] });
    const { mass, members, volume } = summary.parts[0]!;
    const castings = members!.reduce((sum, m) => sum + m.count * m.volume.casting * density, 0);
    const gating = volume.gated - parts.get('t')!.facts.pattern.volume;
    // Nothing of it grows where the growth is 1.
    expect(mass.gating).toBeCloseTo(gating * density, 6);
    expect(mass.charge).toBeCloseTo(castings + mass.gating, 6);
    return mass.charge;
  });
  expect(masses[0]! / masses[1]!).toBeCloseTo(1, 2);
});
