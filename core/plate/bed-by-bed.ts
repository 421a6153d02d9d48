import { maths } from '../maths/maths.js';
import type { Beds, Task } from './arrange.js';
import { bedWith, type Filling, type Lying, layOn } from './fill.js';
import { pick, ruin, shakes, someTurns, ways } from './shake.js';

/**
 * One bed after another, each as full as `tries` make it, and the same again as often as what is left has all that lies
 * on it: full beds first leave the fewest, and copies make equal beds. It gives null after every bed, at last all.
 */
export function* bedByBed(
  task: Task,
  items: readonly number[],
  tries: number,
  random: () => number,
): Generator<Beds | null> {
  const stock = new Map<number, number[]>();
  for (const item of [...items].reverse()) {
    const shape = task.shapeOf[item]!;
    if (stock.has(shape)) stock.get(shape)!.push(item);
    else stock.set(shape, [item]);
  }
  const beds: (readonly Lying[])[] = [];
  for (let left = items.length; left > 0; ) {
    const bed = fullestBed(task, stock, tries, random);
    if (bed.length === 0) {
      // No place on the lines of the grid suits any of them.
      const [, list] = [...stock].find(([, l]) => l.length > 0)!;
      beds.push([task.alone(list.pop()!)]);
      left--;
      continue;
    }
    const times = Math.min(
      ...[...countShapes(bed)].map(([shape, n]) => Math.floor(stock.get(shape)!.length / n)),
    );
    for (let k = 0; k < times; k++) beds.push(bed.map((l) => ({ ...l, item: stock.get(l.shape)!.pop()! })));
    left -= times * bed.length;
    yield null;
  }
  yield beds;
}

/** The worth of a pattern is its area to this power: large ones find room less easily later. */
const power = 1.2;
/** How much less worth, as a share of a bed, an arrangement may have and be worked on yet. */
const lax = 0.01;
/** The share of the tries that begin with an empty bed; the others take some patterns off and fill it again. */
const afresh = 0.25;

/** A bed filled from the stock so that the patterns on it are worth most; their items are not told. */
function fullestBed(
  { table }: Task,
  stock: ReadonlyMap<number, readonly number[]>,
  tries: number,
  random: () => number,
): readonly Lying[] {
  const whole = table.cols * table.rows * table.fine * table.fine;
  const sizes = table.turned.map((turned) => turned[0]?.mask.count ?? 0);
  const worth = sizes.map((size) => maths.pow(size / whole, power));
  let best: readonly Lying[] = [];
  let most = 0;
  let now: readonly Lying[] = [];
  let level = 0;
  for (let i = 0; i < tries; i++) {
    const kept = i < afresh * tries ? [] : ruin(now, random, table, 0.1).kept;
    const shake = pick(shakes, random);
    const there = countShapes(kept);
    const loose: { shape: number; key: number }[] = [];
    for (const [shape, items] of stock) {
      const size = sizes[shape]!;
      if (size === 0) continue;
      const bias = size * (1 + shake * (random() - 0.5));
      const n = Math.min(items.length - (there.get(shape) ?? 0), Math.ceil(whole / size));
      for (let k = 0; k < n; k++) loose.push({ shape, key: bias * (1 + (shake / 2) * (random() - 0.5)) });
    }
    loose.sort((a, b) => b.key - a.key || a.shape - b.shape);
    const rule = pick(ways, random);
    const bed: Filling = bedWith(kept);
    const missed = new Set<number>();
    for (const { shape } of loose) {
      if (missed.has(shape)) continue;
      const turned = someTurns(table.turned[shape]!, random);
      if (!layOn(table, bed, noItem, shape, turned, rule)) missed.add(shape);
    }
    const value = bed.lying.reduce((sum, l) => sum + worth[l.shape]!, 0);
    if (value >= level - lax * random()) [now, level] = [bed.lying, value];
    if (value > most) [best, most] = [bed.lying, value];
  }
  return best;
}

const noItem = -1;

function countShapes(lying: readonly Lying[]): Map<number, number> {
  const counts = new Map<number, number>();
  for (const { shape } of lying) counts.set(shape, (counts.get(shape) ?? 0) + 1);
  return counts;
}
