import { type CastFields, cellRole, leastShare } from '../cast-fields.js';
import { neighbours } from '../cell-walk.js';
import { cellMiddle, cellVolume } from '../grid.js';
import type { FillPlan, ThinPlace } from '../plans.js';
import { latestFirst } from '../readings/latest-first.js';
import { isMetal } from './cavity.js';

/** Time to freeze over time to fill under which metal may not come: common practice, no source. */
export const marginLimit = 2;

/** mm³ of metal, besides a whole cell's, that make a place: a cube 1.3 mm on edge. Common practice, no source. */
const leastVolume = 2;

type Fields = Pick<CastFields, 'grid' | 'present' | 'share' | 'role' | 'spent'>;

/** Cells that hang together by their faces, all under a margin. */
interface Region {
  /** mm³ of metal, and mm² of its sides on the mould. */
  volume: number;
  area: number;
  /** Its cell with the least margin. */
  worst: number;
  /** What its metal had spent as it grew to a place; 0: it has not. */
  spent: number;
}

/**
 * The castings' least margin, where it is, and their places under `limit`, worst first. Cells are taken in falling order
 * of what their metal has spent and joined as they meet; a set's margin is that at which it comes to the volume of one
 * whole cell and to 2 mm³, so that no crumb on an edge, of which the calculation knows little and which nobody misses,
 * makes an alarm, and fine cells find no more than coarse ones. Cells that no metal reaches do not count.
 */
export function findThinPlaces(
  fields: Fields,
  limit = marginLimit,
): Pick<FillPlan, 'margin' | 'marginAt' | 'marginLimit' | 'thinPlaces'> {
  const { grid, share, spent } = fields;
  const order = latestFirst(castingCells(fields), spent);
  const label = new Int32Array(grid.size).fill(-1);
  const sets: Region[] = [];
  const joined: number[] = [];
  const find = (n: number): number => {
    let at = n;
    while (joined[at] !== at) {
      joined[at] = joined[joined[at]!]!;
      at = joined[at]!;
    }
    return at;
  };
  const next = new Int32Array(6);
  let least = Number.POSITIVE_INFINITY;
  let leastAt = order[0] ?? -1;
  for (const c of order) {
    // Places are whole once all under the limit are taken; if there are none, the least margin is still wanted.
    if (spent[c]! * limit <= 1 && least < Number.POSITIVE_INFINITY) break;
    let own: Region = {
      volume: share[c]! * cellVolume(grid, c),
      area: wallArea(fields, c),
      worst: c,
      spent: 0,
    };
    let at = sets.push(own) - 1;
    joined.push(at);
    label[c] = at;
    const count = neighbours(grid, c, next);
    for (let m = 0; m < count; m++) {
      const beside = label[next[m]!]!;
      const other = beside < 0 ? at : find(beside);
      if (other === at) continue;
      own = joinSets(sets[other]!, own, spent);
      sets[other] = own;
      joined[at] = other;
      at = other;
    }
    if (own.spent > 0 || own.volume < Math.max(leastVolume, cellVolume(grid, own.worst))) continue;
    own.spent = spent[c]!;
    if (least < Number.POSITIVE_INFINITY) continue;
    [least, leastAt] = [1 / spent[c]!, own.worst];
  }
  const thinPlaces = sets
    .filter((set, n) => joined[n] === n && set.spent * limit > 1)
    .map(
      ({ volume, area, worst, spent }): ThinPlace => ({
        at: cellMiddle(grid, worst),
        volume,
        margin: 1 / spent,
        thickness: area > 0 ? (2 * volume) / area : Number.POSITIVE_INFINITY,
      }),
    );
  return {
    margin: least,
    marginAt: leastAt < 0 ? [0, 0, 0] : cellMiddle(grid, leastAt),
    marginLimit: limit,
    thinPlaces: thinPlaces.sort((a, b) => a.margin - b.margin || b.volume - a.volume),
  };
}

/** Both together; what is known as a place is where the worse of them is. */
function joinSets(a: Region, b: Region, spent: Float32Array): Region {
  const first = a.spent > b.spent || (a.spent === b.spent && spent[a.worst]! >= spent[b.worst]!) ? a : b;
  return {
    volume: a.volume + b.volume,
    area: a.area + b.area,
    worst: first.worst,
    spent: first.spent,
  };
}

/** Cells of castings that metal reaches, rising. */
function castingCells(fields: Fields): Int32Array {
  const { grid, role, share, spent } = fields;
  const counts = (c: number): boolean =>
    role[c] === cellRole.casting &&
    share[c]! >= leastShare &&
    isMetal(fields, c) &&
    Number.isFinite(spent[c]!);
  let count = 0;
  for (let c = 0; c < grid.size; c++) if (counts(c)) count++;
  const cells = new Int32Array(count);
  for (let c = 0, n = 0; n < count; c++) if (counts(c)) cells[n++] = c;
  return cells;
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
