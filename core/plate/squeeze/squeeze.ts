import type { Room } from '../room.js';
import type { Body } from './body.js';
import { crowdOf, type Squeezed, type Standing } from './crowd.js';
import { descend } from './descend.js';
import { clearPush, stepOf } from './overlap.js';
import { type Spot, setSpot, spotAt } from './spot.js';

/** Patterns on too few beds, overlapping, that are being pushed apart. */
export interface Squeezer {
  /** Moves one pattern that overlaps, or after a round of these all at once. */
  step(): void;
  /** Points looked at so far: the measure of effort. */
  work(): number;
  /** No two are nearer than they may be, as far as the fields tell. */
  isFree(): boolean;
  places(): readonly Standing[];
  /** These two must be so much farther apart than the fields tell, mm; the same twice: from edge and zones. */
  ask(i: number, j: number, more: number): void;
}

/** Depth that does not count, mm. */
const touch = 0.04;
/** mm³ of overlap that is none. */
const nothing = 1e-6;

/** Places tried for a pattern on each bed asked, how many beds are asked, and of how many places the push is followed. */
const [tries, bedsAsked, finalists] = [20, 3, 3];
/** Steps along the push. */
const pushes = 6;
/** Evenly spread turns of the places tried. */
const turnsTried = 24;
/** Steps downhill of all at once after each round, and where that may end well. */
const [steps, lastSteps] = [30, 80];
/** mm³ of overlap in all from which an end is tried. */
const hopeful = 30;

/** How weights grow: most where the overlap is largest; those of what does not overlap fade. */
const [leastRise, mostRise, fade] = [1.2, 2, 0.95];
/** Rounds without a better one until two patterns are exchanged in the best. */
const patience = 20;

/**
 * Overlap minimisation: a pattern that overlaps is moved to the place of the least weighted overlap, out of some drawn
 * at random and what the push from there leads to; pairs that go on overlapping weigh more and more; after each round
 * all go downhill at once. Sources: J. Egeblad et al., "Fast neighborhood search for two- and three-dimensional nesting
 * problems", 2007 (guided local search); T. Imamichi et al., "An iterated local search algorithm based on nonlinear
 * programming for the irregular strip packing problem", 2009 (separation by gradients).
 */
export function squeezer(
  items: readonly Squeezed[],
  start: readonly Standing[],
  beds: number,
  room: Room,
  random: () => number,
): Squeezer {
  const n = items.length;
  const crowd = crowdOf(items, start, beds, room);
  const { on, spots, weight, push, look, lookHere, put, at: standingOf } = crowd;
  const turned = Array.from({ length: turnsTried }, (_, k) => spotAt(0, 0, (2 * Math.PI * k) / turnsTried));
  const places = (): Standing[] => items.map((_, i) => standingOf(i));

  const trial = spotAt(0, 0, 0);
  /** From a place along the push as long as that lessens the overlap. */
  const follow = (i: number, from: Standing): Standing & { readonly overlap: number } => {
    let at = from;
    setSpot(trial, at.x, at.y, at.turn);
    let overlap = look(i, trial, at.bed, Number.POSITIVE_INFINITY);
    let damping = 0.05;
    let way = { ...push };
    for (let k = 0; k < pushes && overlap > nothing; k++) {
      const [dx, dy, dt] = stepOf(way, damping);
      const next = { bed: at.bed, x: at.x + dx, y: at.y + dy, turn: at.turn + dt };
      setSpot(trial, next.x, next.y, next.turn);
      const there = look(i, trial, at.bed, overlap);
      if (there >= overlap) {
        damping *= 10;
        continue;
      }
      const gain = overlap - there;
      [at, overlap] = [next, there];
      damping = Math.max(0.01, damping / 3);
      if (gain < 0.02 * there) break;
      way = { ...push };
    }
    return { ...at, overlap };
  };

  const move = (i: number): void => {
    let best = follow(i, standingOf(i));
    const drawn: { readonly at: Standing; readonly overlap: number }[] = [];
    const first = Math.floor(random() * beds);
    for (let b = 0; b < Math.min(beds, bedsAsked) && best.overlap > nothing; b++) {
      const where = b === 0 ? standingOf(i).bed : (first + b) % beds;
      for (let k = 0; k < tries; k++) {
        const t = Math.floor(random() * turnsTried);
        trial.c = turned[t]!.c;
        trial.s = turned[t]!.s;
        const [w, h] = reachOf(items[i]!.body, trial, room);
        trial.x = w + random() * (room.width - 2 * w);
        trial.y = h + random() * (room.depth - 2 * h);
        const limit = drawn[finalists - 1]?.overlap ?? Number.POSITIVE_INFINITY;
        const overlap = look(i, trial, where, limit);
        if (overlap >= limit) continue;
        if (drawn.length === finalists) drawn.pop();
        const at = { bed: where, x: trial.x, y: trial.y, turn: (2 * Math.PI * t) / turnsTried };
        const before = drawn.findIndex((d) => d.overlap > overlap);
        drawn.splice(before < 0 ? drawn.length : before, 0, { at, overlap });
      }
    }
    for (const { at } of drawn) {
      if (best.overlap <= nothing) break;
      const next = follow(i, at);
      if (next.overlap < best.overlap) best = next;
    }
    put(i, best);
  };

  /** The patterns of a bed all at once downhill. */
  const relax = (list: readonly number[], most: number): void => {
    // A turn counts as what it moves the rim.
    const arms = list.map((i) => 0.6 * items[i]!.body.layers[0]!.radius);
    const at = Float64Array.from(
      list.flatMap((i, k) => {
        const { x, y, turn } = standingOf(i);
        return [x, y, turn * arms[k]!];
      }),
    );
    const slope = (v: Float64Array, into: Float64Array): number => {
      into.fill(0);
      let sum = 0;
      const add = (k: number, gx: number, gy: number, gt: number): void => {
        into[3 * k] = into[3 * k]! - 2 * gx;
        into[3 * k + 1] = into[3 * k + 1]! - 2 * gy;
        into[3 * k + 2] = into[3 * k + 2]! - (2 * gt) / arms[k]!;
      };
      for (let k = 0; k < list.length; k++) {
        setSpot(spots[list[k]!]!, v[3 * k]!, v[3 * k + 1]!, v[3 * k + 2]! / arms[k]!);
      }
      for (let k = 0; k < list.length; k++) {
        const i = list[k]!;
        const here = spots[i]!;
        clearPush(push);
        crowd.pushFromEdge(i, here, 1);
        sum += push.overlap;
        add(k, push.gx, push.gy, push.gt);
        for (let m = k + 1; m < list.length; m++) {
          const j = list[m]!;
          clearPush(push);
          crowd.pushFrom(i, here, j, 1);
          if (push.overlap === 0) continue;
          sum += push.overlap;
          const { gx, gy, gt } = push;
          add(k, gx, gy, gt);
          const there = spots[j]!;
          add(m, -gx, -gy, -(gt + (here.x - there.x) * gy - (here.y - there.y) * gx));
        }
      }
      return sum;
    };
    descend(at, slope, most, nothing);
    list.forEach((i, k) => {
      put(i, { bed: standingOf(i).bed, x: at[3 * k]!, y: at[3 * k + 1]!, turn: at[3 * k + 2]! / arms[k]! });
    });
  };
  const relaxAll = (most: number): void => {
    for (const list of on) if (list.some((i) => lookHere(i) > nothing)) relax(list, most);
  };

  /** The overlaps as they are, of pairs and (a pattern with itself) of edges and zones. */
  const measure = () => {
    const pairs: { readonly i: number; readonly j: number; readonly overlap: number }[] = [];
    const note = (i: number, j: number): void => {
      if (push.deepest > touch) pairs.push({ i, j, overlap: push.overlap });
      else weight[i * n + j] = weight[j * n + i] = Math.max(1, weight[i * n + j]! * fade);
    };
    for (const list of on) {
      list.forEach((i, a) => {
        clearPush(push);
        crowd.pushFromEdge(i, spots[i]!, 1);
        note(i, i);
        for (let b = a + 1; b < list.length; b++) {
          clearPush(push);
          crowd.pushFrom(i, spots[i]!, list[b]!, 1);
          note(i, list[b]!);
        }
      });
    }
    return { pairs, loss: pairs.reduce((sum, p) => sum + p.overlap, 0) };
  };

  let queue: number[] = [];
  let free = false;
  let best = { loss: Number.POSITIVE_INFINITY, places: places(), crowded: new Set<number>() };
  let idle = 0;

  const endRound = (): void => {
    crowd.isFine = false;
    relaxAll(steps);
    let now = measure();
    if (now.loss < Math.max(hopeful, 1.5 * best.loss)) {
      crowd.isFine = true;
      relaxAll(lastSteps);
      now = measure();
      crowd.isFine = false;
      free = now.pairs.length === 0;
    }
    const most = now.pairs.reduce((m, p) => Math.max(m, p.overlap), 0);
    for (const { i, j, overlap } of now.pairs) {
      weight[i * n + j] = weight[j * n + i] =
        weight[i * n + j]! * (leastRise + ((mostRise - leastRise) * overlap) / most);
    }
    if (now.loss < 0.99 * best.loss) {
      best = {
        loss: now.loss,
        places: places(),
        crowded: new Set(now.pairs.map((p) => standingOf(p.i).bed)),
      };
      idle = 0;
    } else idle++;
    queue = [...new Set(now.pairs.flatMap(({ i, j }) => [i, j]))];
    if (idle > patience && !free) shake();
    for (let i = queue.length - 1; i > 0; i--) {
      const j = Math.floor(random() * (i + 1));
      [queue[i], queue[j]] = [queue[j]!, queue[i]!];
    }
  };

  /** Back to the best: there a pattern of a bed with overlaps is exchanged for an unlike one, of another bed if it may be. */
  const shake = (): void => {
    idle = 0;
    best.places.forEach((p, i) => {
      put(i, p);
    });
    best = { ...best, loss: 1.05 * best.loss };
    weight.fill(1);
    const crowded = [...items.keys()].filter((i) => best.crowded.has(best.places[i]!.bed));
    const i = crowded[Math.floor(random() * crowded.length)] ?? 0;
    const unlike = [...items.keys()].filter((k) => items[k]!.body !== items[i]!.body);
    const apart = unlike.filter((k) => standingOf(k).bed !== standingOf(i).bed);
    const others = apart.length > 0 ? apart : unlike;
    queue = [i];
    if (others.length === 0) return;
    const j = others[Math.floor(random() * others.length)]!;
    const [a, b] = [best.places[i]!, best.places[j]!];
    put(i, { ...b, turn: a.turn });
    put(j, { ...a, turn: b.turn });
    queue.push(j);
  };

  endRound();
  return {
    step() {
      const i = queue.pop();
      if (i === undefined) endRound();
      else if (lookHere(i) > nothing) move(i);
    },
    work: () => push.work,
    isFree: () => free,
    places,
    ask(i, j, more) {
      crowd.ask(i, j, more);
      free = false;
      // What was best is so no more.
      best = { ...best, loss: Number.POSITIVE_INFINITY };
      idle = 0;
    },
  };
}

/** How far from the bed's edge a pattern's middle is to be at a turn, along x and y; half the bed at most. */
function reachOf(
  { layers }: Body,
  { c, s }: Spot,
  { margin, width, depth }: Room,
): readonly [number, number] {
  const { hull } = layers[0]!;
  let [w, h] = [0, 0];
  for (let i = 0; i < hull.length; i += 2) {
    w = Math.max(w, Math.abs(c * hull[i]! - s * hull[i + 1]!));
    h = Math.max(h, Math.abs(s * hull[i]! + c * hull[i + 1]!));
  }
  return [Math.min(w + margin, width / 2), Math.min(h + margin, depth / 2)];
}
