import { maths } from '../../maths/maths.js';
import { diametersOf, mappedFall } from './feet.js';
import { deepest, heavyMiddle, type SectionField } from './section-field.js';
import type { TopMap } from './top-map.js';

/** A place on the map where a gate may stand. */
export interface Site {
  readonly x: number;
  readonly y: number;
  /** Depth of the deepest metal under it, mm: half the section there. */
  readonly depth: number;
  /** Diameter that fits by the map, mm; 0 where not even the least does. */
  readonly diameter: number;
  readonly score: number;
}

/**
 * What a place is worth, from 1 for one that has everything. The heaviest section decides; the others choose between
 * places over as heavy ones. Common practice, no source.
 */
export const siteWeights = {
  /** Half the section under it to the deepest of the part; from nine tenths on they are alike. */
  section: 1,
  /** Metal over the middle of that section beyond its own half, to the part's height. */
  path: 0.3,
  /** Distance in plan from the middle of the heavy metal, to the part's reach. */
  aside: 0.15,
  /** Below the part's highest point, to its height. */
  low: 0.15,
  /** Narrower than is wanted. */
  narrow: 0.3,
  /** Falling away, to the most that is allowed. */
  slope: 0.1,
} as const;

/** Every upright of the map over metal, best first. */
export function rankSites(
  map: TopMap,
  field: SectionField,
  marked: Uint8Array,
  feet: { readonly least: number; readonly wanted: number },
): readonly Site[] {
  const most = deepest(field).depth;
  const middle = heavyMiddle(field);
  const tried = diametersOf(feet.least, feet.wanted);
  const nx = map.xs.length;
  let [high, low] = [Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY];
  for (let c = 0; c < map.top.length; c++) {
    if (map.top[c] === Number.NEGATIVE_INFINITY) continue;
    high = Math.max(high, map.top[c]!);
    low = Math.min(low, map.under[c]!);
  }
  const height = Math.max(high - low, 1e-6);
  const reach = Math.max(
    ...[map.xs[0]!, map.xs[nx - 1]!].map((x) => Math.abs(x - middle[0])),
    ...[map.ys[0]!, map.ys.at(-1)!].map((y) => Math.abs(y - middle[1])),
    1e-6,
  );
  const sites: Site[] = [];
  for (let j = 0; j < map.ys.length; j++)
    for (let i = 0; i < nx; i++) {
      const c = i + nx * j;
      const top = map.top[c]!;
      if (top === Number.NEGATIVE_INFINITY) continue;
      const [x, y] = [map.xs[i]!, map.ys[j]!];
      const { depth, at } = deepestUnder(field, x, y, map.under[c]!, top);
      let [diameter, slope] = [0, 1];
      for (const size of tried) {
        const fall = mappedFall(map, marked, [i, j], size.diameter / 2, size.most);
        if (fall > size.most) continue;
        diameter = size.diameter;
        slope = size.diameter > feet.wanted ? 0 : fall / size.most;
        break;
      }
      const score =
        siteWeights.section * Math.min(1, depth / (0.9 * most)) -
        siteWeights.path * Math.min(1, Math.max(0, top - at - 1.1 * depth - field.size) / height) -
        siteWeights.aside * Math.min(1, maths.hypot(x - middle[0], y - middle[1]) / reach) -
        siteWeights.low * ((high - top) / height) -
        siteWeights.narrow * (1 - Math.min(1, diameter / feet.wanted)) -
        siteWeights.slope * slope;
      sites.push({ x, y, depth, diameter, score });
    }
  return sites.sort((a, b) => b.score - a.score || a.y - b.y || a.x - b.x);
}

/** The deepest metal on an upright between two heights, and where it is. */
function deepestUnder(field: SectionField, x: number, y: number, from: number, to: number) {
  const { size, origin, counts } = field;
  const at = (value: number, axis: 0 | 1 | 2): number =>
    Math.min(counts[axis] - 1, Math.max(0, Math.floor((value - origin[axis]) / size)));
  const column = at(x, 0) + counts[0] * at(y, 1);
  let [best, found] = [0, (from + to) / 2];
  for (let k = at(to, 2); k >= at(from, 2); k--) {
    const depth = field.depth[column + counts[0] * counts[1] * k]!;
    // The higher of those as deep.
    if (depth > best * 1.02) [best, found] = [depth, origin[2] + (k + 0.5) * size];
  }
  return { depth: best, at: found };
}
