import { maths } from '../maths/maths.js';
import { boundsOf, turnPaths } from './outline.js';
import { type Room, slack } from './room.js';
import type { Shape } from './shapes.js';

/** The size of a pattern at a turn, mm: what its silhouette and the brim round its foot need. */
export function sizeAt(shape: Shape, turn: number, brim: number): { width: number; depth: number } {
  const a = boundsOf(turnPaths([shape.hull], turn));
  const b = shape.footHull.length === 0 ? a : boundsOf(turnPaths([shape.footHull], turn));
  return {
    width: Math.max(a.maxX, b.maxX + brim) - Math.min(a.minX, b.minX - brim),
    depth: Math.max(a.maxY, b.maxY + brim) - Math.min(a.minY, b.minY - brim),
  };
}

export interface TurnedFit {
  readonly turn: number;
  readonly width: number;
  readonly depth: number;
  /** mm too wide and too deep for the bed; 0 where it fits. */
  readonly over: readonly [number, number];
}

/** How many turns between quarter turns are looked at before the best are refined. */
const looks = 180;

/**
 * The turn at which a pattern fits a rectangular bed best: straight if that fits, a quarter if that does, else the one
 * with the least sum of what is too wide and too deep. Between the corners of its hull a pattern's width is one arc of
 * a cosine, so that the best turn lies where an edge is along the bed, where width and depth are as much too large, or where one of them
 * just fits.
 */
export function bestFit(shape: Shape, room: Room): TurnedFit {
  const at = (turn: number): TurnedFit => {
    const { width, depth } = sizeAt(shape, turn, room.brim);
    const over = (by: number): number => (by > slack ? by : 0);
    return {
      turn,
      width,
      depth,
      over: [over(width - room.width + 2 * room.margin), over(depth - room.depth + 2 * room.margin)],
    };
  };
  const sum = ({ over }: TurnedFit): number => over[0] + over[1];
  let best = at(0);
  const quarter = at(Math.PI / 2);
  if (sum(quarter) < sum(best)) best = quarter;
  if (sum(best) === 0) return best;
  const turns: number[] = [];
  for (const hull of [shape.hull, shape.footHull]) {
    const n = hull.length;
    for (let i = 0, j = n - 2; i < n; j = i, i += 2) {
      const along = maths.atan2(hull[i + 1]! - hull[j + 1]!, hull[i]! - hull[j]!);
      for (let k = 0; k < 2; k++) turns.push((((k * Math.PI) / 2 - along) % Math.PI) + Math.PI);
    }
  }
  for (let i = 0; i < looks; i++) turns.push((i * Math.PI) / looks);
  const most = ({ width, depth }: TurnedFit): number =>
    Math.max(width - room.width + 2 * room.margin, depth - room.depth + 2 * room.margin);
  const isWider = (f: TurnedFit): boolean => f.width - room.width > f.depth - room.depth;
  const isTooWide = (f: TurnedFit): boolean => f.over[0] > 0;
  const isTooDeep = (f: TurnedFit): boolean => f.over[1] > 0;
  const sorted = [...new Set(turns.map((t) => t % Math.PI))].sort((a, b) => a - b);
  for (let i = 0; i < sorted.length; i++) {
    const here = at(sorted[i]!);
    if (sum(here) < sum(best) - slack) best = here;
    // Where one of these changes on the way to the next turn, its border is found by halving.
    const next = sorted[(i + 1) % sorted.length]! + (i + 1 === sorted.length ? Math.PI : 0);
    for (const holds of [isWider, isTooWide, isTooDeep]) {
      let low = sorted[i]!;
      let high = next;
      const first = holds(here);
      if (holds(at(high)) === first) continue;
      for (let k = 0; k < 50; k++) {
        const middle = (low + high) / 2;
        if (holds(at(middle)) === first) low = middle;
        else high = middle;
      }
      for (const end of [at(low), at(high)]) {
        const gain = sum(best) - sum(end);
        if (gain > slack || (gain === 0 && most(end) < most(best) - slack)) best = end;
      }
    }
  }
  return best;
}

/**
 * The turns to try, radians: `count` evenly spread from straight, the ones that lay the longest hull edge along the
 * bed, and the one at which it fits where straight and a quarter do not.
 */
export function turnsFor(shape: Shape, count: number, fit: TurnedFit | null): readonly number[] {
  const turns: number[] = [];
  for (let k = 0; k < count; k++) turns.push((2 * Math.PI * k) / count);
  const n = shape.hull.length;
  const edges: { length: number; along: number }[] = [];
  for (let i = 0, j = n - 2; i < n; j = i, i += 2) {
    const [dx, dy] = [shape.hull[i]! - shape.hull[j]!, shape.hull[i + 1]! - shape.hull[j + 1]!];
    edges.push({ length: maths.hypot(dx, dy), along: maths.atan2(dy, dx) });
  }
  edges.sort((a, b) => b.length - a.length);
  const round = edges.reduce((s, e) => s + e.length, 0);
  const longest = edges[0];
  if (count > 1 && longest !== undefined && longest.length > round / 8) {
    for (let k = 0; k < 4; k++) turns.push((k * Math.PI) / 2 - longest.along);
  }
  if (count === 1) turns.push(Math.PI / 2);
  if (fit !== null && fit.turn !== 0) turns.push(fit.turn, fit.turn + Math.PI);
  const whole = 2 * Math.PI;
  const kept: number[] = [];
  for (const t of turns) {
    const turn = t - whole * Math.floor(t / whole + 1e-9);
    const clean = Math.abs(turn) < 1e-9 ? 0 : turn;
    if (!kept.some((k) => Math.abs(k - clean) < 1e-6)) kept.push(clean);
  }
  return kept;
}
