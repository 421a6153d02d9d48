import { type Beds, bedArea, isLess, scoreOf, type Task } from './arrange.js';
import { bedWith, emptyBed, type Filling, type Lying, layOn, type Rule } from './fill.js';
import { randomFrom } from './random.js';
import { pick, ruin, shakes, someTurns, ways } from './shake.js';

/** Something that gets better attempt by attempt. */
export interface Improver {
  /** As much has been tried as is where no number is asked for. */
  isEnough(): boolean;
  /** Nothing more can be gained. */
  isDone(): boolean;
  attempt(): void;
  best(): Beds;
}

/** An improver that goes on from other beds when told. */
export interface Ruiner {
  attempt(): void;
  best(): Beds;
  /** These are better. */
  take(beds: Beds): void;
}

/**
 * Ruin and recreate: an attempt takes the emptiest bed and all or some of another, and fills that other anew in a
 * shaken order by a rule out of the hat; what it no longer holds goes to the emptiest. The more lies on fewer beds the
 * better. Source: G. Schrimpf et al., "Record breaking optimization results using the ruin and recreate principle", 2000.
 */
export function ruiner(task: Task, start: Beds, seed: number): Ruiner {
  const random = randomFrom(seed);
  const { table } = task;
  let beds: Filling[] = start.map(bedWith);
  let areas = beds.map((b) => bedArea(task, b.lying));
  let best: Beds = start;
  let bestScore = scoreOf(task, start);
  // The mean pattern sets how much worse an attempt may be and still be kept.
  const mean = areas.reduce((a, b) => a + b, 0) / Math.max(1, task.items.length);

  const attempt = (): void => {
    let last = 0;
    areas.forEach((a, i) => {
      if (a < areas[last]!) last = i;
    });
    if (random() < 0.15) last = Math.floor(random() * beds.length);
    let other = Math.floor(random() * (beds.length - 1));
    if (other >= last) other++;
    const { kept, taken } = ruin(beds[other]!.lying, random, table, 0.35);
    const shake = pick(shakes, random);
    const loose = [...taken, ...beds[last]!.lying]
      .map((l) => ({ l, key: l.laid.mask.count * (1 + shake * (random() - 0.5)) }))
      .sort((a, b) => b.key - a.key || a.l.item - b.l.item)
      .map(({ l }) => l);
    const rule = pick(ways, random);
    const next = bedWith(kept);
    const left: Lying[] = [];
    const missed = new Set<number>();
    for (const l of loose) {
      if (missed.has(l.shape)) {
        left.push(l);
        continue;
      }
      const turned = someTurns(table.turned[l.shape]!, random);
      if (!layOn(table, next, l.item, l.shape, turned, rule)) {
        left.push(l);
        missed.add(l.shape);
      }
    }
    const gained = bedArea(task, next.lying) - areas[other]!;
    const emptier = areas[other]! >= areas[last]! ? gained : -Math.abs(gained);
    if (emptier < -mean * 0.3 * random()) return;
    const rest = layRest(task, left, beds, [last, other]);
    if (rest === null) return;
    for (const [i, bed] of rest.others) {
      beds[i] = bed;
      areas[i] = bedArea(task, bed.lying);
    }
    // Many beds are seldom met again: their maps are reckoned anew rather than kept.
    if (beds.length > mostAsked) next.maps.clear();
    beds[other] = next;
    areas[other] = bedArea(task, next.lying);
    beds[last] = rest.last;
    areas[last] = bedArea(task, rest.last.lying);
    if (rest.last.lying.length === 0) {
      beds = beds.filter((_, i) => i !== last);
      areas.splice(last, 1);
    }
    const now = beds.map((b) => b.lying);
    const score = scoreOf(task, now);
    if (isLess(score, bestScore)) {
      best = now.map((l) => [...l]);
      bestScore = score;
    }
  };
  return {
    attempt,
    best: () => best,
    take(better) {
      beds = better.map(bedWith);
      areas = beds.map((b) => bedArea(task, b.lying));
      best = better;
      bestScore = scoreOf(task, better);
    },
  };
}

/** Along the front edge, larger first. */
const rest: Rule = { along: 0.02, up: 1, at: 1 };
/** With more beds than this the others are not asked. */
const mostAsked = 12;

/** What is left over: on the other beds where they have room, else on the last; null where that does not hold it. */
function layRest(
  task: Task,
  left: readonly Lying[],
  beds: readonly Filling[],
  not: readonly number[],
): { last: Filling; others: ReadonlyMap<number, Filling> } | null {
  const { table } = task;
  const others = new Map<number, Filling>();
  const last = emptyBed();
  for (const { item, shape } of left) {
    const turned = table.turned[shape]!;
    let isLaid = false;
    for (let i = 0; i < beds.length && beds.length <= mostAsked && !isLaid; i++) {
      if (not.includes(i)) continue;
      const bed = others.get(i) ?? beds[i]!;
      if (bed.full.has(shape)) continue;
      // A copy, so that an attempt that fails leaves no trace.
      const copy = bed === beds[i] ? bedWith(bed.lying) : bed;
      if (layOn(table, copy, item, shape, turned, rest)) {
        others.set(i, copy);
        isLaid = true;
      } else bed.full.add(shape);
    }
    if (!isLaid && !layOn(table, last, item, shape, turned, rest)) {
      if (last.lying.length > 0) return null;
      last.lying.push(task.alone(item));
    }
  }
  return { last, others };
}
