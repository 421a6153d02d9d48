import { beforeAll, describe, expect, it, test } from 'vitest';
import { z } from 'zod';
import { definePart, type PartDefinition } from '../../../../core/part/contract.js';
import { drawFigure, drawSheet, formatFigure, formatSheet } from '../../../../core/report/drawing/index.js';
import { loadKernel } from '../../../../core/solid/index.js';
import type { Kernel } from '../../../../core/solid/types.js';
import { findPart } from '../../../../generators/index.js';
import {
  drawnOf,
  expectEverySize,
  expectTextsApart,
  expectTrueLengths,
  textsOf,
} from '../../../helpers/drawn.js';

let kernel: Kernel;
beforeAll(async () => {
  kernel = await loadKernel();
});

const degrees = Math.PI / 180;
const gears = ['spur-gear', 'helical-gear', 'double-helical-gear'];
const teeth = [8, 40, 120];

type Case = readonly [title: string, part: string, parameters: Record<string, unknown>];
const cases: readonly Case[] = [
  ...gears.flatMap((part) =>
    teeth.map(
      (z): Case => [
        `${part}, z ${z}`,
        part,
        { teeth: z, module: z === 120 ? 1 : 2, bore: z === 8 ? 4 : 12, profileShift: z === 8 ? 0.5 : 0 },
      ],
    ),
  ),
  [
    'web and hub, keyed',
    'spur-gear',
    { teeth: 40, bore: 14, boreShape: 'keyed', webThickness: 8, hub: 'one' },
  ],
  ['hubs on both sides', 'helical-gear', { teeth: 40, bore: 14, hub: 'both', boreShape: 'flat' }],
  [
    'hub below, keyed, setscrew',
    'spur-gear',
    { teeth: 40, bore: 12, boreShape: 'keyed', hub: 'lower', hubLength: 12, setscrew: 'M4' },
  ],
  [
    'setscrew in a boss',
    'spur-gear',
    { teeth: 60, bore: 16, hub: 'one', hubLength: 20, hubDiameter: 22, setscrew: 'M5' },
  ],
  [
    'spokes, hexagon, chamfer',
    'double-helical-gear',
    { teeth: 60, bore: 16, spokes: 5, boreShape: 'hexagon', edgeChamfer: 0.5 },
  ],
  ['spokes, z 120', 'spur-gear', { teeth: 120, bore: 20, spokes: 6, hub: 'both' }],
  [
    'holes, square bore',
    'spur-gear',
    { teeth: 60, bore: 16, holes: 6, webThickness: 9, boreShape: 'square' },
  ],
  [
    'groove',
    'double-helical-gear',
    { teeth: 30, module: 3, bore: 20, apex: 'gap', faceWidth: 40, webThickness: 20 },
  ],
  ['staggered', 'double-helical-gear', { teeth: 24, bore: 10, apex: 'staggered', faceWidth: 30 }],
  [
    'rounded apex',
    'double-helical-gear',
    { teeth: 24, bore: 0, apex: 'rounded', faceWidth: 30, lowerHand: 'right' },
  ],
  [
    'thinned, rounded, own rack',
    'spur-gear',
    { teeth: 24, thinning: 0.1, tipRounding: 0.3, tipShortening: 0.1, dedendum: 1.3 },
  ],
  ['ring', 'ring-gear', {}],
  ['ring, helical', 'ring-gear', { teeth: 50, helixAngle: 20 * degrees, hand: 'left' }],
  ['rack', 'rack', {}],
  ['long helical rack', 'rack', { teeth: 40, helixAngle: 15 * degrees }],
  ['pull', 'hatch-pull', {}],
  ['pull for two fingers', 'hatch-pull', { fingers: 2 }],
  ['pull without bevel', 'hatch-pull', { bevel: 0 }],
  ['pull without lip', 'hatch-pull', { lipLength: 0 }],
];

const inMm = { lengthUnit: 'mm', degrees: 'C' } as const;
const inInches = { lengthUnit: 'in', degrees: 'F' } as const;
const standard = [10, 5, 2, 1, 1 / 2, 1 / 5, 1 / 10, 1 / 20];

describe.each(cases)('%s', (_, name, parameters) => {
  const make = () => {
    const made = drawnOf(kernel, findPart(name) as PartDefinition, parameters);
    if (!made) throw new Error(`${name} is refused`);
    return made;
  };

  it('keeps its words apart and inside the frame, alone and in the traveller, in mm and inches', () => {
    const { subject, drawn } = make();
    for (const view of [inMm, inInches]) {
      expectTextsApart(drawSheet(subject, drawn, view));
      expectTextsApart(drawFigure(subject, drawn, view));
    }
  });

  it('states every size once or more, as it is, in well-formed XML that comes out the same each time', () => {
    const made = make();
    for (const view of [inMm, inInches]) {
      const svg = formatSheet(made.subject, made.drawn, view);
      expectEverySize(svg, made, view.lengthUnit);
      expect(svg).not.toMatch(/NaN|undefined|Infinity/);
      const again = make();
      expect(formatSheet(again.subject, again.drawn, view)).toBe(svg);
      textsOf(formatFigure(made.subject, made.drawn, view));
    }
  });

  it('draws lengths as long as it says, at a standard scale, on paper that A4 and Letter have in common', () => {
    const made = make();
    expect(expectTrueLengths(made)).toBeGreaterThan(1);
    const { scale, width, height, frame } = drawSheet(made.subject, made.drawn, inMm);
    // ISO 5455.
    expect(standard).toContain(scale);
    expect([
      [279, 210],
      [210, 279],
    ]).toContainEqual([width, height]);
    // A printer's usual unprintable edge is up to 6.4 mm (common practice, no source).
    expect(Math.min(frame.x0, frame.y0, width - frame.x1, height - frame.y1)).toBeGreaterThanOrEqual(6.4);
  });
});

describe('a part that says nothing of its drawing', () => {
  const nasty = '<b>&"]]>\u0007 Ω 船 \u{1F6A2} ';
  const block = definePart({
    name: 'stepped-block',
    summary: nasty.repeat(6),
    parameters: z.object({}),
    build: (_p, _stock, { kernel: k }) => ({
      solid: k.box([0, 0, 0], [60, 30, 20]).subtract(k.box([40, -1, 10], [61, 31, 21])),
      surfaces: [],
      dimensions: [
        { symbol: 'l', name: 'length', value: 60, unit: 'mm', axis: 'xy', method: 'calliper' },
        { symbol: 'q_<', name: nasty, value: 20, unit: 'mm', axis: 'xy', method: 'calliper' },
      ],
      gates: [],
      vents: [],
      findings: [],
    }),
  }) as unknown as PartDefinition;

  test('is drawn from the front, from above and cut, with overall sizes', () => {
    const made = drawnOf(kernel, block, {});
    if (!made) throw new Error('refused');
    expect(made.drawn.views.map((v) => [v.cell.column, v.cell.row])).toEqual([
      [0, 0],
      [0, 1],
      [1, 0],
    ]);
    const svg = formatSheet(made.subject, made.drawn, inMm);
    expectEverySize(svg, made, 'mm');
    expectTextsApart(drawSheet(made.subject, made.drawn, inMm));
    const said = textsOf(svg).map((t) => t.words);
    expect(said).toEqual(expect.arrayContaining(['60', '30', '20', 'A–A']));
    // The name's characters come through as text; those that XML forbids are replaced.
    expect(said.join(' ')).toContain('<b>&"]]>\uFFFD');
  });

  test('many sizes and a long name still keep apart', () => {
    const made = drawnOf(kernel, block, {});
    if (!made) throw new Error('refused');
    const dimensions = Array.from({ length: 90 }, (_, i) => ({
      ...(made.subject.dimensions[0] as (typeof made.subject.dimensions)[number]),
      symbol: `k_${i}`,
      name: `a size with a name of some length, number ${i}`,
      part: 10 + i,
    }));
    const subject = {
      ...made.subject,
      name: 'a-name-of-sixty-four-letters-that-would-not-fit-in-any-title-blo',
      dimensions,
    };
    expectTextsApart(drawSheet(subject, made.drawn, inInches));
    expectEverySize(formatSheet(subject, made.drawn, inInches), { ...made, subject }, 'in');
  });
});
