import { describe, expect, test } from 'vitest';
import type { Summary } from '../../../core/job/summary.js';
import type { View } from '../../../core/report/format.js';
import { formatTraveller, type TravellerPictures, travellerChunks } from '../../../core/report/traveller.js';
import { madeUpPlan } from '../../helpers/made-up-plan.js';
import { hostileSummary, pictures, planSvgs, summary } from './fixture.js';

const metric: View = { lengthUnit: 'mm', degrees: 'C' };
const svg = (title: string): string =>
  `<svg xmlns="http://www.w3.org/2000/svg"><title>${title} Ø</title></svg>`;

/** The first part with all there is to show of it, the second with its picture alone, the others with nothing. */
const [full, bare] = summary.parts.map((p) => p.name) as [string, string];
const frozen = (of: Summary): Summary => ({
  ...of,
  parts: of.parts.map((p, i) => (i === 0 ? { ...p, freeze: madeUpPlan() } : p)),
});
const previews = Object.fromEntries(
  Object.entries(pictures).filter(([name]) => name === full || name === bare),
);
const drawings = { [full]: svg('drawing') };
const freeze = { [full]: { section: svg('section'), surface: svg('surface') } };

const stock: TravellerPictures<Uint8Array | string> = {
  has: (kind, name) =>
    name in
    { preview: previews, plan: planSvgs, drawing: drawings, freezeSection: freeze, freezeSurface: freeze }[
      kind
    ],
  read: (kind, name) =>
    ({
      preview: previews[name]!,
      plan: planSvgs[name]!,
      drawing: drawings[name]!,
      freezeSection: freeze[name]?.section ?? '',
      freezeSurface: freeze[name]?.surface ?? '',
    })[kind],
};

const joined = async (chunks: AsyncIterable<string>): Promise<string> => {
  let text = '';
  for await (const chunk of chunks) text += chunk;
  return text;
};

describe('a traveller in pieces', () => {
  test.each([
    ['plain', summary],
    ['with hostile text', hostileSummary],
  ])('is the one made at once, to the byte, %s', async (_, of) => {
    for (const view of [metric, { lengthUnit: 'in', degrees: 'F' } as const]) {
      const whole = formatTraveller(frozen(of), previews, planSvgs, view, drawings, freeze);
      expect(await joined(travellerChunks(frozen(of), stock, view))).toBe(whole);
      const later: TravellerPictures = { ...stock, read: async (kind, name) => stock.read(kind, name) };
      expect(await joined(travellerChunks(frozen(of), later, view))).toBe(whole);
    }
    expect(formatTraveller(of, previews, planSvgs, metric)).not.toContain('\u0001');
  });

  test('each picture is asked for when its turn comes, once, the one before handed on', async () => {
    const asked: string[] = [];
    let held = 0;
    const counted: TravellerPictures = {
      ...stock,
      async read(kind, name) {
        asked.push(`${kind} ${name}`);
        held++;
        expect(held).toBe(1);
        return stock.read(kind, name);
      },
    };
    let text = '';
    for await (const chunk of travellerChunks(frozen(summary), counted, metric)) {
      if (chunk.startsWith('data:')) held--;
      text += chunk;
      expect(text.match(/data:image/g)?.length ?? 0).toBe(asked.length);
    }
    const plates = summary.plates.map((p) => `plan ${p.name}`);
    expect(asked).toEqual([
      `preview ${full}`,
      `preview ${bare}`,
      `freezeSection ${full}`,
      `freezeSurface ${full}`,
      ...plates,
      `drawing ${full}`,
    ]);
  });

  test('a picture that cannot be read ends it with that error', async () => {
    const lost: TravellerPictures = {
      ...stock,
      read: () => Promise.reject(new RangeError('no such picture')),
    };
    await expect(joined(travellerChunks(summary, lost, metric))).rejects.toThrow(
      new RangeError('no such picture'),
    );
  });

  test('text of a job cannot stand for a picture', async () => {
    const title = 'a\u00010\u0001b';
    const odd = { ...summary, job: { ...summary.job, title } };
    const page = await joined(travellerChunks(odd, stock, metric));
    expect(page).toContain('a\uFFFD0\uFFFDb');
    expect(page.match(/data:image/g)).toHaveLength(2 + summary.plates.length + 1);
  });
});

test('many parts stand in a table, without pictures; a few on cards with theirs', async () => {
  const many = (count: number): Summary => ({
    ...summary,
    parts: Array.from({ length: count }, (_, i) => ({ ...summary.parts[i % 3]!, name: `part-${i}` })),
  });
  const asked: string[] = [];
  const all: TravellerPictures = {
    has: (kind) => kind === 'preview',
    read: (_, name) => {
      asked.push(name);
      return new Uint8Array([1]);
    },
  };
  const page = await joined(travellerChunks(many(60), all, metric));
  expect(page.match(/class="card"/g)).toHaveLength(60);
  expect(asked).toHaveLength(60);
  const large = await joined(travellerChunks(many(61), all, metric));
  expect(asked).toHaveLength(60);
  expect(large).not.toContain('class="card"');
  const table = /<h3>What this job makes<\/h3>\n<table class="list">([\s\S]*?)<\/table>/.exec(large)![1]!;
  const rows = table.match(/<tr>.*?<\/tr>/g)!.slice(1);
  expect(rows).toHaveLength(61);
  for (const [i, row] of rows.entries()) expect(row).toContain(`<bdi>part-${i}</bdi>`);
});
