/** A tree by hand against its patterns by themselves, as jobs of their own have it. */
import { beforeAll, expect, test } from 'vitest';
import { plate } from '../../../cli/api.js';
import type { JobResult } from '../../../core/job/make-job.js';
import { formatConsole } from '../../../core/report/text-summary.js';
import { formatTraveller } from '../../../core/report/traveller.js';
import { formatDuration } from '../../../core/units/index.js';

const made = async (text: string): Promise<JobResult> => {
  const result = await plate(text);
  if ('refused' in result) throw new Error(JSON.stringify(result.refused));
  return result;
};

const head = 'job: locker\nalloy: tin-bronze\nfreeze: off\n';
const members = [
  'part: knob, count: 2, parameters: { size: 26, door: 18 }',
  'name: pull, part: hatch-pull, count: 1, parameters: { size: 24 }',
  'name: cleat, part: horn-cleat, count: 1, preset: dinghy',
];
const small = 'part: knob, count: 2, parameters: { size: 16 }';

const treeOf = (of: readonly string[]): string =>
  `${head}parts:\n  - { name: tree, tree: [${of.map((m) => `{ ${m} }`).join(', ')}] }\n`;
const eachOf = (of: readonly string[]): string =>
  `${head}parts:\n${of.map((m) => `  - { ${m.replace('count', 'quantity').replace(/^part/, 'name: knob, part')} }\n`).join('')}`;

let tree: JobResult;
let alone: JobResult;
beforeAll(async () => {
  tree = await made(treeOf(members));
  alone = await made(eachOf(members));
});

test('more powder and hours are told, as the patterns by themselves take them', () => {
  const [found] = tree.summary.findings.filter((f) => f.code === 'tree-takes-more');
  const powder = ({ summary }: JobResult): number =>
    summary.parts.reduce((s, p) => s + p.moulds * p.flask!.weigh.powder, 0);
  const hours = ({ summary }: JobResult): number => summary.burnout.total / 3600;
  expect(powder(tree)).toBeGreaterThan(1.05 * powder(alone));
  expect(hours(tree)).toBeGreaterThan(1.05 * hours(alone));
  const told =
    /takes ([\d.]+) kg of powder, its 4 patterns by themselves about ([\d.]+) kg; it burns out in (\d+) h(?: (\d+) min)?, those of its patterns by themselves in about (\d+) h(?: (\d+) min)?\.$/.exec(
      found!.message,
    )!;
  const [, onTree, own, h, min, ownH, ownMin] = told.map((x) => Number(x ?? 0));
  expect(onTree).toBeCloseTo(powder(tree) / 1000, 0);
  expect(Math.abs(own! - powder(alone) / 1000)).toBeLessThan(0.1 * own!);
  expect(h! + (min ?? 0) / 60).toBeCloseTo(hours(tree), 1);
  expect(ownH! + (ownMin ?? 0) / 60).toBeCloseTo(hours(alone), 1);
  expect(alone.summary.findings.map((f) => f.code)).not.toContain('tree-takes-more');
});

test('on screen and in the traveller', () => {
  const view = { lengthUnit: 'mm', degrees: 'C' } as const;
  expect(formatConsole(tree.summary, view)).toContain('[tree-takes-more]');
  expect(formatTraveller(tree.summary, {}, {}, view)).toContain('by themselves about');
});

test('not where it takes less', async () => {
  const little = await made(treeOf([small]));
  const single = await made(eachOf([small]));
  const of = ({ summary }: JobResult): number =>
    summary.parts.reduce((s, p) => s + p.moulds * p.flask!.weigh.powder, 0);
  const told = little.summary.findings.some(
    (f) => f.code === 'tree-takes-more' && f.message.includes('powder'),
  );
  expect(told).toBe(of(little) > 1.05 * of(single));
  expect(told).toBe(false);
});

test('of copies on one tree just as of a list', async () => {
  const copies = 'name: cleat, part: horn-cleat, parameters: { line: 6 }';
  const many = await made(`${head}parts:\n  - { ${copies}, quantity: 4, patternsPerTree: 4 }\n`);
  const single = await made(`${head}parts:\n  - { ${copies}, quantity: 4 }\n`);
  const told = many.summary.findings.find((f) => f.code === 'tree-takes-more')?.message ?? '';
  // As much powder, in one wide flask.
  const hours = ({ summary }: JobResult): number => summary.burnout.total;
  expect(hours(many)).toBeGreaterThan(1.05 * hours(single));
  expect(told).toBe(
    `The flask of cleat burns out in ${formatDuration(hours(many))}, those of its patterns by themselves in about ${formatDuration(hours(single))}.`,
  );
});
