import type { Mesh, Vec3 } from './types.js';

/** Heights at which uprights pass into and out of a closed mesh: by column, rising, in pairs. */
export interface Columns {
  /** mm, of column i + j × (number of xs). */
  readonly heights: readonly (readonly number[])[];
}

/**
 * Where the uprights at every x of `xs` and y of `ys`, both rising, mm, pass through a closed mesh. An upright through an
 * edge or a corner is taken to pass just beside it, on the same side for all triangles that meet there, so that heights
 * always come in pairs.
 */
export function passColumns({ positions, triangles }: Mesh, xs: Float64Array, ys: Float64Array): Columns {
  const heights: number[][] = Array.from({ length: xs.length * ys.length }, () => []);
  const corner = (t: number): Vec3 => {
    const i = 3 * triangles[t]!;
    return [positions[i]!, positions[i + 1]!, positions[i + 2]!];
  };
  for (let t = 0; t < triangles.length; t += 3) {
    let [a, b, c] = [corner(t), corner(t + 1), corner(t + 2)];
    const area = (b[0] - a[0]) * (c[1] - a[1]) - (c[0] - a[0]) * (b[1] - a[1]);
    if (area === 0) continue;
    if (area < 0) [b, c] = [c, b];
    const lastY = Math.max(a[1], b[1], c[1]);
    const lastX = Math.max(a[0], b[0], c[0]);
    const firstX = atLeast(xs, Math.min(a[0], b[0], c[0]));
    for (let j = atLeast(ys, Math.min(a[1], b[1], c[1])); j < ys.length && ys[j]! <= lastY; j++)
      for (let i = firstX; i < xs.length && xs[i]! <= lastX; i++) {
        const [x, y] = [xs[i]!, ys[j]!];
        const [u, v, w] = [side(b, c, x, y), side(c, a, x, y), side(a, b, x, y)];
        if (!(isIn(u, b, c) && isIn(v, c, a) && isIn(w, a, b))) continue;
        const sum = u + v + w;
        heights[i + xs.length * j]!.push((u * a[2] + v * b[2] + w * c[2]) / sum);
      }
  }
  for (const h of heights) h.sort((p, q) => p - q);
  return { heights };
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
function side(p: Vec3, q: Vec3, x: number, y: number): number {
  const turned = p[0] > q[0] || (p[0] === q[0] && p[1] > q[1]);
  const [a, b] = turned ? [q, p] : [p, q];
  const area = (b[0] - a[0]) * (y - a[1]) - (x - a[0]) * (b[1] - a[1]);
  return turned ? -area : area;
}

/** On an edge itself the triangle to one side of it has the point: the rule by which pixels are shared out. */
const isIn = (area: number, p: Vec3, q: Vec3): boolean =>
  area > 0 || (area === 0 && (q[1] < p[1] || (q[1] === p[1] && q[0] > p[0])));
