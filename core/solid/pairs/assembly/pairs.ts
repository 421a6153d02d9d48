/**
 * Pairs of triangles whose bounds overlap and that are not clearly apart: see `../triangle-pairs.ts`, which lays out the
 * memory.
 */
import { areClearlyApart, keepWallAt } from './apart';
import { blockAt, layBoxes, overlapping } from './boxes';
import { takeMesh } from './mesh';
import { layRecords, triangleAt } from './records';
import { sort } from './sort';

/** A pair of blocks whose boxes are still to be held against each other: their level, and their numbers in it. */
const entryBytes: usize = 12;
/** Four triangles against four, two numbers a pair. */
const mostOfBlocks: usize = 128;

let stack: usize = 0;
let top: usize = 0;
let found: usize = 0;
/** Bytes of `found`. */
let room: usize = 0;
/** Pairs of triangles whose bounds overlapped. */
let looks: f64 = 0;

/** Addresses, and how many triangles are listed at `list`. */
export function begin(
  atPoints: usize,
  pointsEnd: usize,
  atCorners: usize,
  list: usize,
  count: i32,
  order: usize,
  records: usize,
  wall: usize,
  places: usize,
  boxes: usize,
  levels: usize,
  atStack: usize,
  atFound: usize,
  foundBytes: usize,
): void {
  stack = atStack;
  found = atFound;
  room = foundBytes;
  takeMesh(atPoints, pointsEnd, atCorners);
  // The places of boxes and stack are not in use yet.
  sort(list, count, order, boxes, stack);
  layRecords(records, order, count);
  keepWallAt(wall);
  top = stack;
  push(layBoxes(boxes, levels, places, count), 0, 0);
  looks = 0;
}

/** Pairs looked at before the caller is asked whether to go on. */
const looksAtOnce: f64 = 1e7;

/** Writes pairs of triangle numbers at `found` until it is full, there are no more, or many were looked at; how many. */
export function next(): i32 {
  let to = found;
  const full = found + room - mostOfBlocks;
  const enough = looks + looksAtOnce;
  while (top > stack && to <= full && looks < enough) {
    top -= entryBytes;
    const level = load<i32>(top);
    const a = load<i32>(top, 4);
    const b = load<i32>(top, 8);
    const one = blockAt(level, a);
    const other = blockAt(level, b);
    for (let k = 0; k < 4; k++) {
      let hits = overlapping(one + 4 * k, other);
      // Within a block each pair once; of boxes round blocks, each with itself too.
      if (a === b) hits &= (level === 0 ? 14 : 15) << k;
      for (; hits !== 0; hits &= hits - 1) {
        const i = 4 * a + k;
        const j = 4 * b + ctz(hits);
        if (level > 0) {
          push(level - 1, i, j);
          continue;
        }
        looks++;
        if (areClearlyApart(i, j)) continue;
        store<u32>(to, triangleAt(i));
        store<u32>(to, triangleAt(j), 4);
        to += 8;
      }
    }
  }
  return <i32>((to - found) >> 3);
}

/** Whether `next` has come to the end. */
export function isDone(): bool {
  return top <= stack;
}

export function lookCount(): f64 {
  return looks;
}

function push(level: i32, a: i32, b: i32): void {
  store<i32>(top, level);
  store<i32>(top, a, 4);
  store<i32>(top, b, 8);
  top += entryBytes;
}
