import { expect, test } from 'vitest';
import type { MemberSummary, PartSummary, Summary } from '../../../core/job/summary.js';
import { formatConsole } from '../../../core/report/text-summary.js';
import { formatTraveller } from '../../../core/report/traveller.js';
import { summary } from './fixture.js';

const [part] = summary.parts as readonly [PartSummary];

/** The overview of so many parts, each with a picture. */
function overview(count: number, changes: Partial<PartSummary> = {}): string {
  const parts = Array.from({ length: count }, (_, i) => ({
    ...part,
    ...(i === 0 ? changes : {}),
    name: `part-${i}`,
  })) as unknown as Summary['parts'];
  const previews = Object.fromEntries(parts.map(({ name }) => [name, new Uint8Array([1])]));
  const page = formatTraveller({ ...summary, parts }, previews, {}, { lengthUnit: 'mm', degrees: 'C' });
  return page.slice(page.indexOf('<main>'), page.indexOf('id="print"'));
}

test('up to sixty parts are cards with their pictures, more are a table without', () => {
  const few = overview(60);
  expect(few.match(/<div class="card">/g)).toHaveLength(60);
  expect(few.match(/alt="The gated pattern of part-\d+"/g)).toHaveLength(60);
  const many = overview(61);
  expect(many).not.toContain('<div class="card">');
  expect(many).not.toContain('<img');
  expect(many.match(/<th scope="row" class="part"><bdi>part-\d+<\/bdi>/g)).toHaveLength(61);
  expect(many).toContain('Of one, and with gating of one mould. Each part is pictured');
});

test('a tree of several kinds lists them, and is said to be told as a whole', () => {
  const { title, meshes, mass } = part;
  const { growth } = part;
  const member = (name: string, count: number) => ({
    name,
    title,
    count,
    meshes,
    mass,
    growth,
    fittings: [],
  });
  const members = [member('knob', 2), member('pull', 1)] as unknown as readonly MemberSummary[];
  const many = overview(61, { members });
  expect(many).toContain('gating of one mould; of a tree of several kinds all that hangs on it. Each part');
  expect(many).toMatch(/<b>2 × <bdi>knob<\/bdi><\/b>.*<b>1 × <bdi>pull<\/bdi><\/b>/s);
  expect(overview(2, { members })).toContain('All on a tree: ');
});

/** A tree of two knobs grown by 1.05 and a pull grown as the handbook says. */
const mixedTree = (): PartSummary => {
  const { title, meshes, mass, growth, gating } = part;
  const [gate] = gating.gates;
  const member = (name: string, count: number, way: string, value: number) => ({
    name,
    title,
    count,
    quantity: count,
    meshes,
    mass,
    growth: { ...growth, way, value },
    fittings: [],
  });
  return {
    ...part,
    name: 'tree',
    quantity: 3,
    members: [member('knob', 2, 'set', 1.05), member('pull', 1, 'handbook', 1.0156)],
    gating: {
      ...gating,
      findings: [],
      gates: ['knob: top', 'knob: top', 'pull: rim'].map((name) => ({ ...gate!, name, outerDiameter: 10 })),
      vents: [{ ...gating.vents[0]!, name: 'pull: end', diameter: 3 }],
    },
  } as unknown as PartSummary;
};

test('each kind on a tree is sawn and told by its own growth', () => {
  const job = { ...summary, parts: [mixedTree()] } as unknown as Summary;
  const page = formatTraveller(job, {}, {}, { lengthUnit: 'mm', degrees: 'C' });
  const quench = page.slice(page.indexOf('id="quench"'));
  // On the casting: 10 / 1.05 and 10 / 1.0156, the vent 3 / 1.0156.
  expect(quench).toContain('2 × 9.52; 9.85');
  expect(quench).toMatch(/ø\s2\.95: pull: end/);
  const growth = page.slice(page.indexOf('Growth: pattern size'));
  const rows = growth.slice(0, growth.indexOf('</table>')).replace(/<[^>]*>/g, ' ');
  expect(rows).toMatch(/handbook allowance[^a-z]*to[^a-z]*taken for some/);
  expect(rows).toMatch(/set in the job +× 1\.0500 +– +taken for some/);
});

test('of a job with trees castings are told as not made: a tree is no part of it', () => {
  const gone = { name: 'eye', part: 'eye', quantity: 2, alloy: 'brass', findings: [] };
  const told = (parts: readonly PartSummary[]): readonly (string | undefined)[] => {
    const job = { ...summary, parts, notMade: [gone] } as unknown as Summary;
    const view = { lengthUnit: 'mm', degrees: 'C' } as const;
    return [
      /NOT MADE +([^;\n]*)/.exec(formatConsole(job, view))?.[1],
      /NOT MADE: ([^\n]*)/.exec(formatTraveller(job, {}, {}, view))?.[1]?.replace(/<[^>]*>/g, ''),
    ];
  };
  expect(told([mixedTree()])).toEqual(['1 part, 2 of 5 castings', '1 part, 2 of 5 castings']);
  expect(told([part])).toEqual(['1 of 2 parts', '1 of 2 parts, 2 castings']);
});
