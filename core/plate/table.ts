import { boundsOf, type Paths, turnPaths } from './outline.js';
import { type BitMap, bitMap, orMoved, setRun } from './raster/bits.js';
import { type Mask, maskOf } from './raster/mask.js';
import { type NoFit, noFit } from './raster/no-fit.js';
import { type Room, spanOf, zonesFor } from './room.js';
import type { Shape } from './shapes.js';

/** A shape at a turn, as cells of the bed's grid. */
export interface Turned {
  /** Among all turned shapes. */
  readonly index: number;
  readonly shape: Shape;
  readonly turn: number;
  /** The silhouette grown by half the gap and the foot grown by the brim: two that share no cell keep their distance. */
  readonly mask: Mask;
  /** Its size in cells of the bed. */
  readonly w: number;
  readonly h: number;
  /** The lower left corner of the mask's first cell, from the pattern's turned origin, mm. */
  readonly left: number;
  readonly front: number;
  /** Cells where its mask's first cell may not lie on an empty bed; set from `cols` on. */
  readonly barred: BitMap;
}

/** The mask of a pattern that lies somewhere, with a number of its own. */
export interface Laid {
  readonly id: number;
  readonly mask: Mask;
}

/**
 * A bed as a grid of square cells, and what is known of the shapes on it. Outlines take all cells they touch, so that
 * what keeps apart on the grid keeps apart, by up to a cell or so more than it must.
 */
export interface Table {
  readonly room: Room;
  readonly cell: number;
  /** Cells of a mask along a cell of the bed: finer masks waste less, and cost less than a finer bed. */
  readonly fine: number;
  /** The corner of the first cell, mm. */
  readonly x0: number;
  readonly y0: number;
  readonly cols: number;
  readonly rows: number;
  /** Of each shape its turns. */
  readonly turned: readonly (readonly Turned[])[];
  readonly all: readonly Turned[];
  readonly shapes: readonly Shape[];
  noFit(lying: Laid, moving: Turned): NoFit;
  /** A mask of no turned shape: of a pattern that lies between the grid's lines. */
  lay(mask: Mask): Laid;
}

/** Words of kept no-fit maps, about 100 MB; a quarter of it where pairs of so many shapes hardly ever meet again. */
const mostWords = 24e6;
const manyShapes = 200;

export function setTable(
  room: Room,
  shapes: readonly Shape[],
  { cell, fine }: { readonly cell: number; readonly fine: number },
  turnsOf: (shape: Shape) => readonly number[],
  dropsAlike = true,
): Table {
  const edge = room.margin - Math.max(0, room.gap / 2 - room.brim);
  const span = (size: number): number => Math.floor((size - 2 * edge) / cell + 1e-6) + 1;
  const [cols, rows] = [span(room.width), span(room.depth)];
  const all: Turned[] = [];
  const grid = { room, cell, fine, x0: edge, y0: edge, cols, rows };
  const turned = shapes.map((shape) => {
    const kept: Turned[] = [];
    for (const turn of turnsOf(shape)) {
      const next = turnShape(grid, shape, turn, all.length);
      if (isFull(next.barred) || (dropsAlike && kept.some((k) => isAlike(k.mask, next.mask)))) continue;
      kept.push(next);
      all.push(next);
    }
    return kept;
  });
  const maps = new Map<number, NoFit>();
  const most = shapes.length > manyShapes ? mostWords / 4 : mostWords;
  let words = 0;
  let ids = all.length;
  return {
    ...grid,
    turned,
    all,
    shapes,
    noFit(lying, moving) {
      const key = lying.id * all.length + moving.index;
      const known = maps.get(key);
      if (known !== undefined) return known;
      const map = noFit(lying.mask, moving.mask, fine);
      words += map.map.words.length;
      if (words > most) {
        maps.clear();
        words = map.map.words.length;
      }
      maps.set(key, map);
      return map;
    },
    lay: (mask) => ({ id: ids++, mask }),
  };
}

type Grid = Pick<Table, 'room' | 'cell' | 'fine' | 'x0' | 'y0' | 'cols' | 'rows'>;

/** What a shape at a turn takes of the bed, with its corner. */
export function regionsOf(room: Room, shape: Shape, turn: number) {
  const outline = turnPaths(shape.plain.paths, turn);
  const foot = room.brim > 0 ? turnPaths(shape.plainFoot.paths, turn) : [];
  const by = room.gap / 2 + shape.plain.error;
  const byFoot = room.brim + shape.plainFoot.error;
  const a = boundsOf(outline);
  const b = boundsOf(foot);
  return {
    regions: [{ paths: outline, by }, ...(foot.length > 0 ? [{ paths: foot, by: byFoot }] : [])],
    left: Math.min(a.minX - by, b.minX - byFoot),
    front: Math.min(a.minY - by, b.minY - byFoot),
    outline,
    foot,
  };
}

function turnShape(grid: Grid, shape: Shape, turn: number, index: number): Turned {
  const { room, cell, fine } = grid;
  const { regions, left, front, outline, foot } = regionsOf(room, shape, turn);
  const mask = maskOf(regions, left, front, cell / fine);
  const barred = barOutside(grid, shape, turn, left, front);
  for (const zone of zonesFor(room, shape.height)) {
    const bare = maskOf(
      [
        { paths: outline, by: shape.plain.error },
        ...(foot.length > 0 ? [{ paths: foot, by: room.brim + shape.plainFoot.error }] : []),
      ],
      left,
      front,
      cell / fine,
    );
    const [zx, zy] =
      'diameter' in zone ? [zone.x - zone.diameter / 2, zone.y - zone.diameter / 2] : [zone.x, zone.y];
    const [col, row] = [Math.floor((zx - grid.x0) / cell), Math.floor((zy - grid.y0) / cell)];
    const region = 'diameter' in zone ? dot(zone.x, zone.y, zone.diameter / 2) : block(zone);
    const keepOut = maskOf([region], grid.x0 + col * cell, grid.y0 + row * cell, cell / fine);
    const barredBy = noFit(keepOut, bare, fine);
    orMoved(barred, barredBy.map, col - barredBy.left, row - barredBy.front);
  }
  return { index, shape, turn, mask, w: mask.w / fine, h: mask.h / fine, left, front, barred };
}

/** A point grown by its radius. */
const dot = (x: number, y: number, by: number) => ({ paths: [Float64Array.of(x, y, x, y)], by });
const block = (z: { x: number; y: number; width: number; depth: number }) => ({
  paths: [
    Float64Array.of(z.x, z.y, z.x + z.width, z.y, z.x + z.width, z.y + z.depth, z.x, z.y + z.depth),
  ] as Paths,
  by: 0,
});

function barOutside(grid: Grid, shape: Shape, turn: number, left: number, front: number): BitMap {
  const { room, cell, x0, y0, cols, rows } = grid;
  const span = spanOf(
    room,
    turnPaths([shape.hull], turn)[0]!,
    room.brim > 0 ? turnPaths([shape.footHull], turn)[0]! : new Float64Array(),
  );
  const map = bitMap(cols, rows);
  map.words.fill(0xffffffff);
  const hair = 1e-6;
  const firstRow = Math.max(0, Math.ceil((span.fromY + front - y0) / cell - hair));
  const lastRow = Math.min(rows - 1, Math.floor((span.toY + front - y0) / cell + hair));
  for (let row = firstRow; row <= lastRow; row++) {
    const [from, to] = span.at(y0 + row * cell - front);
    const first = Math.max(0, Math.ceil((from + left - x0) / cell - hair));
    const last = Math.min(cols - 1, Math.floor((to + left - x0) / cell + hair));
    const start = row * map.stride;
    map.words.fill(0, start, start + map.stride);
    if (first > last) map.words.fill(0xffffffff, start, start + map.stride);
    else {
      if (first > 0) setRun(map.words, start, 0, first - 1);
      if (last < 32 * map.stride - 1) setRun(map.words, start, last + 1, 32 * map.stride - 1);
    }
  }
  return map;
}

const isFull = ({ words }: BitMap): boolean => words.every((w) => w === 0xffffffff);

/** Cells in which two masks may differ for their turns to count as one, as a share. */
const alike = 0.02;

/** Whether two masks are nearly the same cells, corner on corner. */
function isAlike(a: Mask, b: Mask): boolean {
  if (Math.abs(a.w - b.w) > 2 || Math.abs(a.h - b.h) > 2) return false;
  const most = alike * a.count;
  let differ = 0;
  for (let r = 0; r < Math.max(a.h, b.h); r++) {
    const [a0, a1] = r < a.h ? [a.starts[r]!, a.starts[r + 1]!] : [0, 0];
    const [b0, b1] = r < b.h ? [b.starts[r]!, b.starts[r + 1]!] : [0, 0];
    let [total, both] = [0, 0];
    for (let i = a0; i < a1; i++) total += a.runs[2 * i + 1]! - a.runs[2 * i]! + 1;
    for (let j = b0; j < b1; j++) total += b.runs[2 * j + 1]! - b.runs[2 * j]! + 1;
    for (let i = a0; i < a1; i++) {
      for (let j = b0; j < b1; j++) {
        both += Math.max(
          0,
          Math.min(a.runs[2 * i + 1]!, b.runs[2 * j + 1]!) - Math.max(a.runs[2 * i]!, b.runs[2 * j]!) + 1,
        );
      }
    }
    differ += total - 2 * both;
    if (differ > most) return false;
  }
  return true;
}
