import { areaPathsD, differenceD, FillRule, intersectD, type PathD } from 'clipper2-ts';
import { maths } from '../maths/maths.js';
import type { KeepOut } from '../plate/contract.js';
import type { PrintBed } from './job.js';

const rectangle = (x: number, y: number, width: number, depth: number): PathD => [
  { x, y },
  { x: x + width, y },
  { x: x + width, y: y + depth },
  { x, y: y + depth },
];

const corners = 180;
const circle = (x: number, y: number, diameter: number): PathD =>
  Array.from({ length: corners }, (_, i) => {
    const turn = (2 * Math.PI * i) / corners;
    return { x: x + (diameter / 2) * maths.cos(turn), y: y + (diameter / 2) * maths.sin(turn) };
  });

/** The bed without its margin. */
function insideMargin({ shape, width, depth, margin }: PrintBed): PathD {
  return shape === 'circle'
    ? circle(width / 2, depth / 2, width - 2 * margin)
    : rectangle(margin, margin, width - 2 * margin, depth - 2 * margin);
}

const outlineOf = (zone: KeepOut): PathD =>
  'diameter' in zone
    ? circle(zone.x, zone.y, zone.diameter)
    : rectangle(zone.x, zone.y, zone.width, zone.depth);

/** Whether any of the zone lies on the bed. */
export const meetsBed = (bed: PrintBed, zone: KeepOut): boolean =>
  areaPathsD(intersectD([insideMargin({ ...bed, margin: 0 })], [outlineOf(zone)], FillRule.NonZero)) > 0;

/** mm² inside the margin and outside the zones that keep out patterns of any height. */
export function measureRoom(bed: PrintBed): number {
  const zones = bed.keepOuts.filter(({ above = 0 }) => above === 0).map(outlineOf);
  return Math.abs(areaPathsD(differenceD([insideMargin(bed)], zones, FillRule.NonZero)));
}
