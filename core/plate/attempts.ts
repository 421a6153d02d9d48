import { areaOn, type Beds, bedArea, firstBeds, isLess, scoreOf, type Task } from './arrange.js';
import { bedByBed } from './bed-by-bed.js';
import { grownArea, grownBed, leastBeds } from './bound.js';
import {
  bedTries,
  defaultRounds,
  firstTries,
  isSqueeze,
  lastsSqueeze,
  manyShapes,
  mostShapes,
  mostSqueezed,
  pointsAttempt,
} from './effort.js';
import type { Lying } from './fill.js';
import { type Improver, ruiner } from './improve.js';
import { randomFrom } from './random.js';
import { roomArea } from './room.js';
import { bodiesOf, type Fewer, fewerBeds } from './squeeze/fewer.js';

/**
 * All that is tried, attempt by attempt: first several orders and rules, and beds filled one by one; then what the best
 * of these has is improved, and laid on fewer beds. `boxes` are the rectangles round the patterns, where they fit.
 */
export function attempts(task: Task, boxes: Beds | null, seed: number): Improver {
  const { table, items, shapeOf } = task;
  const shapes = table.shapes.length;
  const usual = defaultRounds(items.length, shapes);
  const opening = boxes !== null && shapes > mostShapes ? none() : openingOf(task, seed, () => best.length);
  let best: Beds = boxes ?? (opening.next().value as Beds);
  let bestScore = scoreOf(task, best);
  let isOpen = true;
  const improve = ruiner(task, best, seed);
  // With many shapes the bound costs more than it ends early.
  const least =
    shapes > manyShapes
      ? 1
      : leastBeds(
          table.shapes,
          items.map((i) => shapeOf[i]!),
          table.room,
        );
  const squeeze = squeezing(task, seed);
  let after = 0;
  const better = (beds: Beds): void => {
    const score = scoreOf(task, beds);
    if (!isLess(score, bestScore)) return;
    [best, bestScore] = [beds, score];
  };
  return {
    isEnough: () => !isOpen && after >= usual,
    isDone: () => !isOpen && best.length <= least,
    attempt() {
      if (isOpen) {
        const next = opening.next();
        if (next.done !== true) {
          if (next.value !== null) better(next.value);
          return;
        }
        isOpen = false;
        improve.take(best);
        if (best.length <= least) return;
      }
      const beds = isSqueeze(after++, items.length, shapes) ? squeeze(best) : undefined;
      if (beds === undefined) {
        improve.attempt();
        better(improve.best());
      } else if (beds !== null) {
        better(beds);
        improve.take(best);
      }
    },
    best: () => best,
  };
}

function* none(): Generator<Beds | null> {}

/** What is tried first: complete layouts, and null for work on one that is not yet. */
function* openingOf(task: Task, seed: number, bedsNow: () => number): Generator<Beds | null> {
  const { table, items, shapeOf } = task;
  const [count, shapes] = [items.length, table.shapes.length];
  yield* firstBeds(task, firstTries(count, shapes));
  const area = items.reduce((sum, i) => sum + areaOn(table, shapeOf[i]!), 0);
  const { tries, runs } = bedTries(count, shapes, Math.min(count, (count * roomArea(table.room)) / area));
  const random = randomFrom(seed);
  for (let i = 0; i < runs && bedsNow() > 1; i++) yield* bedByBed(task, items, tries, random);
}

/** An attempt at fewer beds than these: what came off, null while it goes on, undefined where there is no hope of it. */
function squeezing(task: Task, seed: number): (beds: Beds) => Beds | null | undefined {
  const { table, shapeOf } = task;
  const { room } = table;
  const random = randomFrom(seed + 1);
  const bodies = bodiesOf(task);
  const grown = new Map<number, number>();
  const grownOf = (shape: number): number => {
    const known = grown.get(shape) ?? grownArea(table.shapes[shape]!, room.gap);
    grown.set(shape, known);
    return known;
  };
  let now: { from: Beds; others: Beds; count: number; work: Fewer; left: number } | null = null;
  let hopeless: Beds | null = null;
  let starts = 0;
  return (beds) => {
    if (now === null || now.left === 0 || now.from !== beds) {
      if (beds === hopeless || beds.length < 2) return undefined;
      const { taken, others } = chooseBeds(task, beds, random);
      const need = taken.flat().reduce((sum, l) => sum + grownOf(shapeOf[l.item]!), 0);
      if (need > mostSqueezed.share * (taken.length - 1) * grownBed(room)) {
        // With few beds all are taken: another choice would be the same.
        if (others.length === 0) hopeless = beds;
        return undefined;
      }
      now = {
        from: beds,
        others,
        count: taken.flat().length,
        work: fewerBeds(task, taken, bodies, grownOf, starts++ % 2 === 0, random),
        left: lastsSqueeze,
      };
    }
    now.left--;
    const done = now.work.goOn(pointsAttempt(now.count));
    if (done === null) return null;
    const result = [...now.others, ...done];
    now = null;
    return result;
  };
}

/** The emptiest bed, last, and others at random, as many as are taken up at once. */
function chooseBeds(task: Task, beds: Beds, random: () => number): { taken: Beds; others: Beds } {
  const sorted = [...beds].sort((a, b) => bedArea(task, b) - bedArea(task, a));
  const last = sorted.pop()!;
  const takesAll = beds.length <= mostSqueezed.beds;
  const taken: (readonly Lying[])[] = [];
  let patterns = last.length;
  while (sorted.length > 0 && taken.length + 1 < mostSqueezed.beds) {
    const at = takesAll ? 0 : Math.floor(random() * sorted.length);
    const next = sorted[at]!;
    if (patterns + next.length > mostSqueezed.patterns) break;
    sorted.splice(at, 1);
    taken.push(next);
    patterns += next.length;
  }
  return { taken: [...taken, last], others: sorted };
}
