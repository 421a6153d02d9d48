import { escapeXml } from '../../files/xml.js';
import { type LengthUnit, millimetresPerInch } from '../../units/index.js';
import { textWidth } from '../drawing/text-width.js';
import { markShape, type PictureMark } from './marks.js';
import { hexColour, scaleColour } from './scale.js';
import type { ValueScale } from './value-scale.js';

/** Sizes of letters, mm: about 7.5 points. */
export const letters = 2.65;

const n = (v: number): string => String(Math.round(v * 100) / 100 + 0);

export const writing = (
  text: string,
  x: number,
  y: number,
  anchor: 'start' | 'middle' | 'end' = 'start',
  bold = false,
): string =>
  `<text x="${n(x)}" y="${n(y)}" font-size="${letters}"${anchor === 'start' ? '' : ` text-anchor="${anchor}"`}${bold ? ' font-weight="bold"' : ''}>${escapeXml(text)}</text>`;

export const legendHeight = 10.6;

const bar = 3.4;

/** The scale as a bar with its words in its ends and round values below, `width` mm long from `x`, `y`. */
export function drawLegend(scale: ValueScale, x: number, y: number, width: number, id: string): string {
  const stops = Array.from({ length: 19 }, (_, i) => i / 18).map(
    (t) => `<stop offset="${n(t)}" stop-color="${hexColour(scaleColour(t))}"/>`,
  );
  const top = y + 2.6;
  const ticks = scale.ticks.map((tick) => {
    const at = x + tick.at * width;
    const half = textWidth(tick.text, letters) / 2;
    const middle = Math.max(x - 1 + half, Math.min(x + width + 1 - half, at));
    return (
      `<path d="M${n(at)} ${n(tick.limit ? top - 0.8 : top + bar)}V${n(top + bar + 0.9)}" stroke="#000" stroke-width="${tick.limit ? 0.5 : 0.25}"/>` +
      writing(tick.text, middle, top + bar + 3.4, 'middle')
    );
  });
  return [
    `<defs><linearGradient id="${id}">${stops.join('')}</linearGradient></defs>`,
    writing(scale.title, x, y + 1.1),
    `<rect x="${n(x)}" y="${n(top)}" width="${n(width)}" height="${bar}" fill="url(#${id})" stroke="#000" stroke-width="0.25"/>`,
    // Words stand in the bar itself, at its ends.
    `<text x="${n(x + 1.2)}" y="${n(top + 2.55)}" font-size="2.4" font-weight="bold" fill="#fff">${escapeXml(scale.ends[0])}</text>`,
    `<text x="${n(x + width - 1.2)}" y="${n(top + 2.55)}" font-size="2.4" font-weight="bold" text-anchor="end">${escapeXml(scale.ends[1])}</text>`,
    ...ticks,
  ].join('\n');
}

const steps = {
  mm: [1, 2, 5, 10, 20, 50, 100, 200, 500],
  in: [0.05, 0.1, 0.25, 0.5, 1, 2, 5, 10, 20],
} as const;

/**
 * A length of round size, at most `room` mm on paper, its middle line at `y`, from `x`.
 * @param perMm mm on paper for a mm of the pattern
 */
export function drawScaleBar(perMm: number, unit: LengthUnit, x: number, y: number, room: number): string {
  const one = unit === 'mm' ? 1 : millimetresPerInch;
  const length = [...steps[unit]].reverse().find((s) => s * one * perMm <= room) ?? steps[unit][0];
  const end = x + length * one * perMm;
  return (
    `<path d="M${n(x)} ${n(y - 0.8)}V${n(y + 0.8)}M${n(x)} ${n(y)}H${n(end)}M${n(end)} ${n(y - 0.8)}V${n(y + 0.8)}" fill="none" stroke="#000" stroke-width="0.35"/>` +
    writing(`${length} ${unit}`, end + 1.2, y + 0.95)
  );
}

/** What the rings and triangles of a picture are, along the line at `y`, from `x`. */
export function drawKey(marks: readonly PictureMark[], x: number, y: number): string {
  const entries = [
    marks.some((m) => m.kind === 'late') && (['late', false, 'freezes after all about it'] as const),
    marks.some((m) => m.kind === 'thin') && (['thin', false, 'may not fill'] as const),
    marks.some((m) => m.hidden) && (['late', true, 'deep inside or behind'] as const),
  ].filter((e) => e !== false);
  let at = x;
  return entries
    .map(([kind, hidden, text]) => {
      const piece =
        markShape(kind, [at + 1.7, y + (kind === 'thin' ? 0.3 : 0)], hidden) +
        writing(text, at + 4, y + 0.95);
      at += 4 + textWidth(text, letters) + 2.5;
      return piece;
    })
    .join('');
}
