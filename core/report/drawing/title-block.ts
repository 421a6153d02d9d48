import type { Vec2 } from '../../solid/types.js';
import {
  type Area,
  type Block,
  labelSize,
  type Mark,
  makeBlock,
  makeText,
  type TextMark,
} from './sheet-marks.js';
import { textWidth, wrapWidth } from './text-width.js';

/** What the title block says. */
export interface TitleWords {
  readonly name: string;
  readonly title: string;
  readonly material: readonly string[];
  readonly sizes: readonly string[];
  readonly scale: string;
  readonly unit: string;
}

interface Cell {
  readonly label: string;
  readonly lines: readonly string[];
  /** Of the row. */
  readonly share: number;
  /** The first line's size, mm; the others are smaller. */
  readonly first: number;
}

const inset = 1.6;
const small = 2.5;
const smallLead = 3.2;

/** Wide enough for one row. */
const oneRow = 220;
const rowHeights = { one: 20, two: 18 } as const;

/** What the title block takes of a frame `width` wide, mm. */
export const titleHeight = (width: number): number => (width > oneRow ? rowHeights.one : 2 * rowHeights.two);

/**
 * The title block along the foot of a frame `width` wide, its top left corner at the origin: one row, or two on a
 * narrow sheet.
 */
export function titleBlock(words: TitleWords, width: number): Block {
  const name: Cell = { label: 'part', lines: [words.name, words.title], share: 0.3, first: 5 };
  const material: Cell = { label: 'material', lines: words.material, share: 0.19, first: 3.2 };
  const sizes: Cell = { label: 'sizes', lines: words.sizes, share: 0.29, first: small };
  const scale: Cell = { label: 'scale', lines: [words.scale, words.unit], share: 0.1, first: 5 };
  const symbol: Cell = { label: 'first-angle projection', lines: [], share: 0.12, first: small };
  const rows =
    width > oneRow
      ? [{ height: rowHeights.one, cells: [name, material, sizes, scale, symbol] }]
      : [
          {
            height: rowHeights.two,
            cells: [
              { ...name, share: 0.6 },
              { ...scale, share: 0.18 },
              { ...symbol, share: 0.22 },
            ],
          },
          {
            height: rowHeights.two,
            cells: [
              { ...material, share: 0.4 },
              { ...sizes, share: 0.6 },
            ],
          },
        ];
  const marks: Mark[] = [];
  const texts: TextMark[] = [];
  let y = 0;
  for (const { height, cells } of rows) {
    let x = 0;
    marks.push({
      style: 'frame',
      points: [
        [0, y],
        [width, y],
      ],
    });
    for (const cell of cells) {
      const area = { x0: x, y0: y, x1: x + cell.share * width, y1: y + height };
      if (x > 0)
        marks.push({
          style: 'thin',
          points: [
            [x, y],
            [x, y + height],
          ],
        });
      texts.push(...cellTexts(cell, area));
      if (cell === symbol || cell.label === symbol.label)
        marks.push(...projectionSymbol([(area.x0 + area.x1) / 2, (y + 3 + area.y1) / 2]));
      x = area.x1;
    }
    y += height;
  }
  return makeBlock(marks, texts);
}

/** The label, then the lines, as large as the cell allows; what does not fit is cut short. */
function cellTexts(cell: Cell, area: Area): readonly TextMark[] {
  const width = area.x1 - area.x0 - 2 * inset;
  const x = area.x0 + inset;
  const texts = [makeText(shorten(cell.label, width, labelSize), [x, area.y0 + 2.6], { size: labelSize })];
  let y = area.y0 + 3.4;
  const room = area.y1 - 0.8;
  cell.lines.forEach((line, i) => {
    const wanted = i === 0 ? cell.first : small;
    const bold = i === 0 && cell.first > small;
    const size = Math.max(
      Math.min(wanted, 3),
      Math.min(wanted, (wanted * width) / textWidth(line, wanted, bold)),
    );
    const lead = size > small ? size * 1.15 : smallLead;
    const wrapped = wrapWidth(line, width, size, bold);
    for (const [n, words] of wrapped.entries()) {
      if (y + lead > room) return;
      y += lead;
      const isLast = n + 1 < wrapped.length && y + lead > room;
      texts.push(
        makeText(isLast ? shorten(`${words} …`, width, size, bold) : words, [x, y - 0.24 * size], {
          size,
          bold,
        }),
      );
    }
  });
  return texts;
}

function shorten(text: string, width: number, size: number, bold = false): string {
  if (textWidth(text, size, bold) <= width) return text;
  let short = [...text];
  while (short.length > 0 && textWidth(`${short.join('')}…`, size, bold) > width) short = short.slice(0, -1);
  return `${short.join('')}…`;
}

/** The sign of first-angle projection (ISO 5456-2): a cone's frustum, and on its right the view from its left. */
export function projectionSymbol([x, y]: Vec2): readonly Mark[] {
  const [large, lesser, half] = [3.4, 1.7, 3.4];
  const left = x - 5;
  const right = x + 5.4;
  return [
    {
      style: 'visible',
      closed: true,
      points: [
        [left - half, y - lesser],
        [left + half, y - large],
        [left + half, y + large],
        [left - half, y + lesser],
      ],
    },
    {
      style: 'chain',
      points: [
        [left - half - 1.4, y],
        [left + half + 1.4, y],
      ],
    },
    { style: 'visible', centre: [right, y], radius: large },
    { style: 'visible', centre: [right, y], radius: lesser },
    {
      style: 'chain',
      points: [
        [right - large - 1.4, y],
        [right + large + 1.4, y],
      ],
    },
    {
      style: 'chain',
      points: [
        [right, y - large - 1.4],
        [right, y + large + 1.4],
      ],
    },
  ];
}
