import type { Room } from '../room.js';
import type { Body } from './body.js';
import { clearPush, noPush, type Push, pushApart, pushInside } from './overlap.js';
import { type Spot, setSpot, spotAt } from './spot.js';

/** A pattern on a bed, by its middle. */
export interface Standing {
  readonly bed: number;
  readonly x: number;
  readonly y: number;
  readonly turn: number;
}

export interface Squeezed {
  readonly body: Body;
  /** Zones that it keeps out of. */
  readonly zones: readonly Body[];
}

/** Patterns on some beds, overlapping or not, and what pushes them. */
export interface Crowd {
  /** Those on each bed. */
  readonly on: readonly (readonly number[])[];
  readonly spots: readonly Spot[];
  /** Of pairs, by i n + j; of one with itself: the edge and its zones. */
  readonly weight: Float32Array;
  /** What the last look, or pushes since it was cleared, came to. */
  readonly push: Push;
  /** Whether all points are looked at, or fewer of them. */
  isFine: boolean;
  pushFromEdge(i: number, at: Spot, weight: number): void;
  /** @param j stays where it is */
  pushFrom(i: number, at: Spot, j: number, weight: number): void;
  /** The weighted overlap of i at a spot on a bed, into `push`; it may stop above `limit`. */
  look(i: number, at: Spot, where: number, limit: number): number;
  /** The same where it is. */
  lookHere(i: number): number;
  at(i: number): Standing;
  put(i: number, to: Standing): void;
  /** These two must be so much farther apart than the fields tell, mm; the same twice: from edge and zones. */
  ask(i: number, j: number, more: number): void;
}

/** How much more than they must all keep apart, mm. */
const hair = 0.06;

export function crowdOf(
  items: readonly Squeezed[],
  start: readonly Standing[],
  beds: number,
  room: Room,
): Crowd {
  const n = items.length;
  const standing = start.slice();
  const spots = start.map((s): Spot => spotAt(s.x, s.y, s.turn));
  const on: number[][] = Array.from({ length: beds }, (_, b) =>
    [...start.keys()].filter((i) => start[i]!.bed === b),
  );
  const weight = new Float32Array(n * n).fill(1);
  const extra = new Float32Array(n * n);
  const brims = room.brim > 0;
  const needs = [room.gap + hair, ...(brims ? [2 * room.brim + hair] : [])];
  const zoneNeeds = [hair, ...(brims ? [room.brim + hair] : [])];
  const wider = needs.slice();
  const widen = (by: readonly number[], more: number): readonly number[] => {
    if (more === 0) return by;
    for (let k = 0; k < by.length; k++) wider[k] = by[k]! + more;
    return wider;
  };
  const zoneSpots = items.map(({ zones }) => zones.map(({ middle: [mx, my] }) => spotAt(mx, my, 0)));
  const push = noPush();
  const crowd: Crowd = {
    on,
    spots,
    weight,
    push,
    isFine: false,
    pushFromEdge(i, at, w) {
      const { body, zones } = items[i]!;
      const more = extra[i * n + i]!;
      pushInside(push, body, at, room, hair + more, w);
      for (let k = 0; k < zones.length; k++) {
        pushApart(push, body, at, zones[k]!, zoneSpots[i]![k]!, widen(zoneNeeds, more), w, crowd.isFine);
      }
    },
    pushFrom(i, at, j, w) {
      const need = widen(needs, extra[i * n + j]!);
      pushApart(push, items[i]!.body, at, items[j]!.body, spots[j]!, need, w, crowd.isFine);
    },
    look(i, at, where, limit) {
      clearPush(push);
      crowd.pushFromEdge(i, at, weight[i * n + i]!);
      for (const j of on[where]!) {
        if (push.overlap > limit) break;
        if (j !== i) crowd.pushFrom(i, at, j, weight[i * n + j]!);
      }
      return push.overlap;
    },
    lookHere: (i) => crowd.look(i, spots[i]!, standing[i]!.bed, Number.POSITIVE_INFINITY),
    at: (i) => standing[i]!,
    put(i, { bed, x, y, turn }) {
      const before = standing[i]!.bed;
      if (before !== bed) {
        on[before] = on[before]!.filter((k) => k !== i);
        on[bed]!.push(i);
      }
      standing[i] = { bed, x, y, turn };
      setSpot(spots[i]!, x, y, turn);
    },
    ask(i, j, more) {
      extra[i * n + j] = extra[j * n + i] = extra[i * n + j]! + more;
    },
  };
  return crowd;
}
