import type { Beds, Task } from '../arrange.js';
import type { Lying } from '../fill.js';
import { zonesFor } from '../room.js';
import { turnOf } from '../turn.js';
import { type Body, bodyOf, zoneBody } from './body.js';
import type { Standing } from './crowd.js';
import { shortfalls } from './shortfalls.js';
import { squeezer } from './squeeze.js';

/** An attempt at laying what lies on some beds on one fewer. */
export interface Fewer {
  /** Goes on for `points` points looked at; the beds once it has come off. */
  goOn(points: number): Beds | null;
}

/** The bodies of shapes, made as they are asked for. */
export type Bodies = (shape: number) => Body;

export function bodiesOf({ table }: Task): Bodies {
  const known = new Map<number, Body>();
  return (shape) => {
    const body = known.get(shape) ?? bodyOf(table.shapes[shape]!, table.room);
    known.set(shape, body);
    return body;
  };
}

/** mm more than what is missed by the true outlines. */
const more = 0.01;

/**
 * The patterns of the last of the beds go anywhere on the others, or all are dealt out evenly anew; what overlaps is
 * pushed apart.
 */
export function fewerBeds(
  task: Task,
  beds: Beds,
  bodies: Bodies,
  grownOf: (shape: number) => number,
  isDealt: boolean,
  random: () => number,
): Fewer {
  const { table, shapeOf, lay } = task;
  const { room } = table;
  const lying = beds.flat();
  const count = beds.length - 1;
  const middleOf = ({ shape, x, y, turn }: Lying): readonly [number, number] => {
    const [c, s] = turnOf(turn);
    const [mx, my] = bodies(shape).middle;
    return [x + c * mx - s * my, y + s * mx + c * my];
  };
  const areas = lying.map(({ shape }) => grownOf(shape));
  const dealt = deal(areas, count);
  const start = beds.flatMap((bed, b) =>
    bed.map((l): Standing => {
      const [x, y] = middleOf(l);
      return { bed: b, x, y, turn: l.turn };
    }),
  );
  start.forEach((at, i) => {
    if (!isDealt && at.bed < count) return;
    start[i] = {
      bed: isDealt ? dealt[i]! : Math.floor(random() * count),
      x: room.width * (0.2 + 0.6 * random()),
      y: room.depth * (0.2 + 0.6 * random()),
      turn: at.turn,
    };
  });
  const zones = new Map(room.keepOuts.map((zone) => [zone, zoneBody(zone, room)]));
  const squeezed = lying.map(({ shape }) => ({
    body: bodies(shape),
    zones: zonesFor(room, table.shapes[shape]!.height).map((zone) => zones.get(zone)!),
  }));
  const work = squeezer(squeezed, start, count, room, random);
  const placeOf = (i: number, { x, y, turn }: Standing) => {
    const whole = 2 * Math.PI;
    const within = turn - whole * Math.floor(turn / whole);
    const [c, s] = turnOf(within);
    const [mx, my] = bodies(lying[i]!.shape).middle;
    return { x: x - c * mx + s * my, y: y - s * mx - c * my, turn: within };
  };
  /** The beds, if true outlines hold what the fields promise; else what they miss is asked for. */
  const finish = (): Beds | null => {
    const places = work.places();
    let holds = true;
    const on = Array.from({ length: count }, (_, b) =>
      [...places.keys()].filter((i) => places[i]!.bed === b),
    );
    for (const list of on) {
      const bed = list.map((i) => ({
        shape: table.shapes[shapeOf[lying[i]!.item]!]!,
        ...placeOf(i, places[i]!),
      }));
      for (const { a, b, by } of shortfalls(bed, room)) {
        work.ask(list[a]!, list[b]!, by + more);
        holds = false;
      }
    }
    return holds ? on.map((list) => list.map((i) => lay(lying[i]!.item, placeOf(i, places[i]!)))) : null;
  };
  return {
    goOn(points) {
      const end = work.work() + points;
      while (work.work() < end) {
        if (work.isFree()) {
          const done = finish();
          if (done !== null) return done;
        }
        work.step();
      }
      return null;
    },
  };
}

/** To each the bed it goes on: the largest first, on the bed with the least so far. */
function deal(areas: readonly number[], count: number): readonly number[] {
  const loads = new Array<number>(count).fill(0);
  const dealt = new Array<number>(areas.length).fill(0);
  for (const i of [...areas.keys()].sort((a, b) => areas[b]! - areas[a]! || a - b)) {
    let least = 0;
    for (let b = 1; b < count; b++) if (loads[b]! < loads[least]!) least = b;
    loads[least] = loads[least]! + areas[i]!;
    dealt[i] = least;
  }
  return dealt;
}
