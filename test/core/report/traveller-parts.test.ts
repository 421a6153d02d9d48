import { expect, test } from 'vitest';
import type { MemberSummary, PartSummary, Summary } from '../../../core/job/summary.js';
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
  const member = (name: string, count: number) => ({ name, title, count, meshes, mass, fittings: [] });
  const members = [member('knob', 2), member('pull', 1)] as unknown as readonly MemberSummary[];
  const many = overview(61, { members });
  expect(many).toContain('gating of one mould; of a tree of several kinds all that hangs on it. Each part');
  expect(many).toMatch(/<b>2 × <bdi>knob<\/bdi><\/b>.*<b>1 × <bdi>pull<\/bdi><\/b>/s);
  expect(overview(2, { members })).toContain('All on a tree: ');
});
