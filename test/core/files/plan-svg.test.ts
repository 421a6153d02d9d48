import fc from 'fast-check';
import { XMLParser, XMLValidator } from 'fast-xml-parser';
import polygonClipping from 'polygon-clipping';
import { describe, expect, test } from 'vitest';
import { formatPlanSvg, type PlatePlan } from '../../../core/files/index.js';
import { breakName, keyOf, nameWordings } from '../../../core/files/plan-label.js';
import type { KeepOut, NestBed } from '../../../core/plate/contract.js';
import { nest } from '../../../core/plate/index.js';
import type { Polygon, Vec2 } from '../../../core/solid/types.js';

const rectangle = (w: number, h: number): Polygon => [
  [0, 0],
  [w, 0],
  [w, h],
  [0, h],
];
const parser = new XMLParser({ ignoreAttributes: false, attributeNamePrefix: '', preserveOrder: false });

interface Item {
  readonly name: string;
  readonly w: number;
  readonly h: number;
  /** Of what stands round a hole, mm; whole where left out. */
  readonly wall?: number | undefined;
}

const outlineOf = ({ w, h, wall }: Item): Polygon[] => {
  if (wall === undefined) return [rectangle(w, h)];
  const hole = rectangle(w - 2 * wall, h - 2 * wall).map(([x, y]): Vec2 => [x + wall, y + wall]);
  return [rectangle(w, h), hole.reverse()];
};

function plan(list: readonly Item[], about: Pick<NestBed, 'brim' | 'keepOuts'> = {}): PlatePlan {
  const items = list.map((i, k) => ({ name: i.name, copy: k + 1, outline: outlineOf(i), height: 10 }));
  const bed = { width: 220, depth: 210, height: 100, margin: 5, ...about };
  const { plates, densities } = nest(items, bed, { rounds: 0 });
  return {
    title: 'Plate 1 of 1: <ropewalk> & "sheds"',
    bed,
    patterns: (plates[0] ?? []).map((placement) => {
      return { placement, outlines: outlineOf(list[placement.copy - 1]!) };
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
  /** Number of the words it is one line of. */
  words: number;
}
/** Every line of text with where it stands. */
function textsOf(svg: string): Text[] {
  const found: Text[] = [];
  let words = 0;
  for (const [, attributes, content] of svg.matchAll(/<text ([^>]*)>(.*?)<\/text>/g)) {
    const of = (name: string): string => new RegExp(`\\b${name}="([^"]*)"`).exec(` ${attributes}`)?.[1] ?? '';
    const base = { size: Number(of('font-size')), anchor: of('text-anchor'), words: words++ };
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

type Room = ReturnType<typeof roomOf>;

const clearance = (a: Room, b: Room): number => Math.max(b.x0 - a.x1, a.x0 - b.x1, b.y0 - a.y1, a.y0 - b.y1);
const cornersOf = ({ x0, x1, y0, y1 }: Room): Polygon => [
  [x0, y0],
  [x1, y0],
  [x1, y1],
  [x0, y1],
];

/** Where a pattern lies on the plan of a bed 210 mm deep. */
const lyingOf = ({ placement: { x, y, turn }, outlines }: PlatePlan['patterns'][number]): Polygon[] =>
  outlines.map((outline) =>
    outline.map(
      ([u, v]): Vec2 => [
        x + Math.cos(turn) * u - Math.sin(turn) * v,
        210 - (y + Math.sin(turn) * u + Math.cos(turn) * v),
      ],
    ),
  );

const ringsOf = (polygons: readonly Polygon[]) =>
  polygons.map((p) => p.map(([x, y]): [number, number] => [x, y]));
const boxOf = (polygons: readonly Polygon[]): Room => {
  const [xs, ys] = [polygons.flat().map((p) => p[0]), polygons.flat().map((p) => p[1])];
  return { x0: Math.min(...xs), x1: Math.max(...xs), y0: Math.min(...ys), y1: Math.max(...ys) };
};
const isMet = (a: readonly Polygon[], b: readonly Polygon[]): boolean =>
  clearance(boxOf(a), boxOf(b)) < 0 && polygonClipping.intersection(ringsOf(a), ringsOf(b)).length > 0;

/** By the even-odd rule. */
const isWithin = ([x, y]: Vec2, polygons: readonly Polygon[]): boolean =>
  polygons
    .flatMap((ring) => ring.map((from, i) => [from, ring[(i + 1) % ring.length]!] as const))
    .filter(([[ax, ay], [bx, by]]) => ay > y !== by > y && x < ax + ((y - ay) / (by - ay)) * (bx - ax))
    .length %
    2 ===
  1;

/** From each corner of polygons to each edge of others, mm; 0 where they meet. */
function gapBetween(a: readonly Polygon[], b: readonly Polygon[]): number {
  if (isMet(a, b)) return 0;
  const oneWay = (from: readonly Polygon[], to: readonly Polygon[]): number =>
    Math.min(
      ...from.flat().flatMap(([x, y]) =>
        to.flatMap((ring) =>
          ring.map(([ax, ay], i) => {
            const [bx, by] = ring[(i + 1) % ring.length]!;
            const along = ((x - ax) * (bx - ax) + (y - ay) * (by - ay)) / ((bx - ax) ** 2 + (by - ay) ** 2);
            const t = Math.min(1, Math.max(0, along));
            return Math.hypot(x - ax - t * (bx - ax), y - ay - t * (by - ay));
          }),
        ),
      ),
    );
  return Math.min(oneWay(a, b), oneWay(b, a));
}

const leadersOf = (svg: string) =>
  [...svg.matchAll(/<path d="M([-\d.]+) ([-\d.]+)L([-\d.]+) ([-\d.]+)" stroke/g)].map((m) => {
    const [x0, y0, x1, y1] = m.slice(1).map(Number) as [number, number, number, number];
    return { x0, y0, x1, y1 };
  });

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

  const anyName = fc.stringMatching(/^[a-z]{1,12}(-[a-z]{1,10}){0,3}$/);
  const anySize = fc.integer({ min: 8, max: 90 });
  const anyItem = fc.oneof(
    { weight: 3, arbitrary: fc.record({ name: anyName, w: anySize, h: anySize }) },
    {
      weight: 1,
      arbitrary: fc.record({
        name: anyName,
        w: fc.integer({ min: 40, max: 90 }),
        h: fc.integer({ min: 40, max: 90 }),
        wall: fc.integer({ min: 3, max: 12 }),
      }),
    },
  );
  const anyZone = fc.record({
    x: fc.integer({ min: 0, max: 180 }),
    y: fc.integer({ min: 0, max: 170 }),
    width: fc.integer({ min: 1, max: 40 }),
    depth: fc.integer({ min: 1, max: 40 }),
  });
  const anyPlan = fc
    .record({
      list: fc.array(anyItem, { minLength: 1, maxLength: 14 }),
      brim: fc.constantFrom(0, 0, 4),
      keepOuts: fc.array(anyZone, { maxLength: 1 }),
    })
    .map(({ list, brim, keepOuts }) => ({ drawn: plan(list, { brim, keepOuts }), brim, keepOuts }));

  test('words meet nothing but their own pattern, nor do their leaders, and none is too small to read (seed 31)', () => {
    fc.assert(
      fc.property(anyPlan, ({ drawn, brim, keepOuts }) => {
        const svg = formatPlanSvg(drawn);
        const texts = textsOf(svg);
        const rooms = texts.map(roomOf);
        rooms.forEach((a, i) => {
          for (const b of rooms.slice(i + 1)) expect(clearance(a, b)).toBeGreaterThan(-1e-6);
        });
        const lying = drawn.patterns.map((p) => ({ copy: p.placement.copy, polygons: lyingOf(p) }));
        const zones = keepOuts.map(({ x, y, width, depth }) =>
          cornersOf({ x0: x, x1: x + width, y0: 210 - y - depth, y1: 210 - y }),
        );
        // Copies are numbered through: the number tells whose words they are; those of zones have none.
        const ownOf = ({ words }: Text): number | undefined =>
          texts
            .filter((t) => t.words === words)
            .map((t) => /^(?:no\. |[A-Z]+)(\d+)$/.exec(t.text)?.[1])
            .flatMap((copy) => (copy === undefined ? [] : [Number(copy)]))[0];
        const onBed = texts.flatMap((t, i) => (t.y > 0 && t.y < 210 ? [{ t, room: rooms[i]! }] : []));
        for (const { t, room } of onBed) {
          const own = ownOf(t);
          if (own === undefined) expect(t.text).toMatch(/^kept free$/);
          for (const { copy, polygons } of lying) {
            if (copy === own) continue;
            const gap = gapBetween([cornersOf(room)], polygons);
            if (brim === 0) expect({ text: t.text, copy, isMet: gap === 0 }).toMatchObject({ isMet: false });
            else expect({ text: t.text, copy, gap, isOff: gap > brim - 1e-6 }).toMatchObject({ isOff: true });
          }
          if (own !== undefined)
            for (const zone of zones) expect(isMet([cornersOf(room)], [zone])).toBe(false);
        }
        const shapes = [...lying.map(({ polygons }) => polygons), ...zones.map((zone) => [zone])];
        for (const { x0, y0, x1, y1 } of leadersOf(svg)) {
          const points = Array.from({ length: 60 }, (_, i): Vec2 => {
            return [x0 + (i / 59) * (x1 - x0), y0 + (i / 59) * (y1 - y0)];
          });
          const met = shapes.filter((polygons) => points.some((point) => isWithin(point, polygons)));
          expect(met).toHaveLength(1);
          expect(isWithin(points.at(-1)!, met[0]!)).toBe(true);
          for (const { room } of onBed)
            expect(points.some((point) => isWithin(point, [cornersOf(room)]))).toBe(false);
        }
        // The bed printed 180 mm wide: names at least 2.2 mm, keys as large as their pattern lets them.
        for (const t of texts)
          if (!/^[A-Z]+\d+$/.test(t.text)) expect(t.size * (180 / 220)).toBeGreaterThan(2.2);
        // Every pattern is named: in it or beside it, or by a key that the list has with its name and number.
        for (const { name, copy } of drawn.patterns.map((p) => p.placement)) {
          const told = onBed.filter(({ t }) => ownOf(t) === copy).map(({ t }) => t.text);
          const key = /^([A-Z]+)\d+$/.exec(told[0] ?? '')?.[1];
          if (key === undefined) expect(told.join('')).toBe(`${name}no. ${copy}`);
          else {
            const list = texts.find((t) => t.text.startsWith(`${key}  ${name}, no. `))?.text ?? '';
            const listed = (list.split('no. ')[1] ?? '')
              .split(', ')
              .map((run) => run.split(' to ').map(Number));
            expect(listed.some(([from, to = from]) => from! <= copy && copy <= to!)).toBe(true);
          }
        }
      }),
      { seed: 31, numRuns: 25 },
    );
  });

  test.each(['rectangle', 'circle'] as const)(
    'zones beside a bed that is a %s have no words, those of a few millimetres have readable ones beside them',
    (shape) => {
      const bed = { shape, width: 220, depth: 220, margin: 5 };
      const wordsFor = (...keepOuts: KeepOut[]) => {
        const svg = formatPlanSvg({ title: 't', bed: { ...bed, keepOuts }, patterns: [] });
        return textsOf(svg).filter((t) => /kept free|above/.test(t.text));
      };
      const rectangleAt = (x: number, y: number, size = 20) => ({ x, y, width: size, depth: size });
      for (const [x, y] of [
        [-100, 50],
        [400, 50],
        [50, -100],
        [50, 400],
        [-1e6, 1e6],
      ] as const) {
        expect(wordsFor(rectangleAt(x, y))).toEqual([]);
        expect(wordsFor({ x, y, diameter: 20, above: 5 })).toEqual([]);
      }
      // A corner of the square round a round bed is none of it.
      expect(wordsFor(rectangleAt(2, 2))).toHaveLength(shape === 'circle' ? 0 : 1);
      for (const size of [0.05, 0.4, 2, 5]) {
        const [words, ...others] = wordsFor(rectangleAt(110, 110, size));
        expect(others).toEqual([]);
        expect(words!.size * (180 / 220)).toBeGreaterThan(2.2);
        const middle = { x0: 110, x1: 110 + size, y0: 110 - size, y1: 110 };
        expect(clearance(roomOf(words!), middle)).toBeGreaterThan(0);
        expect(clearance(roomOf(words!), middle)).toBeLessThan(20);
      }
    },
  );

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
