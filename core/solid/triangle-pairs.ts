/**
 * Pairs of triangles whose bounds overlap, in all directions of a 9-axis polytope (x, y, z and the diagonals
 * of the three coordinate planes). A binary tree over the triangles in Morton order of their centres.
 *
 * Bounds are kept in float32: rounding to nearest keeps the order of numbers, so what overlaps still does.
 */

import { maths } from '../maths/maths.js';

const leafSize = 4;
/** Lower and upper bounds along nine axes: the nine lower ones, then the nine upper. */
const axes = 9;
const stride = 2 * axes;

/**
 * Calls `visit(i, j)` once for each pair among the listed triangles whose bounds overlap (touching counts);
 * stops when it returns true.
 */
export function forOverlappingPairs(
  p: Float64Array,
  t: Uint32Array,
  list: Uint32Array,
  visit: (i: number, j: number) => boolean,
): void {
  const order = mortonOrder(p, t, list);
  const bounds = triangleBounds(p, t, order);
  const count = order.length;
  let leaves = 1;
  while (leaves * leafSize < count) leaves *= 2;
  const boxes = fitBoxes(bounds, leaves, count);

  // Deep enough: each step down adds at most three pairs.
  const stack = new Int32Array(2 * (4 * maths.log2(leaves) + 8));
  stack[0] = 1;
  stack[1] = 1;
  let top = 2;
  while (top > 0) {
    const b = stack[--top]!;
    const a = stack[--top]!;
    if (a !== b && !overlap(boxes, stride * a, boxes, stride * b)) continue;
    if (a >= leaves) {
      const startA = (a - leaves) * leafSize;
      const startB = (b - leaves) * leafSize;
      const endA = Math.min(startA + leafSize, count);
      const endB = Math.min(startB + leafSize, count);
      for (let i = startA; i < endA; i++)
        for (let j = a === b ? i + 1 : startB; j < endB; j++)
          if (overlap(bounds, stride * i, bounds, stride * j) && visit(order[i]!, order[j]!)) return;
      continue;
    }
    stack[top++] = 2 * a;
    stack[top++] = 2 * b;
    stack[top++] = 2 * a;
    stack[top++] = 2 * b + 1;
    stack[top++] = 2 * a + 1;
    stack[top++] = 2 * b + 1;
    if (a === b) continue;
    stack[top++] = 2 * a + 1;
    stack[top++] = 2 * b;
  }
}

function overlap(a: Float32Array, i: number, b: Float32Array, j: number): boolean {
  for (let k = 0; k < axes; k++)
    if (a[i + k]! > b[j + axes + k]! || b[j + k]! > a[i + axes + k]!) return false;
  return true;
}

function triangleBounds(p: Float64Array, t: Uint32Array, order: Uint32Array): Float32Array {
  const bounds = new Float32Array(order.length * stride);
  for (let n = 0; n < order.length; n++) {
    for (let corner = 0; corner < 3; corner++) {
      const v = 3 * t[3 * order[n]! + corner]!;
      const x = p[v]!;
      const y = p[v + 1]!;
      const z = p[v + 2]!;
      const at = stride * n;
      const first = corner === 0;
      include(bounds, at, x, first);
      include(bounds, at + 1, y, first);
      include(bounds, at + 2, z, first);
      include(bounds, at + 3, x + y, first);
      include(bounds, at + 4, x - y, first);
      include(bounds, at + 5, y + z, first);
      include(bounds, at + 6, y - z, first);
      include(bounds, at + 7, z + x, first);
      include(bounds, at + 8, z - x, first);
    }
  }
  return bounds;
}

function include(bounds: Float32Array, at: number, value: number, first: boolean): void {
  if (first || value < bounds[at]!) bounds[at] = value;
  if (first || value > bounds[at + axes]!) bounds[at + axes] = value;
}

/** Bounds of every node: node n has children 2n and 2n + 1; leaf l is node leaves + l. */
function fitBoxes(bounds: Float32Array, leaves: number, count: number): Float32Array {
  const boxes = new Float32Array(2 * leaves * stride);
  for (let leaf = 0; leaf < leaves; leaf++) {
    const at = stride * (leaves + leaf);
    const end = Math.min((leaf + 1) * leafSize, count);
    boxes.fill(Infinity, at, at + axes);
    boxes.fill(-Infinity, at + axes, at + stride);
    for (let n = leaf * leafSize; n < end; n++) widen(boxes, at, bounds, stride * n);
  }
  for (let node = leaves - 1; node >= 1; node--) {
    const at = stride * node;
    boxes.copyWithin(at, 2 * at, 2 * at + stride);
    widen(boxes, at, boxes, 2 * at + stride);
  }
  return boxes;
}

function widen(boxes: Float32Array, at: number, by: Float32Array, from: number): void {
  for (let k = 0; k < axes; k++) {
    if (by[from + k]! < boxes[at + k]!) boxes[at + k] = by[from + k]!;
    if (by[from + axes + k]! > boxes[at + axes + k]!) boxes[at + axes + k] = by[from + axes + k]!;
  }
}

/** The listed triangles sorted along a Morton curve through their centres, 10 bits an axis. */
function mortonOrder(p: Float64Array, t: Uint32Array, list: Uint32Array): Uint32Array {
  const min = [Infinity, Infinity, Infinity];
  const max = [-Infinity, -Infinity, -Infinity];
  for (let i = 0; i < p.length; i += 3) {
    for (let k = 0; k < 3; k++) {
      const value = p[i + k]!;
      if (value < min[k]!) min[k] = value;
      if (value > max[k]!) max[k] = value;
    }
  }
  const size = Math.max(max[0]! - min[0]!, max[1]! - min[1]!, max[2]! - min[2]!) || 1;
  const cells = 1024 / size;
  // Key and place packed in one number, so that a plain numeric sort does.
  const keys = new Float64Array(list.length);
  for (let n = 0; n < list.length; n++) {
    const f = 3 * list[n]!;
    const a = 3 * t[f]!;
    const b = 3 * t[f + 1]!;
    const c = 3 * t[f + 2]!;
    let key = 0;
    for (let k = 0; k < 3; k++) {
      const cell = Math.floor(((p[a + k]! + p[b + k]! + p[c + k]!) / 3 - min[k]!) * cells);
      key |= spread(Math.min(1023, Math.max(0, cell))) << k;
    }
    keys[n] = key * 2 ** 23 + n;
  }
  keys.sort();
  const order = new Uint32Array(list.length);
  for (let n = 0; n < list.length; n++) order[n] = list[keys[n]! % 2 ** 23]!;
  return order;
}

/** Two empty bits between the bits of a 10-bit number. */
function spread(x: number): number {
  let v = x;
  v = (v | (v << 16)) & 0x030000ff;
  v = (v | (v << 8)) & 0x0300f00f;
  v = (v | (v << 4)) & 0x030c30c3;
  return (v | (v << 2)) & 0x09249249;
}
