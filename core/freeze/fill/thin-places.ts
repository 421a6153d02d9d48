import { type CastFields, cellRole, leastShare } from '../cast-fields.js';
import { cellVolume, type Grid } from '../grid.js';
import type { FillPlan, ThinPlace } from '../plans.js';
import { isMetal, neighbours } from './cavity.js';

/** Time to freeze over time to fill under which metal may not come: common practice, no source. */
export const marginLimit = 2;

/** Places smaller than this many cells are crumbs of the division and not told of: common practice, no source. */
const leastCells = 1;

type Fields = Pick<CastFields, 'grid' | 'present' | 'share' | 'role' | 'spent'>;

/** The castings' least margin, where it is, and their places under `limit`, worst first. Unreached cells do not count. */
export function findThinPlaces(
  fields: Fields,
  limit = marginLimit,
): Pick<FillPlan, 'margin' | 'marginAt' | 'marginLimit' | 'thinPlaces'> {
  const { grid, role, share, spent } = fields;
  const counts = (c: number): boolean =>
    role[c] === cellRole.casting &&
    share[c]! >= leastShare &&
    isMetal(fields, c) &&
    Number.isFinite(spent[c]!);
  let worst = -1;
  const seen = new Uint8Array(grid.size);
  const places: ThinPlace[] = [];
  for (let c = 0; c < grid.size; c++) {
    if (!counts(c)) continue;
    if (worst < 0 || spent[c]! > spent[worst]!) worst = c;
    if (seen[c] || spent[c]! * limit <= 1) continue;
    const place = placeAbout(fields, c, seen, (b) => counts(b) && spent[b]! * limit > 1);
    if (place) places.push(place);
  }
  return {
    margin: worst < 0 ? Number.POSITIVE_INFINITY : 1 / spent[worst]!,
    marginAt: worst < 0 ? [0, 0, 0] : middleOf(grid, worst),
    marginLimit: limit,
    thinPlaces: places.sort((a, b) => a.margin - b.margin || b.volume - a.volume),
  };
}

/** The set of cells about `start` that hang together by their faces; null: a crumb. */
function placeAbout(
  fields: Fields,
  start: number,
  seen: Uint8Array,
  belongs: (cell: number) => boolean,
): ThinPlace | null {
  const { grid, share, spent } = fields;
  const cells = [start];
  seen[start] = 1;
  let [volume, area] = [0, 0];
  let worst = start;
  const next = new Int32Array(6);
  for (let n = 0; n < cells.length; n++) {
    const c = cells[n]!;
    volume += share[c]! * cellVolume(grid, c);
    area += wallArea(fields, c);
    if (spent[c]! > spent[worst]!) worst = c;
    const count = neighbours(grid, c, next);
    for (let m = 0; m < count; m++) {
      const b = next[m]!;
      if (seen[b] || !belongs(b)) continue;
      seen[b] = 1;
      cells.push(b);
    }
  }
  if (volume < leastCells * cellVolume(grid, worst)) return null;
  return {
    at: middleOf(grid, worst),
    volume,
    margin: 1 / spent[worst]!,
    thickness: area > 0 ? (2 * volume) / area : Number.POSITIVE_INFINITY,
  };
}

/**
 * mm² of a cell's sides that touch mould, or metal too little to count: faces toward either end of the axes taken
 * together as a leaning wall's area, √(Ax² + Ay² + Az²), so that its steps do not add to it.
 */
function wallArea({ grid, present, share }: Fields, cell: number): number {
  const { counts, edges } = grid;
  const strides = [1, counts[0], counts[0] * counts[1]] as const;
  const at = [
    cell % counts[0],
    Math.floor(cell / counts[0]) % counts[1],
    Math.floor(cell / strides[2]),
  ] as const;
  const width = (axis: 0 | 1 | 2): number => edges[axis][at[axis] + 1]! - edges[axis][at[axis]]!;
  let sum = 0;
  for (const side of [-1, 1]) {
    let squares = 0;
    for (const axis of [0, 1, 2] as const) {
      const n = at[axis] + side;
      const to = cell + side * strides[axis];
      // The block's end is open or another mould's half: no wall.
      if (n < 0 || n >= counts[axis] || (share[to]! >= leastShare && present[to] !== 0)) continue;
      squares += (width(((axis + 1) % 3) as 0 | 1 | 2) * width(((axis + 2) % 3) as 0 | 1 | 2)) ** 2;
    }
    sum += Math.sqrt(squares);
  }
  return sum;
}

/** Middle of a cell, mm. */
function middleOf(
  { counts: [nx, ny], edges: [ex, ey, ez] }: Grid,
  c: number,
): readonly [number, number, number] {
  const [i, j, k] = [c % nx, Math.floor(c / nx) % ny, Math.floor(c / (nx * ny))];
  return [(ex[i]! + ex[i + 1]!) / 2, (ey[j]! + ey[j + 1]!) / 2, (ez[k]! + ez[k + 1]!) / 2];
}
