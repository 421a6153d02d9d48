import type { Vec2 } from '../../solid/types.js';
import { textWidth } from './text-width.js';

/** A drawing on paper: millimetres, x to the right, y down. */

export interface Area {
  readonly x0: number;
  readonly y0: number;
  readonly x1: number;
  readonly y1: number;
}

/** ISO 128-2 lines of group 0.35: thick 0.35 mm, thin 0.18 mm; the cutting plane's ends thicker still. */
export type LineStyle = 'visible' | 'thin' | 'hidden' | 'chain' | 'cutting' | 'frame';

export type Mark =
  | { readonly style: LineStyle; readonly points: readonly Vec2[]; readonly closed?: boolean }
  | {
      readonly style: LineStyle;
      readonly centre: Vec2;
      readonly radius: number;
      /** rad, counter-clockwise on paper from +x. */
      readonly from?: number;
      readonly to?: number;
    }
  /** A filled arrowhead. */
  | { readonly tip: Vec2; readonly direction: Vec2 };

export interface TextPiece {
  readonly text: string;
  readonly sub?: boolean;
}

export interface TextMark {
  readonly pieces: readonly TextPiece[];
  /** Where the baseline starts, is centred or ends. */
  readonly at: Vec2;
  readonly anchor: 'start' | 'middle' | 'end';
  readonly size: number;
  readonly bold: boolean;
  /** Reads upward. */
  readonly upward: boolean;
  /** What it can cover at most. */
  readonly box: Area;
  /** Width that it is given where its letters are not known. */
  readonly width: number;
  /** Symbol of the size it states. */
  readonly symbol?: string;
}

/** A part of the sheet with an origin of its own. */
export interface Block {
  readonly marks: readonly Mark[];
  readonly texts: readonly TextMark[];
  readonly area: Area;
}

/** Sizes of text, mm: capitals of 2.5 mm, the least of ISO 3098 for dimensions, and below it for tables. */
export const dimensionSize = 3.5;
export const tableSize = 2.9;
export const labelSize = 2.1;
/** Of a subscript, share of its text. */
const subSize = 0.72;

/** Above and below the baseline, share of the size; Arial's capitals are 0.716, its descenders 0.21. */
const rise = 0.76;
const fall = 0.24;

/** `d_a` with its subscript. */
export const symbolPieces = (symbol: string): readonly TextPiece[] => {
  const [base = '', ...rest] = symbol.split('_');
  return rest.length === 0 ? [{ text: base }] : [{ text: base }, { text: rest.join(','), sub: true }];
};

export const piecesWidth = (pieces: readonly TextPiece[], size: number, bold = false): number =>
  pieces.reduce((sum, p) => sum + textWidth(p.text, p.sub ? size * subSize : size, bold), 0);

export interface TextStyle {
  readonly size: number;
  readonly anchor?: TextMark['anchor'];
  readonly bold?: boolean;
  readonly upward?: boolean;
  readonly symbol?: string;
}

/** A line of text with the box that it takes. */
export function makeText(text: string | readonly TextPiece[], at: Vec2, style: TextStyle): TextMark {
  const { size, anchor = 'start', bold = false, upward = false } = style;
  const pieces = typeof text === 'string' ? [{ text }] : text;
  const width = piecesWidth(pieces, size, bold);
  const start = { start: 0, middle: -width / 2, end: -width }[anchor];
  const [x, y] = at;
  const box = upward
    ? { x0: x - rise * size, x1: x + fall * size, y0: y - start - width, y1: y - start }
    : { x0: x + start, x1: x + start + width, y0: y - rise * size, y1: y + fall * size };
  return {
    pieces,
    at,
    anchor,
    size,
    bold,
    upward,
    box,
    width,
    ...(style.symbol === undefined ? {} : { symbol: style.symbol }),
  };
}

export const noArea: Area = { x0: Infinity, y0: Infinity, x1: -Infinity, y1: -Infinity };

export const unite = (a: Area, b: Area): Area => ({
  x0: Math.min(a.x0, b.x0),
  y0: Math.min(a.y0, b.y0),
  x1: Math.max(a.x1, b.x1),
  y1: Math.max(a.y1, b.y1),
});

export const overlaps = (a: Area, b: Area, gap = 0): boolean =>
  a.x0 < b.x1 + gap && b.x0 < a.x1 + gap && a.y0 < b.y1 + gap && b.y0 < a.y1 + gap;

export const shiftArea = (a: Area, [dx, dy]: Vec2): Area => ({
  x0: a.x0 + dx,
  y0: a.y0 + dy,
  x1: a.x1 + dx,
  y1: a.y1 + dy,
});

export function areaOfPoints(points: readonly Vec2[]): Area {
  let { x0, y0, x1, y1 } = noArea;
  for (const [x, y] of points) {
    if (x < x0) x0 = x;
    if (x > x1) x1 = x;
    if (y < y0) y0 = y;
    if (y > y1) y1 = y;
  }
  return { x0, y0, x1, y1 };
}

export function areaOfMark(mark: Mark): Area {
  if ('points' in mark) return areaOfPoints(mark.points);
  if ('tip' in mark) return areaOfPoints([mark.tip]);
  const { centre, radius } = mark;
  return {
    x0: centre[0] - radius,
    x1: centre[0] + radius,
    y0: centre[1] - radius,
    y1: centre[1] + radius,
  };
}

export const makeBlock = (marks: readonly Mark[], texts: readonly TextMark[]): Block => ({
  marks,
  texts,
  area: [...marks.map(areaOfMark), ...texts.map((t) => t.box)].reduce(unite, noArea),
});

export const shiftText = (text: TextMark, by: Vec2): TextMark => ({
  ...text,
  at: [text.at[0] + by[0], text.at[1] + by[1]],
  box: shiftArea(text.box, by),
});

export function shiftMark(mark: Mark, [dx, dy]: Vec2): Mark {
  const to = ([x, y]: Vec2): Vec2 => [x + dx, y + dy];
  if ('points' in mark) return { ...mark, points: mark.points.map(to) };
  if ('tip' in mark) return { ...mark, tip: to(mark.tip) };
  return { ...mark, centre: to(mark.centre) };
}

export const shiftBlock = (block: Block, by: Vec2): Block => ({
  marks: block.marks.map((m) => shiftMark(m, by)),
  texts: block.texts.map((t) => shiftText(t, by)),
  area: shiftArea(block.area, by),
});

export const joinBlocks = (blocks: readonly Block[]): Block => ({
  marks: blocks.flatMap((b) => b.marks),
  texts: blocks.flatMap((b) => b.texts),
  area: blocks.map((b) => b.area).reduce(unite, noArea),
});
