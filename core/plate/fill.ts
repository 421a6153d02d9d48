import { type BitMap, firstFree, lastFree, orMoved } from './raster/bits.js';
import type { Laid, Table, Turned } from './table.js';

/** A pattern on a bed. */
export interface Lying {
  /** Its place among the items. */
  readonly item: number;
  readonly shape: number;
  readonly laid: Laid;
  /** The cell of its mask's first cell. */
  readonly col: number;
  readonly row: number;
  /** Where its origin is, mm, and its turn. */
  readonly x: number;
  readonly y: number;
  readonly turn: number;
}

/** A bed being filled. */
export interface Filling {
  readonly lying: Lying[];
  /** Where each turned shape may not go, as far as reckoned: with the first `upTo` patterns. */
  readonly maps: Map<number, { readonly map: BitMap; upTo: number }>;
  /** Shapes for which there is no room left. */
  readonly full: Set<number>;
}

/** Which place is best: the least of `x · along + y · up`, at the pattern's far edge (1) or middle (0.5). */
export interface Rule {
  readonly along: number;
  readonly up: number;
  readonly at: number;
}

/** Along an edge, or out of a corner. */
export const rules: readonly Rule[] = [
  { along: 0.02, up: 1, at: 1 },
  { along: 1, up: 0.02, at: 1 },
  { along: 0.02, up: 1, at: 0.5 },
  { along: 1, up: 0.02, at: 0.5 },
  { along: 1, up: 0.7, at: 0.5 },
  { along: 0.3, up: 1, at: 1 },
];

export const emptyBed = (): Filling => ({ lying: [], maps: new Map(), full: new Set() });

export function bedWith(lying: readonly Lying[]): Filling {
  return { lying: [...lying], maps: new Map(), full: new Set() };
}

function barredOn(table: Table, bed: Filling, moving: Turned): BitMap {
  let known = bed.maps.get(moving.index);
  if (known === undefined) {
    known = { map: { ...moving.barred, words: moving.barred.words.slice() }, upTo: 0 };
    bed.maps.set(moving.index, known);
  }
  for (; known.upTo < bed.lying.length; known.upTo++) {
    const there = bed.lying[known.upTo]!;
    const { map, left, front } = table.noFit(there.laid, moving);
    orMoved(known.map, map, there.col - left, there.row - front);
  }
  return known.map;
}

/**
 * Lays an item of a shape on the bed where the rule is best served, at one of the turns; false where it has no room.
 */
export function layOn(
  table: Table,
  bed: Filling,
  item: number,
  shape: number,
  turned: readonly Turned[],
  rule: Rule,
): boolean {
  if (bed.full.has(shape)) return false;
  let best = Number.POSITIVE_INFINITY;
  let [col, row] = [-1, -1];
  let chosen: Turned | null = null;
  for (const moving of turned) {
    const found = bestCell(barredOn(table, bed, moving), moving, rule, best);
    if (found === null) continue;
    [best, col, row] = found;
    chosen = moving;
  }
  if (chosen === null) {
    // All turns of the shape were tried, or only some of them.
    if (turned === table.turned[shape]) bed.full.add(shape);
    return false;
  }
  bed.lying.push(lyingAt(table, item, chosen, col, row));
  return true;
}

export const lyingAt = (table: Table, item: number, turned: Turned, col: number, row: number): Lying => ({
  item,
  shape: turned.shape.index,
  laid: { id: turned.index, mask: turned.mask },
  col,
  row,
  x: table.x0 + col * table.cell - turned.left,
  y: table.y0 + row * table.cell - turned.front,
  turn: turned.turn,
});

/** The free cell with the least score under `best`. */
function bestCell(
  barred: BitMap,
  { w, h }: Turned,
  { along, up, at }: Rule,
  best: number,
): readonly [number, number, number] | null {
  const offX = along * (along > 0 ? at * w : (1 - at) * w);
  const offY = up * (up > 0 ? at * h : (1 - at) * h);
  const { rows, cols } = barred;
  // No cell of a row scores less than this much above the row's own part.
  const least = offX + (along > 0 ? 0 : along * (cols - 1));
  let found: readonly [number, number, number] | null = null;
  for (let k = 0; k < rows; k++) {
    const row = up > 0 ? k : rows - 1 - k;
    const part = up * row + offY;
    if (part + least >= best) break;
    const col = along > 0 ? firstFree(barred, row) : lastFree(barred, row);
    if (col < 0) continue;
    const score = along * col + offX + part;
    if (score < best) {
      best = score;
      found = [score, col, row];
    }
  }
  return found;
}
