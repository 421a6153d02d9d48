import type { PlatePlacement } from '../job/summary.js';
import { turnOf } from '../plate/place.js';
import type { Polygon, Vec2 } from '../solid/types.js';
import { type BoxLabel, fitLabel } from './plan-label.js';
import { escapeXml } from './xml.js';

export interface PlanPattern {
  /** The silhouette about the pattern's own origin, mm; holes clockwise. */
  readonly outlines: readonly Polygon[];
  readonly placement: PlatePlacement;
}

export interface PlatePlan {
  readonly title: string;
  /** mm */
  readonly bed: { readonly width: number; readonly depth: number; readonly margin: number };
  readonly patterns: readonly PlanPattern[];
}

/** Ink and paper of the plan: greys that survive a black-and-white printer. */
const look = {
  paper: '#ffffff',
  bed: '#faf9f6',
  grid: '#e7e4dd',
  frame: '#3b3833',
  margin: '#a39d92',
  body: '#dcd7cc',
  bodyEdge: '#57524a',
  text: '#26241f',
  quiet: '#6d675d',
} as const;

const gridStep = 50;
/** Round lengths a person can lay a rule against, mm. */
const scaleLengths = [200, 100, 50, 20, 10, 5, 2, 1] as const;

/**
 * The plan of one plate as an SVG document in mm, seen from above, front edge down: bed, margin, each pattern's
 * silhouette with its name and copy number inside its own box (a key number and a list where the name would be
 * too small to read), a scale bar and the bed's size. Text stays about 2 mm high or more when the bed is
 * printed across an A4 or Letter page.
 */
export function formatPlanSvg(plan: PlatePlan): string {
  const { bed } = plan;
  const span = Math.max(bed.width, bed.depth);
  const text = span / 48;
  const pad = text * 1.6;
  const placed = plan.patterns.map((p) => placeOutlines(p, bed.depth));
  const labels = placed.map((p) => fitLabel(p.box, p.words, text));
  const keys = placed.flatMap((p, i) =>
    labels[i]!.kind === 'words' ? [] : [{ key: i + 1, words: p.words }],
  );
  const keyWidth = Math.max(0, ...keys.map((k) => textWidth(formatKey(k), text))) + text * 2;
  const columns = Math.max(1, Math.min(4, Math.floor(bed.width / keyWidth)));
  const keyRows = Math.ceil(keys.length / columns);
  const top = pad + text * 2.2;
  const footer = text * 3.4 + keyRows * text * 1.5 + (keyRows > 0 ? text : 0);
  const width = bed.width + 2 * pad;
  const height = top + bed.depth + footer + pad;

  const body: string[] = [
    `<rect x="${mm(-pad)}" y="${mm(-top)}" width="${mm(width)}" height="${mm(height)}" fill="${look.paper}"/>`,
    `<text x="0" y="${mm(-text * 1.1)}" font-size="${mm(text * 1.3)}" font-weight="600">${escapeXml(plan.title)}</text>`,
    ...drawBed(bed, span),
    ...placed.map((p) => drawOutlines(p, span)),
    ...placed.map((p, i) => drawLabel(labels[i]!, p, i + 1)),
    ...drawFooter(bed, text, span),
    ...keys.map((k, i) => {
      const x = (i % columns) * (bed.width / columns);
      const y = bed.depth + text * 5.1 + Math.floor(i / columns) * text * 1.5;
      return `<text x="${mm(x)}" y="${mm(y)}" font-size="${mm(text)}">${escapeXml(formatKey(k))}</text>`;
    }),
  ];
  return (
    `<svg xmlns="http://www.w3.org/2000/svg" width="${mm(width)}mm" height="${mm(height)}mm" ` +
    `viewBox="${mm(-pad)} ${mm(-top)} ${mm(width)} ${mm(height)}" ` +
    `font-family="Helvetica, Arial, 'Liberation Sans', sans-serif" fill="${look.text}">\n` +
    `<title>${escapeXml(plan.title)}</title>\n${body.join('\n')}\n</svg>\n`
  );
}

/** One pattern in the drawing's coordinates: y runs down from the bed's rear edge. */
interface PlacedOutline {
  readonly words: { readonly name: string; readonly copy: number };
  readonly outlines: readonly Polygon[];
  readonly box: { readonly min: Vec2; readonly max: Vec2 };
}

function placeOutlines({ outlines, placement }: PlanPattern, depth: number): PlacedOutline {
  const [c, s] = turnOf(placement.turn);
  const placed = outlines.map((polygon) =>
    polygon.map(([x, y]): Vec2 => [c * x - s * y + placement.x, depth - (s * x + c * y + placement.y)]),
  );
  const points = placed.flat();
  const xs = points.length > 0 ? points.map((p) => p[0]) : [placement.x];
  const ys = points.length > 0 ? points.map((p) => p[1]) : [depth - placement.y];
  return {
    words: { name: placement.name, copy: placement.copy },
    outlines: placed,
    box: { min: [least(xs), least(ys)], max: [greatest(xs), greatest(ys)] },
  };
}

const least = (v: readonly number[]): number => v.reduce((a, b) => Math.min(a, b));
const greatest = (v: readonly number[]): number => v.reduce((a, b) => Math.max(a, b));

function drawBed(bed: PlatePlan['bed'], span: number): string[] {
  const { width, depth, margin } = bed;
  const lines: string[] = [];
  for (let x = gridStep; x < width; x += gridStep) lines.push(`M${mm(x)} 0V${mm(depth)}`);
  for (let y = gridStep; y < depth; y += gridStep) lines.push(`M0 ${mm(depth - y)}H${mm(width)}`);
  const thin = span / 900;
  return [
    `<rect width="${mm(width)}" height="${mm(depth)}" fill="${look.bed}"/>`,
    `<path d="${lines.join('')}" stroke="${look.grid}" stroke-width="${mm(thin)}" fill="none"/>`,
    `<rect x="${mm(margin)}" y="${mm(margin)}" width="${mm(width - 2 * margin)}" height="${mm(depth - 2 * margin)}" ` +
      `fill="none" stroke="${look.margin}" stroke-width="${mm(thin)}" stroke-dasharray="${mm(thin * 8)} ${mm(thin * 6)}"/>`,
    `<rect width="${mm(width)}" height="${mm(depth)}" fill="none" stroke="${look.frame}" stroke-width="${mm(thin * 2)}"/>`,
  ];
}

function drawOutlines(pattern: PlacedOutline, span: number): string {
  const d = pattern.outlines
    .map((polygon) => `M${polygon.map(([x, y]) => `${mm(x)} ${mm(y)}`).join('L')}Z`)
    .join('');
  return (
    `<path d="${d}" fill="${look.body}" fill-rule="evenodd" stroke="${look.bodyEdge}" ` +
    `stroke-width="${mm(span / 700)}" stroke-linejoin="round"/>`
  );
}

function drawLabel(label: BoxLabel, pattern: PlacedOutline, key: number): string {
  const x = (pattern.box.min[0] + pattern.box.max[0]) / 2;
  const y = (pattern.box.min[1] + pattern.box.max[1]) / 2;
  const lines = label.kind === 'words' ? label.lines : [String(key)];
  const first = y - ((lines.length - 1) / 2) * label.size * label.leading + label.size * 0.35;
  const spans = lines.map(
    (line, i) =>
      `<tspan x="${mm(x)}" y="${mm(first + i * label.size * label.leading)}">${escapeXml(line)}</tspan>`,
  );
  return (
    `<text font-size="${mm(label.size)}" text-anchor="middle" stroke="${look.paper}" ` +
    `stroke-width="${mm(label.size * 0.22)}" stroke-linejoin="round" paint-order="stroke">${spans.join('')}</text>`
  );
}

function drawFooter(bed: PlatePlan['bed'], text: number, span: number): string[] {
  const bar = scaleLengths.find((l) => l <= bed.width / 4) ?? 1;
  const y = bed.depth + text * 2.2;
  const tick = text * 0.5;
  const line = `stroke="${look.frame}" stroke-width="${mm(span / 600)}" fill="none"`;
  const size = `bed ${formatLength(bed.width)} × ${formatLength(bed.depth)} mm, margin ${formatLength(bed.margin)} mm`;
  return [
    `<text x="${mm(bed.width / 2)}" y="${mm(bed.depth + text * 1.1)}" font-size="${mm(text * 0.9)}" ` +
      `text-anchor="middle" fill="${look.quiet}">front</text>`,
    `<path d="M0 ${mm(y - tick)}V${mm(y + tick)}M0 ${mm(y)}H${mm(bar)}M${mm(bar)} ${mm(y - tick)}V${mm(y + tick)}" ${line}/>`,
    `<text x="${mm(bar + text * 0.6)}" y="${mm(y + text * 0.35)}" font-size="${mm(text)}">${bar} mm</text>`,
    `<text x="${mm(bed.width)}" y="${mm(y + text * 0.35)}" font-size="${mm(text)}" text-anchor="end">${size}</text>`,
  ];
}

const formatKey = (k: { key: number; words: PlacedOutline['words'] }): string =>
  `${k.key}  ${k.words.name}, no. ${k.words.copy}`;
const textWidth = (text: string, size: number): number => text.length * size * 0.6;
/** A hundredth of a mm is below the width of any printed line. */
const mm = (v: number): string => String(Math.round(v * 1000) / 1000 + 0);
const formatLength = (v: number): string => String(Math.round(v * 100) / 100);
