import { EndType, FillRule, inflatePathsD, intersectD, JoinType, type PathD } from 'clipper2-ts';
import { maths } from '../maths/maths.js';
import type { KeepOut } from '../plate/contract.js';
import type { Polygon, Vec2 } from '../solid/types.js';
import { type LengthUnit, millimetresPerInch } from '../units/index.js';
import { planLook as look, millimetres as mm, pathOf } from './plan-look.js';

export interface PlanBed {
  readonly shape?: 'rectangle' | 'circle';
  /** mm */
  readonly width: number;
  readonly depth: number;
  readonly margin: number;
  readonly gap?: number;
  readonly brim?: number;
  readonly keepOuts?: readonly KeepOut[];
}

/** mm; each 50 mm or 2 in. */
const gridSteps = { mm: 50, in: 2 * millimetresPerInch } as const;
const corners = 90;
/** Decimals that are kept when polygons are clipped or grown. */
const clipDigits = 3;

/** Plate, grid, margin and frame of a bed, y down from its rear edge. */
export function drawBed(bed: PlanBed, span: number, unit: LengthUnit): readonly string[] {
  const thin = span / 900;
  const dashed = `stroke-dasharray="${mm(thin * 8)} ${mm(thin * 6)}"`;
  const outline = (inset: number, look: string): string =>
    bed.shape === 'circle'
      ? `<circle cx="${mm(bed.width / 2)}" cy="${mm(bed.depth / 2)}" r="${mm(bed.width / 2 - inset)}" ${look}/>`
      : `<rect ${inset === 0 ? '' : `x="${mm(inset)}" y="${mm(inset)}" `}width="${mm(bed.width - 2 * inset)}" height="${mm(bed.depth - 2 * inset)}" ${look}/>`;
  return [
    outline(0, `fill="${look.bed}"`),
    `<path d="${gridOf(bed, gridSteps[unit])}" stroke="${look.grid}" stroke-width="${mm(thin)}" fill="none"/>`,
    outline(bed.margin, `fill="none" stroke="${look.margin}" stroke-width="${mm(thin)}" ${dashed}`),
    outline(0, `fill="none" stroke="${look.frame}" stroke-width="${mm(thin * 2)}"`),
  ];
}

/** Lines each step from the front left corner. */
function gridOf({ shape, width, depth }: PlanBed, step: number): string {
  /** Half the chord of a round bed at a distance from its left or front edge. */
  const half = (at: number): number => Math.sqrt(Math.max(0, at * (width - at)));
  const ends = (at: number, length: number): readonly [number, number] =>
    shape === 'circle' ? [width / 2 - half(at), width / 2 + half(at)] : [0, length];
  const lines: string[] = [];
  for (let x = step; x < width; x += step) {
    const [from, to] = ends(x, depth);
    lines.push(`M${mm(x)} ${mm(from)}V${mm(to)}`);
  }
  for (let y = step; y < depth; y += step) {
    const [from, to] = ends(y, width);
    lines.push(`M${mm(from)} ${mm(depth - y)}H${mm(to)}`);
  }
  return lines.join('');
}

/** A zone's outline on the plan. */
export function zoneOutline(zone: KeepOut, { depth }: PlanBed): Polygon {
  if (!('diameter' in zone)) {
    const { x, y, width, depth: d } = zone;
    return [
      [x, depth - y],
      [x, depth - y - d],
      [x + width, depth - y - d],
      [x + width, depth - y],
    ];
  }
  return circle([zone.x, depth - zone.y], zone.diameter / 2);
}

/** What of a zone's outline lies on the bed; nothing where it lies wholly beside it. */
export function clipToBed(outline: Polygon, { shape, width, depth }: PlanBed): readonly Polygon[] {
  const edge: Polygon =
    shape === 'circle'
      ? circle([width / 2, depth / 2], width / 2)
      : [
          [0, 0],
          [width, 0],
          [width, depth],
          [0, depth],
        ];
  return polygonsOf(intersectD([pathFor(outline)], [pathFor(edge)], FillRule.NonZero, clipDigits));
}

const circle = ([x, y]: Vec2, radius: number): Polygon =>
  Array.from({ length: corners }, (_, i): Vec2 => {
    const turn = (2 * Math.PI * i) / corners;
    return [x + radius * maths.cos(turn), y + radius * maths.sin(turn)];
  });

const pathFor = (polygon: Polygon): PathD => polygon.map(([x, y]) => ({ x, y }));
const polygonsOf = (paths: readonly PathD[]): readonly Polygon[] =>
  paths.map((path) => path.map(({ x, y }): Vec2 => [x, y]));

/** Zones that are not printed on, hatched; what of them lies beside the bed is cut off. */
export function drawZones(outlines: readonly Polygon[], bed: PlanBed, span: number): readonly string[] {
  if (outlines.length === 0) return [];
  const step = span / 70;
  const round = bed.shape === 'circle';
  const clip = round
    ? `<circle cx="${mm(bed.width / 2)}" cy="${mm(bed.depth / 2)}" r="${mm(bed.width / 2)}"/>`
    : `<rect width="${mm(bed.width)}" height="${mm(bed.depth)}"/>`;
  return [
    `<defs><pattern id="hatch" width="${mm(step)}" height="${mm(step)}" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">` +
      `<path d="M0 0V${mm(step)}" stroke="${look.hatch}" stroke-width="${mm(span / 500)}"/></pattern>` +
      `<clipPath id="bed">${clip}</clipPath></defs>`,
    `<g clip-path="url(#bed)">`,
    ...outlines.map(
      (outline) =>
        `<path d="${pathOf([outline])}" fill="url(#hatch)" stroke="${look.hatch}" stroke-width="${mm(span / 700)}"/>`,
    ),
    '</g>',
  ];
}

/** The outer edge of a brim round a foot on the plan. */
export const brimOutlines = (foot: readonly Polygon[], brim: number): readonly Polygon[] =>
  polygonsOf(inflatePathsD(foot.map(pathFor), brim, JoinType.Round, EndType.Polygon, 2, clipDigits, 0.05));
