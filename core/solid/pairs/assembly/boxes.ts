/**
 * Bounds along nine axes (x, y, z and the diagonals of the three coordinate planes), four boxes to a block, so that one is
 * held against four at once: of each axis four lower bounds, then four upper ones. They are float32: rounding to nearest
 * keeps the order of numbers, so what overlaps still does. The boxes of level 0 are those of the triangles in their
 * order; box n of the next level is round block n of the one below, up to a level of one block.
 */
import { points, pointsEnd } from './mesh';
import { pointsAt } from './records';

const blockBytes: usize = 288;
const axisBytes: usize = 32;
/** Nine float32, and three that fill up. */
const placesBytes: usize = 48;

/** The address of each level's first block. */
let levels: usize = 0;

export function blockAt(level: i32, n: i32): usize {
  return load<usize>(levels + 4 * level) + blockBytes * n;
}

/** Lays all blocks from `boxes` on; each level's address goes to `atLevels`, the points' places along the axes to `places`. Gives the topmost level. */
export function layBoxes(boxes: usize, atLevels: usize, places: usize, count: i32): i32 {
  levels = atLevels;
  layPlaces(places);
  let level = 0;
  let first = boxes;
  let size = (count + 3) >> 2;
  begin(level, first, size);
  // Places take twice the room of points.
  const shift = places - 2 * points;
  for (let n = 0; n < count; n++) {
    const at = pointsAt(n);
    boundTriangle(
      boxAt(first, n),
      shift + 2 * load<usize>(at),
      shift + 2 * load<usize>(at, 4),
      shift + 2 * load<usize>(at, 8),
    );
  }
  while (size > 1) {
    const below = first;
    const sizeBelow = size;
    first += blockBytes * size;
    size = (size + 3) >> 2;
    begin(++level, first, size);
    for (let n = 0; n < sizeBelow; n++) boundBlock(boxAt(first, n), below + blockBytes * n);
  }
  return level;
}

/** Which of a block's four boxes overlap the box at `one`, a bit each. Empty ones do not. */
export function overlapping(one: usize, block: usize): i32 {
  const near = v128.and(
    v128.and(along(one, block), along(one + 32, block + 32)),
    along(one + 64, block + 64),
  );
  if (!v128.any_true(near)) return 0;
  return i32x4.bitmask(
    v128.and(
      v128.and(
        v128.and(along(one + 96, block + 96), along(one + 128, block + 128)),
        v128.and(along(one + 160, block + 160), along(one + 192, block + 192)),
      ),
      v128.and(near, v128.and(along(one + 224, block + 224), along(one + 256, block + 256))),
    ),
  );
}

function along(one: usize, block: usize): v128 {
  return v128.and(
    f32x4.le(v128.load_splat<f32>(one), v128.load(block, 16)),
    f32x4.le(v128.load(block), v128.load_splat<f32>(one, 16)),
  );
}

/** Box n of a level, at its first lower bound. */
function boxAt(first: usize, n: i32): usize {
  return first + blockBytes * (n >> 2) + 4 * (n & 3);
}

/** A level of empty boxes. */
function begin(level: i32, first: usize, size: i32): void {
  store<usize>(levels + 4 * level, first);
  for (let at = first; at < first + blockBytes * size; at += axisBytes) {
    v128.store(at, f32x4.splat(f32.MAX_VALUE));
    v128.store(at, f32x4.splat(-f32.MAX_VALUE), 16);
  }
}

function layPlaces(places: usize): void {
  for (let point = points, at = places; point < pointsEnd; point += 24, at += placesBytes) {
    const x = load<f64>(point);
    const y = load<f64>(point, 8);
    const z = load<f64>(point, 16);
    v128.store(at, four(x, y, z, x + y));
    v128.store(at, four(x - y, y + z, y - z, z + x), 16);
    v128.store(at, four(z - x, 0, 0, 0), 32);
  }
}

function four(a: f64, b: f64, c: f64, d: f64): v128 {
  const ab = f32x4.demote_f64x2_zero(f64x2.replace_lane(f64x2.splat(a), 1, b));
  const cd = f32x4.demote_f64x2_zero(f64x2.replace_lane(f64x2.splat(c), 1, d));
  return v128.shuffle<i32>(ab, cd, 0, 1, 4, 5);
}

function boundTriangle(at: usize, a: usize, b: usize, c: usize): void {
  let lower = least(v128.load(a), v128.load(b), v128.load(c));
  let upper = most(v128.load(a), v128.load(b), v128.load(c));
  v128.store_lane<f32>(at, lower, 0);
  v128.store_lane<f32>(at, upper, 0, 16);
  v128.store_lane<f32>(at, lower, 1, 32);
  v128.store_lane<f32>(at, upper, 1, 48);
  v128.store_lane<f32>(at, lower, 2, 64);
  v128.store_lane<f32>(at, upper, 2, 80);
  v128.store_lane<f32>(at, lower, 3, 96);
  v128.store_lane<f32>(at, upper, 3, 112);
  lower = least(v128.load(a, 16), v128.load(b, 16), v128.load(c, 16));
  upper = most(v128.load(a, 16), v128.load(b, 16), v128.load(c, 16));
  v128.store_lane<f32>(at, lower, 0, 128);
  v128.store_lane<f32>(at, upper, 0, 144);
  v128.store_lane<f32>(at, lower, 1, 160);
  v128.store_lane<f32>(at, upper, 1, 176);
  v128.store_lane<f32>(at, lower, 2, 192);
  v128.store_lane<f32>(at, upper, 2, 208);
  v128.store_lane<f32>(at, lower, 3, 224);
  v128.store_lane<f32>(at, upper, 3, 240);
  lower = least(v128.load(a, 32), v128.load(b, 32), v128.load(c, 32));
  upper = most(v128.load(a, 32), v128.load(b, 32), v128.load(c, 32));
  v128.store_lane<f32>(at, lower, 0, 256);
  v128.store_lane<f32>(at, upper, 0, 272);
}

function least(a: v128, b: v128, c: v128): v128 {
  return f32x4.pmin(f32x4.pmin(a, b), c);
}

function most(a: v128, b: v128, c: v128): v128 {
  return f32x4.pmax(f32x4.pmax(a, b), c);
}

function boundBlock(at: usize, block: usize): void {
  for (let axis: usize = 0; axis < blockBytes; axis += axisBytes) {
    let lower = v128.load(block + axis);
    let upper = v128.load(block + axis, 16);
    lower = f32x4.pmin(lower, v128.shuffle<i32>(lower, lower, 2, 3, 0, 1));
    upper = f32x4.pmax(upper, v128.shuffle<i32>(upper, upper, 2, 3, 0, 1));
    v128.store_lane<f32>(at + axis, f32x4.pmin(lower, v128.shuffle<i32>(lower, lower, 1, 0, 3, 2)), 0);
    v128.store_lane<f32>(at + axis, f32x4.pmax(upper, v128.shuffle<i32>(upper, upper, 1, 0, 3, 2)), 0, 16);
  }
}
