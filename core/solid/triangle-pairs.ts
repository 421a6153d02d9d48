/**
 * Pairs of triangles whose bounds overlap, in all directions of a 9-axis polytope (x, y, z and the diagonals
 * of the three coordinate planes). A binary tree over the triangles in Morton order of their centres.
 */

const leafSize = 4;
/** Lower and upper bounds along nine axes. */
const stride = 18;

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
  // Node n has children 2n and 2n + 1; leaf l is node leaves + l.
  const boxes = new Float64Array(2 * leaves * stride);
  fitBoxes(boxes, bounds, leaves, count);

  // Deep enough: each step down adds at most three pairs.
  const stack = new Int32Array(2 * (4 * Math.log2(leaves) + 8));
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

function overlap(a: Float64Array, i: number, b: Float64Array, j: number): boolean {
  // Written out: this is the innermost step of the whole check.
  return (
    a[i]! <= b[j + 1]! &&
    b[j]! <= a[i + 1]! &&
    a[i + 2]! <= b[j + 3]! &&
    b[j + 2]! <= a[i + 3]! &&
    a[i + 4]! <= b[j + 5]! &&
    b[j + 4]! <= a[i + 5]! &&
    a[i + 6]! <= b[j + 7]! &&
    b[j + 6]! <= a[i + 7]! &&
    a[i + 8]! <= b[j + 9]! &&
    b[j + 8]! <= a[i + 9]! &&
    a[i + 10]! <= b[j + 11]! &&
    b[j + 10]! <= a[i + 11]! &&
    a[i + 12]! <= b[j + 13]! &&
    b[j + 12]! <= a[i + 13]! &&
    a[i + 14]! <= b[j + 15]! &&
    b[j + 14]! <= a[i + 15]! &&
    a[i + 16]! <= b[j + 17]! &&
    b[j + 16]! <= a[i + 17]!
  );
}

function triangleBounds(p: Float64Array, t: Uint32Array, order: Uint32Array): Float64Array {
  const bounds = emptyBounds(order.length);
  for (let n = 0; n < order.length; n++) {
    for (let corner = 0; corner < 3; corner++) {
      const v = 3 * t[3 * order[n]! + corner]!;
      const [x, y, z] = [p[v]!, p[v + 1]!, p[v + 2]!];
      const at = stride * n;
      include(bounds, at, x);
      include(bounds, at + 2, y);
      include(bounds, at + 4, z);
      include(bounds, at + 6, x + y);
      include(bounds, at + 8, x - y);
      include(bounds, at + 10, y + z);
      include(bounds, at + 12, y - z);
      include(bounds, at + 14, z + x);
      include(bounds, at + 16, z - x);
    }
  }
  return bounds;
}

function emptyBounds(count: number): Float64Array {
  const bounds = new Float64Array(count * stride);
  for (let i = 0; i < bounds.length; i += 2) {
    bounds[i] = Infinity;
    bounds[i + 1] = -Infinity;
  }
  return bounds;
}

function include(bounds: Float64Array, at: number, value: number): void {
  if (value < bounds[at]!) bounds[at] = value;
  if (value > bounds[at + 1]!) bounds[at + 1] = value;
}

function fitBoxes(boxes: Float64Array, bounds: Float64Array, leaves: number, count: number): void {
  boxes.set(emptyBounds(2 * leaves));
  const take = (node: number, from: Float64Array, at: number): void => {
    for (let k = 0; k < stride; k += 2) {
      const box = stride * node + k;
      if (from[at + k]! < boxes[box]!) boxes[box] = from[at + k]!;
      if (from[at + k + 1]! > boxes[box + 1]!) boxes[box + 1] = from[at + k + 1]!;
    }
  };
  for (let n = 0; n < count; n++) take(leaves + Math.floor(n / leafSize), bounds, stride * n);
  for (let node = leaves - 1; node >= 1; node--) {
    take(node, boxes, stride * 2 * node);
    take(node, boxes, stride * (2 * node + 1));
  }
}

/** The listed triangles sorted along a Morton curve through their centres, 10 bits an axis. */
function mortonOrder(p: Float64Array, t: Uint32Array, list: Uint32Array): Uint32Array {
  const min = [Infinity, Infinity, Infinity];
  const max = [-Infinity, -Infinity, -Infinity];
  for (let i = 0; i < p.length; i++) {
    const k = i % 3;
    if (p[i]! < min[k]!) min[k] = p[i]!;
    if (p[i]! > max[k]!) max[k] = p[i]!;
  }
  const size = Math.max(max[0]! - min[0]!, max[1]! - min[1]!, max[2]! - min[2]!) || 1;
  // Key and place packed in one number, so that a plain numeric sort does.
  const keys = new Float64Array(list.length);
  for (let n = 0; n < list.length; n++) {
    const f = 3 * list[n]!;
    let key = 0;
    for (let k = 0; k < 3; k++) {
      const centre = (p[3 * t[f]! + k]! + p[3 * t[f + 1]! + k]! + p[3 * t[f + 2]! + k]!) / 3;
      key |= spread(Math.min(1023, Math.max(0, Math.floor(((centre - min[k]!) / size) * 1024)))) << k;
    }
    keys[n] = key * 2 ** 23 + n;
  }
  keys.sort();
  return Uint32Array.from(keys, (key) => list[key % 2 ** 23]!);
}

/** Two empty bits between the bits of a 10-bit number. */
function spread(x: number): number {
  let v = x;
  v = (v | (v << 16)) & 0x030000ff;
  v = (v | (v << 8)) & 0x0300f00f;
  v = (v | (v << 4)) & 0x030c30c3;
  return (v | (v << 2)) & 0x09249249;
}
