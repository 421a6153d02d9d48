import fc from 'fast-check';
import { XMLParser, XMLValidator } from 'fast-xml-parser';
import { describe, expect, test } from 'vitest';
import { formatPlanSvg, type PlatePlan } from '../../../core/files/index.js';
import { breakName, fitLabel } from '../../../core/files/plan-label.js';
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
    footprint: { min: [0, 0], max: [i.w, i.h] } as const,
    height: 10,
  }));
  const bed = { width: 220, depth: 210, height: 100, margin: 5 };
  const { plates } = nest(items, bed);
  return {
    title: 'Plate 1 of 1: <ropewalk> & "sheds"',
    bed,
    patterns: (plates[0] ?? []).map((placement) => {
      const item = list[placement.copy - 1]!;
      return { placement, outlines: [rectangle(item.w, item.h)] };
    }),
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

  test('no label leaves its pattern, none overlap, none is too small to read (seed 31)', () => {
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
          // The bed printed 180 mm wide: names at least 2.2 mm, key numbers as large as their pattern lets them.
          for (const t of texts) if (!/^\d+$/.test(t.text)) expect(t.size * (180 / 220)).toBeGreaterThan(2.2);
          // Every pattern is named, in its box or in the list.
          const joined = texts.map((t) => t.text).join('');
          for (const { placement } of drawn.patterns) {
            for (const piece of placement.name.split('-')) expect(joined).toContain(piece);
          }
        },
      ),
      { seed: 31, numRuns: 150 },
    );
  });
});

describe('labels', () => {
  test('names break after hyphens, into lines as even as can be', () => {
    expect(breakName('double-helical-gear', 2)).toEqual(['double-', 'helical-gear']);
    expect(breakName('double-helical-gear', 3)).toEqual(['double-', 'helical-', 'gear']);
    expect(breakName('knob', 3)).toEqual(['knob']);
    expect(breakName('-', 2)).toEqual(['-']);
  });

  test('a box too small for the name gets a key number that fits it', () => {
    const words = { name: 'horn-cleat', copy: 3 };
    const label = fitLabel({ min: [0, 0], max: [5, 5] }, words, 4.5);
    expect(label.kind).toBe('key');
    expect(label.size).toBeLessThan(5);
    expect(fitLabel({ min: [0, 0], max: [60, 20] }, words, 4.5)).toMatchObject({
      kind: 'words',
      lines: ['horn-cleat', 'no. 3'],
      size: 4.5,
    });
  });
});
