import type { Polygon } from '../solid/types.js';
import type { NestItem } from './contract.js';
import { areaOf, hullOf, type Paths, pathsOf, simplifyPaths } from './outline.js';

/** What copies have in common. */
export interface Shape {
  readonly index: number;
  readonly outline: Paths;
  readonly foot: Paths;
  readonly hull: Float64Array;
  readonly footHull: Float64Array;
  /** With fewer corners, and how far off these are at most, mm. */
  readonly plain: { readonly paths: Paths; readonly error: number };
  readonly plainFoot: { readonly paths: Paths; readonly error: number };
  readonly height: number;
  /** mm² of the silhouette. */
  readonly area: number;
}

/** How far outlines may be simplified for the raster, mm: well below its cells. */
const simplest = 0.03;

/** The distinct shapes among the items, and which each item has. Copies that share their arrays cost nothing. */
export function sortShapes(items: readonly NestItem[]): { shapes: readonly Shape[]; of: readonly number[] } {
  const shapes: Shape[] = [];
  const byArray = new Map<readonly Polygon[], Map<string, number>>();
  const byValue = new Map<string, number>();
  const of = items.map((item) => {
    const seen = byArray.get(item.outline) ?? new Map<string, number>();
    byArray.set(item.outline, seen);
    const short = `${item.height} ${item.foot === undefined || item.foot === item.outline ? '' : JSON.stringify(item.foot)}`;
    const known = seen.get(short);
    if (known !== undefined) return known;
    const value = `${JSON.stringify(item.outline)} ${short}`;
    const index = byValue.get(value) ?? shapes.length;
    if (index === shapes.length) shapes.push(shapeOf(item, index));
    byValue.set(value, index);
    seen.set(short, index);
    return index;
  });
  return { shapes, of };
}

function shapeOf(item: NestItem, index: number): Shape {
  const outline = pathsOf(item.outline);
  const foot = item.foot === undefined ? outline : pathsOf(item.foot);
  return {
    index,
    outline,
    foot,
    hull: hullOf(outline),
    footHull: hullOf(foot),
    plain: simplifyPaths(outline, simplest),
    plainFoot: simplifyPaths(foot, simplest),
    height: item.height,
    area: areaOf(outline),
  };
}
