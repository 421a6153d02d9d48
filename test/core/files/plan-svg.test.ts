import fc from 'fast-check';
import { XMLParser, XMLValidator } from 'fast-xml-parser';
import { describe, expect, test } from 'vitest';
import { formatPlanSvg, type PlatePlan } from '../../../core/files/index.js';
import { breakName, keyOf, nameWordings } from '../../../core/files/plan-label.js';
import { nest } from '../../../core/plate/index.js';
import type { Polygon } from '../../../core/solid/types.js';

const rectangle = (w: number, h: number): Polygon => [
  [0, 0],
  [w, 0],
  [w, h],
  [0, h],
];
const parser = new XMLParser({ ignoreAttributes: false, attributeNamePrefix: '', preserveOrder: false });

function plan(list: readonly { name: string; w: number; h: number }[]): PlatePlan {
  const items = list.map((i, k) => ({
    name: i.name,
    copy: k + 1,
    outline: [rectangle(i.w, i.h)],
    height: 10,
  }));
  const bed = { width: 220, depth: 210, height: 100, margin: 5 };
  const { plates, densities } = nest(items, bed, { rounds: 0 });
  return {
    title: 'Plate 1 of 1: <ropewalk> & "sheds"',
    bed,
    patterns: (plates[0] ?? []).map((placement) => {
      const item = list[placement.copy - 1]!;
      return { placement, outlines: [rectangle(item.w, item.h)] };
    }),
    filled: densities[0] ?? 0,
  };
}

interface Text {
  x: number;
  y: number;
  size: number;
  anchor: string;
  text: string;
}
/** Every line of text with where it stands. */
function textsOf(svg: string): Text[] {
  const found: Text[] = [];
  for (const [, attributes, content] of svg.matchAll(/<text ([^>]*)>(.*?)<\/text>/g)) {
    const of = (name: string): string => new RegExp(`\\b${name}="([^"]*)"`).exec(` ${attributes}`)?.[1] ?? '';
    const base = { size: Number(of('font-size')), anchor: of('text-anchor') };
    const spans = [...content!.matchAll(/<tspan x="([^"]*)" y="([^"]*)">([^<]*)<\/tspan>/g)];
    if (spans.length === 0) found.push({ ...base, x: Number(of('x')), y: Number(of('y')), text: content! });
    for (const [, x, y, text] of spans) found.push({ ...base, x: Number(x), y: Number(y), text: text! });
  }
  return found;
}

/** The room a line of a plain sans serif takes: 0.6 of its size a character is on the wide side. */
const roomOf = (t: Text) => {
  const w = t.text.replace(/&[a-z]+;/g, '&').length * t.size * 0.6;
  const x = t.anchor === 'middle' ? t.x - w / 2 : t.anchor === 'end' ? t.x - w : t.x;
  return { x0: x, x1: x + w, y0: t.y - t.size * 0.78, y1: t.y + t.size * 0.22 };
};

/** Where a pattern lies on the plan of a bed 210 mm deep, its box. */
function boxOf({ x, y, turn }: PlatePlan['patterns'][number]['placement'], outline: Polygon) {
  const points = outline.map(([u, v]) => [
    x + Math.cos(turn) * u - Math.sin(turn) * v,
    210 - (y + Math.sin(turn) * u + Math.cos(turn) * v),
  ]);
  const [xs, ys] = [points.map((p) => p[0]!), points.map((p) => p[1]!)];
  return { x0: Math.min(...xs), x1: Math.max(...xs), y0: Math.min(...ys), y1: Math.max(...ys) };
}

describe('formatPlanSvg', () => {
  test('is well-formed XML in mm with the bed, its margin, every outline, names and a true scale bar', () => {
    const svg = formatPlanSvg(
      plan([
        { name: 'rope-gear', w: 90, h: 80 },
        { name: 'hatch <pull>', w: 60, h: 40 },
      ]),
    );
    expect(XMLValidator.validate(svg)).toBe(true);
    const root = parser.parse(svg).svg;
    expect(root.width).toMatch(/^[\d.]+mm$/);
    const [, , w, h] = root.viewBox.split(' ').map(Number);
    // One unit of the drawing is one millimetre on paper.
    expect(root.width).toBe(`${w}mm`);
    expect(root.height).toBe(`${h}mm`);
    expect(svg).toContain('<rect width="220" height="210"');
    expect(svg).toContain('<rect x="5" y="5" width="210" height="200"');
    expect(svg).toContain('Plate 1 of 1: &lt;ropewalk&gt; &amp; &quot;sheds&quot;');
    expect(svg).toMatch(/M0 [\d.]+V[\d.]+M0 [\d.]+H50M50 /);
    const texts = textsOf(svg).map((t) => t.text);
    expect(texts).toEqual(
      expect.arrayContaining(['rope-gear', 'no. 1', 'hatch &lt;pull&gt;', 'no. 2', '50 mm', 'front']),
    );
    expect(texts.some((t) => /bed 220 × 210 mm, margin 5 mm/.test(t))).toBe(true);
  });

  test('the rear of the bed is up: y runs from the front left corner', () => {
    const svg = formatPlanSvg({
      title: 't',
      bed: { width: 100, depth: 80, margin: 4 },
      patterns: [
        { placement: { name: 'a', copy: 1, x: 10, y: 20, turn: 0 }, outlines: [rectangle(30, 5)] },
        { placement: { name: 'b', copy: 1, x: 90, y: 20, turn: Math.PI / 2 }, outlines: [rectangle(30, 5)] },
      ],
    });
    expect(svg).toContain('M10 60L40 60L40 55L10 55Z');
    expect(svg).toContain('M90 60L90 30L85 30L85 60Z');
  });

  test('words meet no other words and no other pattern, and none is too small to read (seed 31)', () => {
    const name = fc.stringMatching(/^[a-z]{1,12}(-[a-z]{1,10}){0,3}$/);
    const size = fc.integer({ min: 8, max: 90 });
    fc.assert(
      fc.property(
        fc.array(fc.record({ name, w: size, h: size }), { minLength: 1, maxLength: 16 }),
        (list) => {
          const drawn = plan(list);
          const texts = textsOf(formatPlanSvg(drawn));
          const rooms = texts.map(roomOf);
          rooms.forEach((a, i) => {
            for (const b of rooms.slice(i + 1)) {
              const clear = Math.max(b.x0 - a.x1, a.x0 - b.x1, b.y0 - a.y1, a.y0 - b.y1);
              expect(clear).toBeGreaterThan(-1e-6);
            }
          });
          const boxes = drawn.patterns.map(({ placement, outlines }) => boxOf(placement, outlines[0]!));
          const met = rooms.map((a) =>
            boxes.filter((b) => Math.max(b.x0 - a.x1, a.x0 - b.x1, b.y0 - a.y1, a.y0 - b.y1) < -1e-6),
          );
          for (const patterns of met) expect(patterns.length).toBeLessThanOrEqual(1);
          // The bed printed 180 mm wide: names at least 2.2 mm, keys as large as their pattern lets them.
          for (const t of texts)
            if (!/^[A-Z]\d+$/.test(t.text)) expect(t.size * (180 / 220)).toBeGreaterThan(2.2);
          // Every pattern is named, in it, beside it or in the list, where its key stands.
          const joined = texts.map((t) => t.text).join('');
          for (const { placement } of drawn.patterns) {
            for (const piece of placement.name.split('-')) expect(joined).toContain(piece);
            const isNamed = texts.some((t) => t.text === `no. ${placement.copy}`);
            const key = texts.find((t) => t.text.startsWith(`A`) && t.text.includes(placement.name))?.text[0];
            expect(isNamed || key !== undefined || texts.some((t) => /^[A-Z]\d+$/.test(t.text))).toBe(true);
          }
        },
      ),
      { seed: 31, numRuns: 40 },
    );
  });

  const at = (name: string, copy: number, x: number, y: number) => ({ name, copy, x, y, turn: 0 });
  const bed = { width: 200, depth: 200, margin: 5 };

  test('a name that its pattern has no room for stands beside it, with a leader that ends in the pattern', () => {
    const svg = formatPlanSvg({
      title: 't',
      bed,
      patterns: [{ placement: at('jewelled-drawer-knob', 1, 95, 95), outlines: [rectangle(8, 8)] }],
    });
    const [, x0, y0, x1, y1] = /<path d="M([\d.]+) ([\d.]+)L([\d.]+) ([\d.]+)" stroke/.exec(svg)!.map(Number);
    expect(x1).toBeGreaterThan(95);
    expect(x1).toBeLessThan(103);
    expect(y1).toBeGreaterThan(97);
    expect(y1).toBeLessThan(105);
    expect(Math.min(Math.abs(x0! - 99), Math.abs(y0! - 101))).toBeLessThan(30);
    expect(Math.hypot(x0! - 99, y0! - 101)).toBeGreaterThan(4);
    for (const piece of ['jewelled-', 'no. 1'])
      expect(textsOf(svg).some((t) => t.text.startsWith(piece))).toBe(true);
  });

  test('a free hole may hold the name, one that holds another pattern not under it', () => {
    const ring = [
      rectangle(60, 60),
      [
        [57, 3],
        [57, 57],
        [3, 57],
        [3, 3],
      ].reverse() as unknown as Polygon,
    ].map((p, i) => (i === 0 ? p : ([...p].reverse() as Polygon)));
    const named = (patterns: PlatePlan['patterns']) => textsOf(formatPlanSvg({ title: 't', bed, patterns }));
    const alone = named([{ placement: at('ring', 1, 70, 70), outlines: ring }]).find(
      (t) => t.text === 'ring',
    )!;
    expect([alone.x, alone.y].every((v) => Math.abs(v - 100) < 5)).toBe(true);
    const both = named([
      { placement: at('ring', 1, 70, 70), outlines: ring },
      { placement: at('wheel', 1, 90, 90), outlines: [rectangle(20, 20)] },
    ]);
    const [first, second] = ['ring', 'wheel'].map((n) => roomOf(both.find((t) => t.text === n)!));
    expect(
      Math.max(
        second!.x0 - first!.x1,
        first!.x0 - second!.x1,
        second!.y0 - first!.y1,
        first!.y0 - second!.y1,
      ),
    ).toBeGreaterThan(0);
    expect(first!.x1 <= 90 || first!.x0 >= 110 || first!.y1 <= 90 || first!.y0 >= 110).toBe(true);
  });

  test('many small patterns of one name: a key and a number on each, the name once with the numbers', () => {
    const patterns = Array.from({ length: 100 }, (_, i) => ({
      placement: at('drawer-knob', i + 1, 12 + 18 * (i % 10), 12 + 18 * Math.floor(i / 10)),
      outlines: [rectangle(9, 9)],
    }));
    const texts = textsOf(formatPlanSvg({ title: 't', bed, patterns })).map((t) => t.text);
    expect(texts.filter((t) => /^A\d+$/.test(t)).sort()).toEqual(patterns.map((_, i) => `A${i + 1}`).sort());
    expect(texts.filter((t) => t.includes('drawer-knob'))).toEqual(['A  drawer-knob, no. 1 to 100']);
  });

  test('a round bed with zones, a brim and inches: all of them drawn true and told', () => {
    const zones = [
      { x: 90, y: 10, width: 40, depth: 20 },
      { x: 30, y: 100, diameter: 25, above: 38.1 },
    ];
    const svg = formatPlanSvg({
      title: 't',
      bed: { shape: 'circle', width: 200, depth: 200, margin: 6.35, brim: 5, keepOuts: zones },
      patterns: [
        { placement: at('cleat', 2, 80, 80), outlines: [rectangle(50, 30)], foot: [rectangle(40, 20)] },
      ],
      filled: 0.0531,
      lengthUnit: 'in',
    });
    expect(XMLValidator.validate(svg)).toBe(true);
    expect(svg).toContain('<circle cx="100" cy="100" r="100"');
    expect(svg).toContain('<circle cx="100" cy="100" r="93.65"');
    // y runs down: the rectangle lies 10 to 30 mm from the front, which is 170 to 190 from the rear.
    expect(svg).toContain('M90 190L90 170L130 170L130 190Z');
    // The brim is the foot of 40 × 20 mm with 5 mm all round, its corners round.
    const dashed = [
      ...svg.matchAll(/<path d="([^"]*)" fill="none" stroke="[^"]*" stroke-width="[^"]*" stroke-dasharray/g),
    ];
    const points = dashed.flatMap(([, d]) =>
      [...d!.matchAll(/([\d.]+) ([\d.]+)/g)].map((m) => [Number(m[1]), Number(m[2])] as const),
    );
    const xs = points.map(([x]) => x);
    const ys = points.map(([, y]) => y);
    const extent = [Math.min(...xs), Math.max(...xs), Math.min(...ys), Math.max(...ys)];
    expect(extent.map((v) => Math.round(v * 10) / 10)).toEqual([75, 125, 95, 125]);
    for (const [x, y] of points)
      expect(Math.hypot(Math.max(80 - x, 0, x - 120), Math.max(100 - y, 0, y - 120))).toBeCloseTo(5, 1);
    const texts = textsOf(svg).map((t) => t.text);
    expect(texts).toEqual(
      expect.arrayContaining([
        'kept free',
        'above 1.5 in',
        'cleat',
        'no. 2',
        '1 in',
        '5 % of the bed inside its margin covered',
      ]),
    );
    expect(texts).toContain('bed Ø 7.874 in, margin 0.25 in, brim 0.197 in');
  });
});

describe('labels', () => {
  test('names break after hyphens, into lines as even as can be', () => {
    expect(breakName('double-helical-gear', 2)).toEqual(['double-', 'helical-gear']);
    expect(breakName('double-helical-gear', 3)).toEqual(['double-', 'helical-', 'gear']);
    expect(breakName('knob', 3)).toEqual(['knob']);
    expect(breakName('-', 2)).toEqual(['-']);
  });

  test('keys go on after Z', () => {
    expect([0, 25, 26, 27, 51, 52, 701, 702].map(keyOf)).toEqual([
      'A',
      'Z',
      'AA',
      'AB',
      'AZ',
      'BA',
      'ZZ',
      'AAA',
    ]);
  });

  test('wordings of a name: largest first, of one size the fewest lines first', () => {
    const all = nameWordings('horn-cleat', 3, 4);
    expect(all[0]).toMatchObject({ lines: ['horn-cleat', 'no. 3'], size: 4 });
    expect(all[1]).toMatchObject({ lines: ['horn-', 'cleat', 'no. 3'], size: 4 });
    expect(all.at(-1)).toMatchObject({ size: 3 });
    expect(all.every((w, i) => i === 0 || w.size <= all[i - 1]!.size)).toBe(true);
  });
});
