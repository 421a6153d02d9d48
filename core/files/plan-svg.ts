import type { PlatePlacement } from '../job/summary.js';
import { turnOf } from '../plate/place.js';
import { measureArea } from '../solid/check-input.js';
import type { Polygon, Vec2 } from '../solid/types.js';
import { formatLength, formatNumber, type LengthUnit, millimetresPerInch } from '../units/index.js';
import { brimOutlines, clipToBed, drawBed, drawZones, type PlanBed, zoneOutline } from './plan-bed.js';
import { keyOf, keyWordings, leading, nameWordings, type Wording, wordingOf } from './plan-label.js';
import { planLook as look, millimetres as mm, pathOf } from './plan-look.js';
import { type PlacedWording, PlanPlaces } from './plan-place.js';
import { escapeXml } from './xml.js';

export interface PlanPattern {
  /** The silhouette about the pattern's own origin, mm; holes clockwise. */
  readonly outlines: readonly Polygon[];
  /** What stands on the bed; the silhouette where left out. */
  readonly foot?: readonly Polygon[];
  readonly placement: PlatePlacement;
}

export interface PlatePlan {
  readonly title: string;
  readonly bed: PlanBed;
  readonly patterns: readonly PlanPattern[];
  /** Share of the bed inside its margin that patterns cover. */
  readonly filled?: number;
  /** Of the sizes told; mm where left out. */
  readonly lengthUnit?: LengthUnit;
}

/** Round lengths a person can lay a rule against. */
const scaleLengths = { mm: [200, 100, 50, 20, 10, 5, 2, 1], in: [8, 4, 2, 1, 0.5, 0.25] } as const;

/** Smallest key that is read without a glass, as a share of the plan's text size. */
const leastKey = 0.3;

/**
 * The plan of one plate as an SVG document in mm, seen from above, front edge down: bed, margin, zones kept free,
 * brims, each pattern's silhouette with its name and copy number inside it or beside it (or a short key and a list
 * where there is no room), a scale bar, the bed's size and how full it is. Words never meet. Text stays about 2 mm
 * high or more when the bed is printed across an A4 or Letter page; only keys may be smaller.
 */
export function formatPlanSvg(plan: PlatePlan): string {
  const { bed, lengthUnit = 'mm' } = plan;
  const span = Math.max(bed.width, bed.depth);
  const text = span / 48;
  const pad = text * 1.6;
  const placed = plan.patterns.map((p) => placePattern(p, bed));
  const zones = (bed.keepOuts ?? []).map((zone) => zoneOutline(zone, bed));
  const { words, keys } = placeWords(plan, placed, zones, text);
  const keyLines = [...keys].map(([name, { key, copies }]) => `${key}  ${name}, ${formatCopies(copies)}`);
  const keyWidth = Math.max(0, ...keyLines.map((line) => wordingOf([line], text).width)) + text;
  const columns = Math.max(1, Math.min(4, Math.floor(bed.width / keyWidth)));
  const keyRows = Math.ceil(keyLines.length / columns);
  const top = pad + text * 2.2;
  const footer = text * 5 + keyRows * text * 1.5 + (keyRows > 0 ? text : 0);
  const width = bed.width + 2 * pad;
  const height = top + bed.depth + footer + pad;

  const body: string[] = [
    `<rect x="${mm(-pad)}" y="${mm(-top)}" width="${mm(width)}" height="${mm(height)}" fill="${look.paper}"/>`,
    `<text x="0" y="${mm(-text * 1.1)}" font-size="${mm(text * 1.3)}" font-weight="600">${escapeXml(plan.title)}</text>`,
    ...drawBed(bed, span, lengthUnit),
    ...drawZones(zones, bed, span),
    ...placed.map(({ outlines }) => drawOutlines(outlines, span)),
    ...drawBrims(placed, span),
    ...words.map((word) => drawLeader(word, span)),
    ...words.map(drawWords),
    ...drawFooter(plan, lengthUnit, text, span),
    ...keyLines.map((line, i) => {
      const x = (i % columns) * (bed.width / columns);
      const y = bed.depth + text * 6.7 + Math.floor(i / columns) * text * 1.5;
      return `<text x="${mm(x)}" y="${mm(y)}" font-size="${mm(text)}">${escapeXml(line)}</text>`;
    }),
  ];
  return (
    `<svg xmlns="http://www.w3.org/2000/svg" width="${mm(width)}mm" height="${mm(height)}mm" ` +
    `viewBox="${mm(-pad)} ${mm(-top)} ${mm(width)} ${mm(height)}" ` +
    `font-family="Helvetica, Arial, 'Liberation Sans', sans-serif" fill="${look.text}">\n` +
    `<title>${escapeXml(plan.title)}</title>\n${body.filter((line) => line !== '').join('\n')}\n</svg>\n`
  );
}

/** One pattern in the drawing's coordinates: y runs down from the bed's rear edge. */
interface PlacedPattern {
  readonly name: string;
  readonly copy: number;
  readonly outlines: readonly Polygon[];
  readonly brim: readonly Polygon[];
}

function placePattern(
  { outlines, foot = outlines, placement }: PlanPattern,
  { depth, brim = 0 }: PlanBed,
): PlacedPattern {
  const [c, s] = turnOf(placement.turn);
  const place = (polygons: readonly Polygon[]): readonly Polygon[] =>
    polygons.map((polygon) =>
      polygon.map(([x, y]): Vec2 => [c * x - s * y + placement.x, depth - (s * x + c * y + placement.y)]),
    );
  return {
    name: placement.name,
    copy: placement.copy,
    outlines: place(outlines),
    brim: brim > 0 ? brimOutlines(place(foot), brim) : [],
  };
}

interface Key {
  readonly key: string;
  readonly copies: readonly number[];
}

/**
 * Words for every pattern and zone. Names stand inside their patterns where they can, else beside them; where one of
 * a name's copies has room for neither, all of them that have none inside get a key.
 */
function placeWords(
  plan: PlatePlan,
  placed: readonly PlacedPattern[],
  zones: readonly Polygon[],
  text: number,
): { readonly words: readonly PlacedWording[]; readonly keys: ReadonlyMap<string, Key> } {
  const { width, depth, keepOuts = [] } = plan.bed;
  const onBed = zones.map((outline) => clipToBed(outline, plan.bed));
  const unit = plan.lengthUnit ?? 'mm';
  const shapes = [...onBed.map((outlines) => ({ outlines })), ...placed];
  const places = new PlanPlaces(width, depth, shapes);
  const words: PlacedWording[] = [];
  const put = (word: PlacedWording | undefined): boolean => word !== undefined && words.push(word) > 0;
  keepOuts.forEach(({ above = 0 }, i) => {
    if (onBed[i]?.length === 0) return;
    const most = formatLength(above, unit, { digits: unit === 'in' ? 3 : 2 });
    const told = above === 0 ? ['kept free'] : ['kept free', `above ${most}`];
    const wordings = [told, [told.join(' ')]].flatMap((lines) =>
      [1, 0.87, 0.75, 0.6].map((share) => wordingOf(lines, share * text)),
    );
    // Where there is no room at all the hatching says it alone.
    put(places.inside(i, wordings) ?? places.beside(i, wordings));
  });
  const shapeOf = (p: PlacedPattern): number => zones.length + placed.indexOf(p);
  const without = placed.filter((p) => !put(places.inside(shapeOf(p), nameWordings(p.name, p.copy, text))));
  const keys = new Map<string, Key>();
  for (const name of [...new Set(without.map((p) => p.name))]) {
    const copies = without.filter((p) => p.name === name);
    const undo = places.undoable();
    const beside = copies.map((p) => places.beside(shapeOf(p), nameWordings(p.name, p.copy, text)));
    if (beside.every((word) => word !== undefined)) {
      words.push(...beside);
      continue;
    }
    undo();
    const key = keyOf(keys.size);
    keys.set(name, { key, copies: copies.map((p) => p.copy) });
    for (const p of copies) {
      const short = keyWordings(`${key}${p.copy}`, text);
      const shape = shapeOf(p);
      put(
        places.inside(shape, short) ??
          places.beside(shape, short) ??
          places.widest(shape, (width) => smallKey(`${key}${p.copy}`, width, text)),
      );
    }
  }
  return { words, keys };
}

/** A key as large as so much room each way lets it be, mm, but not too small to be read. */
function smallKey(key: string, room: number, text: number): Wording {
  const whole = wordingOf([key], 1);
  const fits = room / Math.max(whole.width, whole.height);
  return wordingOf([key], Math.max(leastKey * text, Math.min(0.6 * text, fits)));
}

/** `no. 3`, `no. 1 to 4, 7` */
function formatCopies(copies: readonly number[]): string {
  const runs: [number, number][] = [];
  for (const copy of [...copies].sort((a, b) => a - b)) {
    const last = runs.at(-1);
    if (last && copy === last[1] + 1) last[1] = copy;
    else runs.push([copy, copy]);
  }
  return `no. ${runs.map(([a, b]) => (a === b ? a : `${a} to ${b}`)).join(', ')}`;
}

function drawBrims(placed: readonly PlacedPattern[], span: number): readonly string[] {
  const dash = span / 300;
  return placed
    .filter(({ brim }) => brim.length > 0)
    .map(
      ({ brim }) =>
        `<path d="${pathOf(brim)}" fill="none" stroke="${look.brim}" ` +
        `stroke-width="${mm(span / 900)}" stroke-dasharray="${mm(dash)} ${mm(dash)}"/>`,
    );
}

/** Without slits and dots that are no wider than a line. */
const drawOutlines = (outlines: readonly Polygon[], span: number): string =>
  `<path d="${pathOf(outlines.filter((outline) => Math.abs(measureArea(outline)) > (span / 150) ** 2))}" fill="${look.body}" fill-rule="evenodd" stroke="${look.bodyEdge}" ` +
  `stroke-width="${mm(span / 700)}" stroke-linejoin="round"/>`;

const drawLeader = ({ leader }: PlacedWording, span: number): string =>
  leader === undefined
    ? ''
    : `<path d="M${mm(leader[0][0])} ${mm(leader[0][1])}L${mm(leader[1][0])} ${mm(leader[1][1])}" stroke="${look.text}" ` +
      `stroke-width="${mm(span / 900)}"/>` +
      `<circle cx="${mm(leader[1][0])}" cy="${mm(leader[1][1])}" r="${mm(span / 450)}"/>`;

function drawWords({ wording: { lines, size }, at: [x, y] }: PlacedWording): string {
  const first = y - ((lines.length - 1) / 2) * size * leading + size * 0.35;
  const spans = lines.map(
    (line, i) => `<tspan x="${mm(x)}" y="${mm(first + i * size * leading)}">${escapeXml(line)}</tspan>`,
  );
  return (
    `<text font-size="${mm(size)}" text-anchor="middle" stroke="${look.paper}" ` +
    `stroke-width="${mm(size * 0.22)}" stroke-linejoin="round" paint-order="stroke">${spans.join('')}</text>`
  );
}

function drawFooter({ bed, filled }: PlatePlan, unit: LengthUnit, text: number, span: number): string[] {
  const one = unit === 'in' ? millimetresPerInch : 1;
  const bar = scaleLengths[unit].find((l) => l * one <= bed.width / 4) ?? scaleLengths[unit].at(-1) ?? 1;
  const y = bed.depth + text * 2.2;
  const tick = text * 0.5;
  const line = `stroke="${look.frame}" stroke-width="${mm(span / 600)}" fill="none"`;
  const told = (v: number): string => formatNumber(v / one, { digits: unit === 'in' ? 3 : 2 });
  const size = bed.shape === 'circle' ? `Ø ${told(bed.width)}` : `${told(bed.width)} × ${told(bed.depth)}`;
  const brim = bed.brim ? `, brim ${told(bed.brim)} ${unit}` : '';
  const about = [
    `bed ${size} ${unit}, margin ${told(bed.margin)} ${unit}${brim}`,
    [
      ...(bed.gap === undefined ? [] : [`gap ${told(bed.gap)} ${unit}`]),
      ...(filled === undefined ? [] : [`${Math.round(100 * filled)} % of the bed inside its margin covered`]),
    ].join(', '),
  ].filter((words) => words !== '');
  return [
    `<text x="${mm(bed.width / 2)}" y="${mm(bed.depth + text * 1.1)}" font-size="${mm(text * 0.9)}" ` +
      `text-anchor="middle" fill="${look.quiet}">front</text>`,
    `<path d="M0 ${mm(y - tick)}V${mm(y + tick)}M0 ${mm(y)}H${mm(bar * one)}M${mm(bar * one)} ${mm(y - tick)}V${mm(y + tick)}" ${line}/>`,
    `<text x="${mm(bar * one + text * 0.6)}" y="${mm(y + text * 0.35)}" font-size="${mm(text)}">${bar} ${unit}</text>`,
    ...about.map(
      (words, i) =>
        `<text x="${mm(bed.width)}" y="${mm(y + text * (0.35 + 1.5 * i))}" font-size="${mm(text)}" text-anchor="end">${words}</text>`,
    ),
  ];
}
