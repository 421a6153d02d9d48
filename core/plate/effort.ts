import { boundsOf } from './outline.js';
import type { Room } from './room.js';
import type { Shape } from './shapes.js';

/** How much is tried, as functions of the work alone: no clock decides, so that results can be had again. */

/** With more shapes than this hardly a map of theirs is used twice. */
const someShapes = 12;
/** With more than this they are laid straight, turned a quarter or as they fit, and full beds are asked no more. */
export const manyShapes = 40;
/** With more than this their rectangles must do, where the bed has no zones. */
export const mostShapes = 1000;

/**
 * Attempts to improve where none are asked for: 300 up to some 130 patterns, 400 with ten or fewer, less with more, as
 * each attempt then costs more, none over 3000; a third of it with more than 12 shapes, a tenth with more than 40.
 */
export const defaultRounds = (items: number, shapes: number): number => {
  if (items > 3000) return 0;
  const few = Math.min(400, 4000 / Math.max(1, items));
  const share = shapes <= someShapes ? 1 : shapes <= manyShapes ? 1 / 3 : 0.1;
  return Math.round(share * Math.max(few, Math.min(300, 40_000 / Math.max(1, items))));
};

/** Points looked at in one attempt at fewer beds: some hundredth of a second where patterns are many. */
export const pointsAttempt = (items: number): number => Math.min(1.6e6, 4e4 * items);
/** Attempts before another start is made. */
export const lastsSqueeze = 150;
/** Patterns and beds that it takes up at once, and the share of these that grown silhouettes may need. */
export const mostSqueezed = { patterns: 240, beds: 8, share: 0.88 };

/**
 * Whether an attempt, counted from those after the first orders, is at fewer beds, with at most 40 shapes: first two
 * fifths of the usual ones are not, then all, later three of four in turns.
 */
export const isSqueeze = (attempt: number, items: number, shapes: number): boolean => {
  if (shapes > manyShapes) return false;
  const usual = defaultRounds(items, shapes);
  if (attempt < usual) return attempt >= 0.4 * usual;
  return (attempt - usual) % (4 * ruinTurn) >= ruinTurn;
};
const ruinTurn = 30;

/** Orders and rules tried first. */
export const firstTries = (items: number, shapes: number): number => {
  const most = shapes <= someShapes ? 12 : shapes <= manyShapes ? 4 : 1;
  return Math.min(most, items <= 150 ? 12 : items <= 400 ? 4 : items <= 1500 ? 2 : 1);
};

/**
 * Attempts at filling each bed, fewer where many patterns go on one, and how often all beds are filled so: thrice with
 * many copies, whose beds come again and so carry a bad choice far. None with very many shapes, or many of these.
 */
export function bedTries(items: number, shapes: number, perBed: number): { tries: number; runs: number } {
  const most = shapes <= someShapes ? 60 : shapes <= manyShapes || (shapes <= 150 && items <= 400) ? 20 : 0;
  const tries = Math.ceil(Math.min(most, 3 * items, 2500 / Math.max(1, perBed)));
  return { tries, runs: tries === 0 ? 0 : items > 200 && shapes <= someShapes ? 3 : 1 };
}

/** Turns a shape is looked at, evenly spread: 12 where shapes are few. */
export const countTurns = (shapes: number, items: number): number =>
  shapes > manyShapes ? 1 : items > 2000 ? 4 : shapes <= 3 ? 12 : shapes <= someShapes ? 8 : 4;

/** Cells along the longer side of the bed: enough for it, more where patterns are small on it. */
function cellsAlong(shapes: readonly Shape[], side: number, items: number): number {
  const sizes = shapes.map(({ hull }) => {
    const { minX, minY, maxX, maxY } = boundsOf([hull]);
    return Math.sqrt((maxX - minX) * (maxY - minY));
  });
  const mean = sizes.reduce((a, b) => a + b, 0) / sizes.length;
  const isLittle = items <= 2000 && shapes.length <= manyShapes;
  const [least, most, across] = isLittle ? [210, 640, 30] : [160, 420, 20];
  return Math.max(least, Math.min(most, (across * side) / mean));
}

/** Mask cells along a bed's cell. With many shapes few no-fit maps are used again, and coarser ones must do. */
const finerFor = (shapes: number): number => (shapes <= someShapes ? 2 : 1);

/**
 * The side of a cell, mm, and how many mask cells go along it: the bed in some hundred cells; where all corners and the
 * gap lie on a common lattice, as in boxes of whole millimetres, one of its fractions.
 */
export function chooseGrid(
  shapes: readonly Shape[],
  room: Room,
  items: number,
): { cell: number; fine: number } {
  const side = Math.max(room.width, room.depth) - 2 * room.margin;
  const wanted = side / cellsAlong(shapes, side, items);
  const step = latticeOf(shapes, room);
  // A coarser lattice that is exact beats a finer one that is not.
  if (step === null || step < wanted) return { cell: wanted, fine: finerFor(shapes.length) };
  return { cell: step / Math.ceil(step / (2.5 * wanted) - 1e-9), fine: 1 };
}

/** mm in which lengths are counted to find their common divisor. */
const unit = 1e-4;
const off = 1e-9;

/** The largest step that all corners lie on, seen from each shape's first, and the gap; null where there is none. */
function latticeOf(shapes: readonly Shape[], room: Room): number | null {
  let common = 0;
  const take = (length: number): boolean => {
    const whole = Math.round(length / unit);
    if (Math.abs(length - whole * unit) > off) return false;
    let [a, b] = [common, Math.abs(whole)];
    while (b > 0) [a, b] = [b, a % b];
    common = a;
    return true;
  };
  if (!take(room.gap) || (room.brim > 0 && !take(2 * room.brim))) return null;
  for (const { outline, foot } of shapes) {
    const [x, y] = [outline[0]?.[0] ?? 0, outline[0]?.[1] ?? 0];
    for (const path of room.brim > 0 ? [...outline, ...foot] : outline) {
      for (let i = 0; i < path.length; i += 2) {
        if (!take(path[i]! - x) || !take(path[i + 1]! - y)) return null;
      }
    }
  }
  return common === 0 ? null : common * unit;
}
