import type { Mesh } from './types.js';

/** Heights at which uprights pass into and out of a closed mesh. */
export interface Columns {
  /** Column c, i + j × (number of xs), has the heights from `starts[c]` to `starts[c + 1]`: rising, in pairs. */
  readonly starts: Int32Array;
  /** mm */
  readonly heights: Float64Array;
}

/**
 * Where the uprights at every x of `xs` and y of `ys`, both rising, mm, pass through a closed mesh. An upright through an
 * edge or a corner is taken to pass just beside it, on the same side for all triangles that meet there, so that heights
 * always come in pairs.
 */
export function passColumns(mesh: Mesh, xs: Float64Array, ys: Float64Array): Columns {
  const { column, height, count } = findPasses(mesh, xs, ys);
  const starts = new Int32Array(xs.length * ys.length + 1);
  for (let n = 0; n < count; n++) starts[column[n]! + 1]!++;
  for (let c = 0; c + 1 < starts.length; c++) starts[c + 1]! += starts[c]!;
  const heights = new Float64Array(count);
  const end = starts.slice();
  for (let n = 0; n < count; n++) {
    const c = column[n]!;
    let at = end[c]!++;
    // Few to a column: put in their places as they come.
    for (; at > starts[c]! && heights[at - 1]! > height[n]!; at--) heights[at] = heights[at - 1]!;
    heights[at] = height[n]!;
  }
  return { starts, heights };
}

/** Columns and heights of all passes, in the order of the triangles. */
function findPasses({ positions, triangles }: Mesh, xs: Float64Array, ys: Float64Array) {
  let column = new Int32Array(1 << 12);
  let height = new Float64Array(1 << 12);
  let count = 0;
  for (let t = 0; t < triangles.length; t += 3) {
    const a = 3 * triangles[t]!;
    let b = 3 * triangles[t + 1]!;
    let c = 3 * triangles[t + 2]!;
    const [ax, ay] = [positions[a]!, positions[a + 1]!];
    const area =
      (positions[b]! - ax) * (positions[c + 1]! - ay) - (positions[c]! - ax) * (positions[b + 1]! - ay);
    if (area === 0) continue;
    if (area < 0) [b, c] = [c, b];
    const [bx, by, cx, cy] = [positions[b]!, positions[b + 1]!, positions[c]!, positions[c + 1]!];
    const [lastX, lastY] = [Math.max(ax, bx, cx), Math.max(ay, by, cy)];
    const firstX = atLeast(xs, Math.min(ax, bx, cx));
    if (firstX === xs.length || xs[firstX]! > lastX) continue;
    for (let j = atLeast(ys, Math.min(ay, by, cy)); j < ys.length && ys[j]! <= lastY; j++) {
      const y = ys[j]!;
      for (let i = firstX; i < xs.length && xs[i]! <= lastX; i++) {
        const x = xs[i]!;
        const u = sideOfLine(bx, by, cx, cy, x, y);
        if (!isWithin(u, bx, by, cx, cy)) continue;
        const v = sideOfLine(cx, cy, ax, ay, x, y);
        if (!isWithin(v, cx, cy, ax, ay)) continue;
        const w = sideOfLine(ax, ay, bx, by, x, y);
        if (!isWithin(w, ax, ay, bx, by)) continue;
        if (count === column.length) {
          column = grown(column, Int32Array);
          height = grown(height, Float64Array);
        }
        column[count] = i + xs.length * j;
        height[count] = (u * positions[a + 2]! + v * positions[b + 2]! + w * positions[c + 2]!) / (u + v + w);
        count++;
      }
    }
  }
  return { column, height, count };
}

function grown<A extends Int32Array | Float64Array>(array: A, make: new (length: number) => A): A {
  const more = new make(2 * array.length);
  more.set(array);
  return more;
}

/** Index of the first value not under `least`. */
function atLeast(values: Float64Array, least: number): number {
  let [low, high] = [0, values.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if (values[middle]! < least) low = middle + 1;
    else high = middle;
  }
  return low;
}

/** Twice the area of p, q and the point, the same but for its sign whichever end comes first. */
export function sideOfLine(px: number, py: number, qx: number, qy: number, x: number, y: number): number {
  return px > qx || (px === qx && py > qy)
    ? -((px - qx) * (y - qy) - (x - qx) * (py - qy))
    : (qx - px) * (y - py) - (x - px) * (qy - py);
}

/** On an edge itself the triangle to one side of it has the point: the rule by which pixels are shared out. */
export const isWithin = (area: number, px: number, py: number, qx: number, qy: number): boolean =>
  area > 0 || (area === 0 && (qy < py || (qy === py && qx > px)));
