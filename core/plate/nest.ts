import type { PlatePlacement } from '../job/summary.js';
import type { Task } from './arrange.js';
import { attempts } from './attempts.js';
import type { NestBed, NestItem, NestOptions, NestRefusal, NestResult } from './contract.js';
import { chooseGrid, countTurns } from './effort.js';
import type { Lying } from './fill.js';
import type { Improver } from './improve.js';
import { type Place, placeAlone } from './lone.js';
import { boundsOf } from './outline.js';
import { maskOf } from './raster/mask.js';
import { packRectangles } from './rectangles.js';
import { addRefusal, refusalOf } from './refuse.js';
import { checkBed, type Room, roomArea, roomOf } from './room.js';
import { centreGroup } from './settle.js';
import { type Shape, sortShapes } from './shapes.js';
import { regionsOf, setTable, type Table } from './table.js';
import { bestFit, turnsFor } from './turns.js';

export type * from './contract.js';
export { defaultGap } from './room.js';

/**
 * Nests patterns by their silhouettes, at any turn about Z and never mirrored, on as few beds as it finds: `gap` between
 * them and `margin` to the bed's edge, brims apart, clear of the zones they must keep out of; holes are room too. After
 * a first layout `rounds` attempts a group better it (`attempts.ts`): orders and rules, beds filled one by one, some
 * taken off and laid anew, all pushed apart on one bed fewer. Each bed's patterns are brought to its middle where that
 * is free. The same input, seed and rounds give the same result on any machine.
 *
 * Not checked: that outlines do not cross themselves. `checkPlate` tells of a result whether it holds.
 *
 * @throws RangeError for a bed or an item whose sizes are not finite and positive, or that margins use up.
 */
export function nest(items: readonly NestItem[], bed: NestBed, options: NestOptions = {}): NestResult {
  const { room, shapes, of, alone, refused } = judge(items, bed);
  const seed = options.seed ?? 1;
  const groups = new Map<string | undefined, number[]>();
  items.forEach((item, i) => {
    if ('overBy' in alone[of[i]!]!) return;
    if (groups.has(item.group)) groups.get(item.group)!.push(i);
    else groups.set(item.group, [i]);
  });
  const shapeOf = (item: number): Shape => shapes[of[item]!]!;
  const aloneOf = (item: number): Place => alone[of[item]!] as Place;
  const works = [...groups.values()].map((list) =>
    startGroup(list, { shapes, of, shapeOf, aloneOf, room, seed }),
  );
  const wanted = options.rounds ?? 0;
  const isByItself = options.rounds === undefined && options.isTimeUp === undefined;
  const isUp = (): boolean =>
    isByItself ? works.every((w) => w.isDone() || w.isEnough()) : (options.isTimeUp?.() ?? true);
  let rounds = 0;
  // All groups take their attempts in step, so that one number tells what was done.
  for (; works.some((w) => !w.isDone()); rounds++) {
    if (rounds >= wanted && isUp()) break;
    for (const work of works) if (!work.isDone()) work.attempt();
  }
  const area = (bed: readonly Lying[]): number => bed.reduce((sum, l) => sum + shapeOf(l.item).area, 0);
  const beds = works.flatMap((work, i) => {
    const group = [...groups.keys()][i];
    return [...work.best()].sort((a, b) => area(b) - area(a)).map((lying) => ({ lying, group }));
  });
  const plates = beds.map(({ lying }): PlatePlacement[] => {
    const only = lying.length === 1 ? lying[0]!.item : null;
    const settled = only !== null ? [{ item: only, ...aloneOf(only) }] : centreGroup(lying, shapeOf, room);
    return [...settled]
      .sort((a, b) => a.item - b.item)
      .map(({ item, x, y, turn }) => ({ name: items[item]!.name, copy: items[item]!.copy, x, y, turn }));
  });
  const whole = roomArea(room);
  return {
    plates,
    groups: beds.map((b) => b.group),
    densities: beds.map((b) => area(b.lying) / whole),
    refused,
    seed,
    rounds,
  };
}

/** The patterns that fit on no bed, without laying the others. Throws as `nest` does. */
export const findRefused = (items: readonly NestItem[], bed: NestBed): readonly NestRefusal[] =>
  judge(items, bed).refused;

/** Each shape's place on a bed of its own, and what has none. */
function judge(items: readonly NestItem[], bed: NestBed) {
  checkBed(bed);
  const room = roomOf(bed);
  const { shapes, of } = sortShapes(items);
  for (const shape of shapes) checkItem(items[of.indexOf(shape.index)]!, shape);
  const alone = shapes.map((shape) => placeAlone(shape, room));
  const refused: NestRefusal[] = [];
  items.forEach((item, i) => {
    const place = alone[of[i]!]!;
    if ('overBy' in place) addRefusal(refused, refusalOf(item, place, room));
  });
  return { room, shapes, of, alone, refused };
}

interface Known {
  readonly shapes: readonly Shape[];
  readonly of: readonly number[];
  readonly shapeOf: (item: number) => Shape;
  readonly aloneOf: (item: number) => Place;
  readonly room: Room;
  readonly seed: number;
}

/** The patterns of one group laid by the first orders and rules, to be improved. */
function startGroup(list: readonly number[], known: Known): Improver {
  const { shapeOf, aloneOf, room, seed } = known;
  if (list.length === 1) {
    const item = list[0]!;
    const lying = {
      item,
      shape: known.of[item]!,
      ...aloneOf(item),
      laid: { id: -1, mask: noMask },
      col: 0,
      row: 0,
    };
    return { isEnough: () => true, isDone: () => true, attempt: () => {}, best: () => [[lying]] };
  }
  const shapes = [...new Set(list.map(shapeOf))];
  const count = countTurns(shapes.length, list.length);
  const indexed = shapes.map((shape, index) => ({ ...shape, index }));
  const indexOf = new Map(shapes.map((s, i) => [s.index, i]));
  const table = setTable(room, indexed, chooseGrid(shapes, room, list.length), (shape) =>
    turnsFor(shape, count, room.round ? null : bestFit(shape, room)),
  );
  const shapeIn = known.of.map((s) => indexOf.get(s) ?? -1);
  const lay = (item: number, { x, y, turn }: Place): Lying =>
    layExactly(table, item, indexed[shapeIn[item]!]!, x, y, turn);
  const alone = (item: number): Lying => lay(item, aloneOf(item));
  const task: Task = { table, items: list, shapeOf: shapeIn, alone, lay };
  const boxes = packRectangles(list, shapeOf, room)?.map((bed) => bed.map((p) => lay(p.item, p)));
  return attempts(task, boxes ?? null, seed);
}

const noMask = { w: 0, h: 0, runs: new Int32Array(), starts: new Int32Array(1), count: 0 };

/** A pattern that need not lie on the lines of the grid. */
function layExactly(table: Table, item: number, shape: Shape, x: number, y: number, turn: number): Lying {
  const { room, cell, fine, x0, y0 } = table;
  const { regions, left, front } = regionsOf(room, shape, turn);
  const col = Math.floor((x + left - x0) / cell + 1e-6);
  const row = Math.floor((y + front - y0) / cell + 1e-6);
  const mask = maskOf(regions, x0 + col * cell - x, y0 + row * cell - y, cell / fine);
  return { item, shape: shape.index, laid: table.lay(mask), col, row, x, y, turn };
}

function checkItem(item: NestItem, shape: Shape): void {
  const { minX, minY, maxX, maxY } = boundsOf(shape.outline);
  const sizes = [maxX - minX, maxY - minY, item.height];
  if (!sizes.every((s) => Number.isFinite(s) && s > 0)) {
    throw new RangeError(
      shape.outline.length === 0
        ? `${item.name} has no outline; its silhouette is wanted`
        : `${item.name} measures ${sizes.join(' × ')} mm; positive lengths are wanted`,
    );
  }
}
