import type { Place } from './lone.js';
import { type FitRule, findPlace, fitRules, type Rect, startFree, takeOut } from './max-rects.js';
import { boundsOf } from './outline.js';
import type { Room } from './room.js';
import type { Shape } from './shapes.js';

/** An item as a rectangle, its gap on the right and rear side. */
interface Block {
  readonly item: number;
  readonly w: number;
  readonly h: number;
}
interface Laid extends Rect {
  readonly item: number;
  readonly turned: boolean;
}

type Order = (a: Block, b: Block) => number;
const longSide = (b: Block): number => Math.max(b.w, b.h);
const shortSide = (b: Block): number => Math.min(b.w, b.h);
/** Largest first by each measure; ties keep the order they came in (sort is stable). */
const orders: readonly Order[] = [
  (a, b) => b.w * b.h - a.w * a.h || longSide(b) - longSide(a),
  (a, b) => longSide(b) - longSide(a) || shortSide(b) - shortSide(a),
  (a, b) => shortSide(b) - shortSide(a) || longSide(b) - longSide(a),
  (a, b) => b.w + b.h - (a.w + a.h) || longSide(b) - longSide(a),
];
/** Above this many patterns one order and one rule must do. */
const manyItems = 400;

/** What a straight pattern takes: its silhouette and the brim round its foot. */
export function boxAlone(shape: Shape, brim: number) {
  const a = boundsOf(shape.outline);
  const b = boundsOf(shape.foot);
  return {
    minX: Math.min(a.minX, b.minX - brim),
    minY: Math.min(a.minY, b.minY - brim),
    maxX: Math.max(a.maxX, b.maxX + brim),
    maxY: Math.max(a.maxY, b.maxY + brim),
  };
}

/**
 * Patterns packed as their rectangles, straight or turned a quarter, by several orders and rules: what any other
 * arrangement must better. null where the bed is no plain rectangle, or a pattern needs another turn.
 */
export function packRectangles(
  items: readonly number[],
  shapeOf: (item: number) => Shape,
  room: Room,
): readonly (readonly (Place & { readonly item: number })[])[] | null {
  if (room.round || room.keepOuts.length > 0) return null;
  const { gap, margin, brim } = room;
  const [width, depth] = [room.width - 2 * margin + gap, room.depth - 2 * margin + gap];
  const blocks = items.map((item) => {
    const box = boxAlone(shapeOf(item), brim);
    return { item, w: box.maxX - box.minX + gap, h: box.maxY - box.minY + gap };
  });
  const fits = (w: number, h: number): boolean => w <= width + 1e-7 && h <= depth + 1e-7;
  if (!blocks.every(({ w, h }) => fits(w, h) || fits(h, w))) return null;
  const beds = packBest(blocks, width, depth);
  return beds.map((bed) =>
    bed.map((p) => {
      const shape = shapeOf(p.item);
      const turn = p.turned ? Math.PI / 2 : 0;
      const { minX, minY, maxY } = boxAlone(shape, brim);
      // A quarter turn takes (x, y) to (−y, x): the box then runs from −maxY in x and from minX in y.
      const [x, y] = p.turned ? [-maxY, minX] : [minX, minY];
      return { item: p.item, x: margin + p.x - x, y: margin + p.y - y, turn };
    }),
  );
}

function packBest(blocks: readonly Block[], width: number, depth: number): readonly (readonly Laid[])[] {
  const many = blocks.length > manyItems;
  let best: readonly Laid[][] | null = null;
  let bestScore: readonly number[] = [];
  for (const order of many ? orders.slice(0, 1) : orders) {
    const sorted = [...blocks].sort(order);
    for (const rule of many ? fitRules.slice(0, 1) : fitRules) {
      const beds = pack(sorted, width, depth, rule);
      const score = [beds.length, Math.min(...beds.map(usedArea))];
      if (
        best === null ||
        score[0]! < bestScore[0]! ||
        (score[0] === bestScore[0] && score[1]! < bestScore[1]!)
      ) {
        [best, bestScore] = [beds, score];
      }
    }
  }
  return best ?? [];
}

function pack(sorted: readonly Block[], width: number, depth: number, rule: FitRule): Laid[][] {
  const beds: { free: readonly Rect[]; laid: Laid[]; readonly full: Set<string> }[] = [];
  for (const block of sorted) {
    const size = `${block.w} ${block.h}`;
    let bed: (typeof beds)[number] | undefined;
    let place: ReturnType<typeof findPlace> = null;
    for (const b of beds) {
      if (b.full.has(size)) continue;
      place = findPlace(b.free, block.w, block.h, rule);
      bed = b;
      if (place !== null) break;
      b.full.add(size);
    }
    if (bed === undefined || place === null) {
      bed = { free: startFree(width, depth), laid: [], full: new Set() };
      beds.push(bed);
      place = findPlace(bed.free, block.w, block.h, rule);
    }
    if (place === null)
      throw new Error(`no room for ${block.w} × ${block.h} on an empty ${width} × ${depth} bed`);
    const { x, y, w, h, turned } = place;
    bed.laid.push({ x, y, w, h, turned, item: block.item });
    bed.free = takeOut(bed.free, place);
  }
  return beds.map((b) => b.laid);
}

const usedArea = (laid: readonly Laid[]): number => laid.reduce((sum, p) => sum + p.w * p.h, 0);
