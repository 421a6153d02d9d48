import { manyShapes } from './effort.js';
import { emptyBed, type Filling, type Lying, layOn, type Rule, rules } from './fill.js';
import type { Place } from './lone.js';
import type { Table, Turned } from './table.js';

/** Beds with what lies on them. */
export type Beds = readonly (readonly Lying[])[];

/** What the arrangers need to know: the grid, and of each item its shape (−1: not theirs to place). */
export interface Task {
  readonly table: Table;
  readonly items: readonly number[];
  readonly shapeOf: readonly number[];
  /** A bed with the item alone, for those that no place on the grid's lines suits. */
  alone(item: number): Lying;
  /** The item at any place and turn, as cells of the grid. */
  lay(item: number, place: Place): Lying;
}

export const areaOn = (table: Table, shape: number): number => table.shapes[shape]!.area;

export const bedArea = (task: Task, lying: readonly Lying[]): number =>
  lying.reduce((sum, l) => sum + areaOn(task.table, l.shape), 0);

/** Few beds first, then an empty last one, then a small box on that: the lesser is better, place by place. */
export function scoreOf(task: Task, beds: Beds): readonly number[] {
  let least = Number.POSITIVE_INFINITY;
  let last: readonly Lying[] = [];
  for (const bed of beds) {
    const area = bedArea(task, bed);
    if (area < least) [least, last] = [area, bed];
  }
  let [w, h] = [0, 0];
  for (const l of last) {
    w = Math.max(w, l.col + l.laid.mask.w / task.table.fine);
    h = Math.max(h, l.row + l.laid.mask.h / task.table.fine);
  }
  return [beds.length, least, w * h];
}

export const isLess = (a: readonly number[], b: readonly number[]): boolean => {
  const i = a.findIndex((v, k) => Math.abs(v - b[k]!) > 1e-9);
  return i >= 0 && a[i]! < b[i]!;
};

type Measure = (t: Turned) => number;
const longest: Measure = ({ mask }) => Math.max(mask.w, mask.h);
const box: Measure = ({ mask }) => mask.w * mask.h;
const cells: Measure = ({ mask }) => mask.count;
const measures: readonly Measure[] = [cells, longest, box];

/** The items largest first, by one of several measures; ties keep the order they came in. */
export function orderBy(task: Task, measure: number): readonly number[] {
  const of = measures[measure % measures.length]!;
  const sizes = task.table.turned.map((turned) => (turned.length > 0 ? Math.max(...turned.map(of)) : 0));
  const size = (item: number): number => sizes[task.shapeOf[item]!]!;
  return [...task.items].sort((a, b) => size(b) - size(a) || task.shapeOf[a]! - task.shapeOf[b]! || a - b);
}

/** Beds kept open: full ones forget their maps. */
const mostOpen = 12;

/** Lays the items on beds in order, each on the first that has room. */
export function fillBeds(
  task: Task,
  order: readonly number[],
  rule: Rule,
  start: readonly Filling[] = [],
): Filling[] {
  const { table } = task;
  const beds = [...start];
  for (const item of order) {
    const shape = task.shapeOf[item]!;
    const turned = table.turned[shape]!;
    const asked = table.shapes.length > manyShapes ? beds.slice(-mostOpen) : beds;
    if (asked.some((bed) => layOn(table, bed, item, shape, turned, rule))) continue;
    const bed = emptyBed();
    if (!layOn(table, bed, item, shape, turned, rule)) bed.lying.push(task.alone(item));
    beds.push(bed);
    if (beds.length > mostOpen) beds[beds.length - mostOpen - 1]!.maps.clear();
  }
  return beds;
}

/** Tries that are enough where all lies on one bed: only how closely is left to gain. */
const enough = 2;

/** Several orders by several rules, one after another. */
export function* firstBeds(task: Task, tries: number): Generator<Beds> {
  for (let i = 0; i < tries; i++) {
    const order = orderBy(task, Math.floor(i / rules.length) + i);
    const beds = fillBeds(task, order, rules[i % rules.length]!).map((b) => b.lying);
    yield beds;
    if (beds.length === 1 && i + 1 >= enough) break;
  }
}
