import { XMLParser, XMLValidator } from 'fast-xml-parser';
import { expect } from 'vitest';
import { pairDimensions } from '../../core/job/dimension-rows.js';
import type { PartDefinition } from '../../core/part/contract.js';
import { noStock } from '../../core/part/stock.js';
import {
  type DrawingSubject,
  type DrawnPart,
  drawPart,
  type Sheet,
} from '../../core/report/drawing/index.js';
import type { Area, TextMark } from '../../core/report/drawing/sheet-marks.js';
import type { Box, Kernel } from '../../core/solid/types.js';

export interface Drawn {
  readonly subject: DrawingSubject;
  readonly drawn: DrawnPart;
  readonly bounds: Box;
}

/** Builds the finished part and draws its views; undefined where it is refused. */
export function drawnOf(
  kernel: Kernel,
  part: PartDefinition,
  parameters: Record<string, unknown>,
  { tolerance = 0.02, piece }: { tolerance?: number; piece?: string | undefined } = {},
): Drawn | undefined {
  return kernel.scope(() => {
    const kit = { kernel, tolerance, ...(piece === undefined ? {} : { piece }) };
    const built = part.build(part.parameters.parse(parameters), noStock, kit);
    if (built.solid === null) return undefined;
    return {
      subject: {
        name: 'drawn-part',
        title: part.summary,
        alloy: 'tin-bronze',
        dimensions: pairDimensions(built.dimensions, built.dimensions, [1, 1, 1], 1),
        mass: { part: 100, casting: 120, gating: 50, charge: 170 },
      },
      drawn: drawPart(built, kernel, tolerance),
      bounds: built.solid.bounds(),
    };
  });
}

const meet = (a: Area, b: Area): boolean => a.x0 < b.x1 && b.x0 < a.x1 && a.y0 < b.y1 && b.y0 < a.y1;
const words = (t: TextMark): string => t.pieces.map((p) => p.text).join('');

/** Every text keeps clear of every other and inside the frame. */
export function expectTextsApart({ block: { texts }, frame }: Sheet): void {
  const wrong: string[] = [];
  texts.forEach((a, i) => {
    if (a.box.x0 < frame.x0 || a.box.x1 > frame.x1 || a.box.y0 < frame.y0 || a.box.y1 > frame.y1)
      wrong.push(`${words(a)} leaves the frame`);
    for (const b of texts.slice(i + 1)) if (meet(a.box, b.box)) wrong.push(`${words(a)} over ${words(b)}`);
  });
  expect(wrong).toEqual([]);
}

export interface DrawnText {
  readonly symbol: string | undefined;
  readonly words: string;
}

/** The texts of an SVG document, read by an independent XML reader. */
export function textsOf(svg: string): readonly DrawnText[] {
  expect(XMLValidator.validate(svg)).toBe(true);
  const parser = new XMLParser({
    ignoreAttributes: false,
    attributeNamePrefix: '',
    preserveOrder: true,
    trimValues: false,
    parseTagValue: false,
  });
  const found: DrawnText[] = [];
  const walk = (nodes: readonly Record<string, unknown>[]): void => {
    for (const node of nodes) {
      for (const [tag, value] of Object.entries(node)) {
        if (!Array.isArray(value)) continue;
        if (tag === 'text') {
          const symbol = (node[':@'] as Record<string, string> | undefined)?.['data-symbol'];
          found.push({ symbol, words: flat(value) });
        } else walk(value as Record<string, unknown>[]);
      }
    }
  };
  const flat = (nodes: readonly Record<string, unknown>[]): string =>
    nodes
      .map((n) => {
        if (typeof n['#text'] === 'string') return n['#text'];
        const inner = Object.values(n).find(Array.isArray) as Record<string, unknown>[] | undefined;
        return inner ? flat(inner) : '';
      })
      .join('');
  walk(parser.parse(svg) as Record<string, unknown>[]);
  return found;
}

const mmPerInch = 25.4;

/**
 * Every size of the part is stated, on a view or in the data block, with the value of its row to the last place
 * printed.
 */
export function expectEverySize(svg: string, { subject }: Drawn, unit: 'mm' | 'in'): void {
  const texts = textsOf(svg);
  for (const row of subject.dimensions) {
    const stated = texts.filter((t) => t.symbol?.split(' ').includes(row.symbol));
    expect({ symbol: row.symbol, times: Math.min(1, stated.length) }).toEqual({
      symbol: row.symbol,
      times: 1,
    });
    for (const { words: said, symbol } of stated) {
      if (symbol !== row.symbol) continue;
      // `4 × Ø9`: how many of them is not the size.
      const size = said.replace('−', '-').replace(/^\d+ × (?=[ØR])/, '');
      const drawn = Number(/-?[\d.]+/.exec(size)?.[0]);
      const value =
        row.unit === 'rad'
          ? (row.part * 180) / Math.PI
          : unit === 'in' && row.unit === 'mm'
            ? row.part / mmPerInch
            : row.part;
      const half = row.unit === '1' ? 5e-5 : unit === 'in' && row.unit === 'mm' ? 5e-4 : 5e-3;
      expect(Math.abs(drawn - value), `${row.symbol} is ${value}, drawn as ${said}`).toBeLessThanOrEqual(
        half + 1e-9,
      );
    }
  }
}

/** Lengths are drawn between points that far apart, so that what is written is also what is drawn. */
export function expectTrueLengths({ subject, drawn }: Drawn): number {
  let checked = 0;
  for (const view of drawn.views) {
    for (const note of view.dimensions) {
      if (!('side' in note)) continue;
      const of = typeof note.of === 'object' ? note.of[0] : note.of;
      const value = typeof of === 'number' ? of : subject.dimensions.find((row) => row.symbol === of)?.part;
      if (value === undefined) continue;
      const axis = note.side === 'above' || note.side === 'below' ? view.frame.right : view.frame.up;
      const drawnLength = Math.abs(
        axis.reduce((sum, a, k) => sum + a * ((note.to[k] as number) - (note.from[k] as number)), 0),
      );
      expect(
        Math.abs(drawnLength - value),
        `${String(of)} is ${value}, drawn ${drawnLength} long`,
      ).toBeLessThan(1e-6);
      checked++;
    }
  }
  return checked;
}
