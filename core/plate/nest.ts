import type { PlatePlacement } from '../job/summary.js';
import type { Vec2 } from '../solid/types.js';
import type { NestBed, NestItem, NestOptions, NestRefusal, NestResult } from './contract.js';
import { type FitRule, findPlace, fitRules, type Rect, startFree, takeOut } from './max-rects.js';

export type * from './contract.js';

export const defaultGap = 3;

/** Rounding slack in mm: far below what a printer resolves, far above what float64 loses. */
const slack = 1e-7;

/**
 * Nests pattern footprints, as rectangles straight or turned a quarter, on as many beds as they need. They
 * never overlap, keep `gap` to each other and `margin` to the bed's edges; each bed's group is centred.
 * Several orders and fit rules are tried and the result with the fewest beds, then the emptiest last one, is
 * kept. The same input gives the same result. Not checked: whether shapes could interlock closer than boxes.
 *
 * @throws RangeError for a bed or an item whose sizes are not finite and positive, or that margins use up.
 */
export function nest(given: readonly NestItem[], bed: NestBed, options: NestOptions = {}): NestResult {
  const items = given.map((item) => ({ ...item, footprint: boxOf(item) }));
  const gap = bed.gap ?? defaultGap;
  checkBed(bed, gap);
  for (const item of items) checkItem(item);
  const room = { width: bed.width - 2 * bed.margin, depth: bed.depth - 2 * bed.margin };
  const refused: NestRefusal[] = [];
  const boxes: NestBox[] = [];
  items.forEach((item, index) => {
    const w = item.footprint.max[0] - item.footprint.min[0];
    const h = item.footprint.max[1] - item.footprint.min[1];
    const refusal = refuse(item, w, h, room, bed.height);
    if (refusal === null) boxes.push({ index, w: w + gap, h: h + gap });
    else addRefusal(refused, refusal);
  });
  // Every rectangle carries its gap on its right and rear side; the bed is a gap larger there.
  const beds = packBest(boxes, room.width + gap, room.depth + gap);
  const plates = beds.map((placed) => placeOnBed(placed, items, bed, gap));
  return {
    plates,
    groups: plates.map(() => undefined),
    densities: plates.map(() => 0),
    refused,
    seed: options.seed ?? 1,
    rounds: 0,
  };
}

type BoxedItem = NestItem & { readonly footprint: { readonly min: Vec2; readonly max: Vec2 } };
function boxOf({ outline }: NestItem): BoxedItem['footprint'] {
  const xs = outline.flatMap((p) => p.map((v) => v[0]));
  const ys = outline.flatMap((p) => p.map((v) => v[1]));
  return { min: [Math.min(...xs), Math.min(...ys)], max: [Math.max(...xs), Math.max(...ys)] };
}

interface NestBox {
  readonly index: number;
  readonly w: number;
  readonly h: number;
}
interface PlacedBox extends Rect {
  readonly index: number;
  readonly turned: boolean;
}

function placeOnBed(
  placed: readonly PlacedBox[],
  items: readonly BoxedItem[],
  bed: NestBed,
  gap: number,
): PlatePlacement[] {
  const right = Math.max(...placed.map((p) => p.x + p.w)) - gap;
  const rear = Math.max(...placed.map((p) => p.y + p.h)) - gap;
  const left = (bed.width - right) / 2;
  const front = (bed.depth - rear) / 2;
  return [...placed]
    .sort((a, b) => a.index - b.index)
    .map((p) => {
      const item = items[p.index]!;
      const { min, max } = item.footprint;
      // A quarter turn takes (x, y) to (−y, x): the box then runs from −max.y in x and from min.x in y.
      const corner: Vec2 = p.turned ? [-max[1], min[0]] : [min[0], min[1]];
      return {
        name: item.name,
        copy: item.copy,
        x: left + p.x - corner[0],
        y: front + p.y - corner[1],
        turn: p.turned ? Math.PI / 2 : 0,
      };
    });
}

type Order = (a: NestBox, b: NestBox) => number;
const longSide = (b: NestBox): number => Math.max(b.w, b.h);
const shortSide = (b: NestBox): number => Math.min(b.w, b.h);
/** Largest first by each measure; ties keep the order they came in (sort is stable). */
const orders: readonly Order[] = [
  (a, b) => b.w * b.h - a.w * a.h || longSide(b) - longSide(a),
  (a, b) => longSide(b) - longSide(a) || shortSide(b) - shortSide(a),
  (a, b) => shortSide(b) - shortSide(a) || longSide(b) - longSide(a),
  (a, b) => b.w + b.h - (a.w + a.h) || longSide(b) - longSide(a),
];
/** Above this many patterns one order and one rule must do: the gain of trying more is small, the time is not. */
const manyItems = 400;

function packBest(boxes: readonly NestBox[], width: number, depth: number): readonly PlacedBox[][] {
  if (boxes.length === 0) return [];
  const many = boxes.length > manyItems;
  let best: PlacedBox[][] | null = null;
  let bestScore: readonly number[] = [];
  for (const order of many ? orders.slice(0, 1) : orders) {
    const sorted = [...boxes].sort(order);
    for (const rule of many ? fitRules.slice(0, 1) : fitRules) {
      const beds = pack(sorted, width, depth, rule);
      beds.sort((a, b) => usedArea(b) - usedArea(a));
      const score = [beds.length, usedArea(beds.at(-1)!), extent(beds.at(-1)!)];
      if (best === null || isLess(score, bestScore)) {
        best = beds;
        bestScore = score;
      }
    }
  }
  return best ?? [];
}

function pack(sorted: readonly NestBox[], width: number, depth: number, rule: FitRule): PlacedBox[][] {
  const beds: { free: readonly Rect[]; placed: PlacedBox[] }[] = [];
  for (const box of sorted) {
    let bed = beds.find((b) => findPlace(b.free, box.w, box.h, rule) !== null);
    if (bed === undefined) {
      bed = { free: startFree(width, depth), placed: [] };
      beds.push(bed);
    }
    const place = findPlace(bed.free, box.w, box.h, rule);
    if (place === null)
      throw new Error(`no room for ${box.w} × ${box.h} on an empty ${width} × ${depth} bed`);
    const { x, y, w, h, turned } = place;
    bed.placed.push({ x, y, w, h, turned, index: box.index });
    bed.free = takeOut(bed.free, place);
  }
  return beds.map((b) => b.placed);
}

const usedArea = (placed: readonly PlacedBox[]): number => placed.reduce((sum, p) => sum + p.w * p.h, 0);
const extent = (placed: readonly PlacedBox[]): number =>
  Math.max(...placed.map((p) => p.x + p.w)) * Math.max(...placed.map((p) => p.y + p.h));
const isLess = (a: readonly number[], b: readonly number[]): boolean => {
  const i = a.findIndex((v, k) => Math.abs(v - b[k]!) > 1e-9);
  return i >= 0 && a[i]! < b[i]!;
};

function refuse(
  item: BoxedItem,
  w: number,
  h: number,
  room: { width: number; depth: number },
  height: number,
): NestRefusal | null {
  const over = (width: number, depth: number) => ({
    width: atLeastZero(width - room.width),
    depth: atLeastZero(depth - room.depth),
    height: atLeastZero(item.height - height),
  });
  const straight = over(w, h);
  const turned = over(h, w);
  const overBy = turned.width + turned.depth < straight.width + straight.depth ? turned : straight;
  if (overBy.width + overBy.depth + overBy.height === 0) return null;
  const parts = (['width', 'depth', 'height'] as const)
    .filter((side) => overBy[side] > 0)
    .map((side) => `${formatOver(overBy[side])} mm too ${sideWords[side]}`);
  const reason =
    `${item.name} needs ${formatSize(w)} × ${formatSize(h)} × ${formatSize(item.height)} mm, the bed has ` +
    `${formatSize(room.width)} × ${formatSize(room.depth)} × ${formatSize(height)} mm inside its margins: ` +
    `${parts.join(' and ')}${overBy === turned ? ', turned a quarter' : ''}.`;
  return { name: item.name, copies: [item.copy], reason, overBy };
}

const sideWords = { width: 'wide', depth: 'deep', height: 'high' } as const;
const atLeastZero = (over: number): number => (over > slack ? over : 0);
const formatSize = (mm: number): string => String(Math.round(mm * 100) / 100);
/** Rounded up, so that taking off what is written is enough. */
const formatOver = (mm: number): string => String(Math.ceil(mm * 100 - 1e-6) / 100);

function addRefusal(refused: NestRefusal[], next: NestRefusal): void {
  const i = refused.findIndex((r) => r.reason === next.reason);
  const known = refused[i];
  if (known === undefined) refused.push(next);
  else refused[i] = { ...known, copies: [...known.copies, ...next.copies] };
}

function checkBed(bed: NestBed, gap: number): void {
  const sizes = { width: bed.width, depth: bed.depth, height: bed.height };
  for (const [name, value] of Object.entries(sizes)) {
    if (!(Number.isFinite(value) && value > 0)) {
      throw new RangeError(`bed ${name} is ${value} mm; a positive length is wanted`);
    }
  }
  if (!(Number.isFinite(gap) && gap >= 0)) throw new RangeError(`gap is ${gap} mm; 0 or more is wanted`);
  const most = Math.min(bed.width, bed.depth) / 2;
  if (!(bed.margin >= 0 && bed.margin < most)) {
    throw new RangeError(`bed margin is ${bed.margin} mm; from 0 to less than ${most} mm is wanted`);
  }
}

function checkItem(item: BoxedItem): void {
  const { min, max } = item.footprint;
  const sizes = [max[0] - min[0], max[1] - min[1], item.height];
  if (!sizes.every((s) => Number.isFinite(s) && s > 0)) {
    throw new RangeError(`${item.name} measures ${sizes.join(' × ')} mm; positive lengths are wanted`);
  }
}
