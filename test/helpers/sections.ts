import type { WeldedMesh } from './welded-mesh.js';

/** Where a plane cuts a welded mesh, as closed loops in the plane's own coordinates; in double precision. */

export type Vec = readonly [number, number, number];
export type Flat = readonly [number, number];
/** Counter-clockwise round metal, clockwise round a hole. */
export type Loop = readonly Flat[];

/** A plane through `origin`; `u`, `v` are unit vectors in it, and u × v looks at the viewer. */
export interface Plane {
  readonly origin: Vec;
  readonly u: Vec;
  readonly v: Vec;
}

export const horizontal = (z: number): Plane => ({ origin: [0, 0, z], u: [1, 0, 0], v: [0, 1, 0] });
/** The plane y = `y`, seen with x to the right and z up. */
export const lengthwise = (y: number): Plane => ({ origin: [0, y, 0], u: [1, 0, 0], v: [0, 0, 1] });

const dot = (a: Vec, b: Vec): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];

export function section({ points, triangles }: WeldedMesh, { origin, u, v }: Plane): readonly Loop[] {
  const normal: Vec = [u[1] * v[2] - u[2] * v[1], u[2] * v[0] - u[0] * v[2], u[0] * v[1] - u[1] * v[0]];
  const n = points.length / 3;
  const from = (i: number): Vec => [
    (points[3 * i] as number) - origin[0],
    (points[3 * i + 1] as number) - origin[1],
    (points[3 * i + 2] as number) - origin[2],
  ];
  const heights = Float64Array.from({ length: n }, (_, i) => dot(from(i), normal));
  // Each cut edge leads to the next one round the outline: metal lies to the left.
  const next = new Map<number, number>();
  const keyOf = (a: number, b: number): number => (a < b ? a * n + b : b * n + a);
  for (let t = 0; t < triangles.length; t += 3) {
    let enter = -1;
    let leave = -1;
    for (let e = 0; e < 3; e++) {
      const a = triangles[t + e] as number;
      const b = triangles[t + ((e + 1) % 3)] as number;
      const [above, aboveNext] = [(heights[a] as number) >= 0, (heights[b] as number) >= 0];
      if (above && !aboveNext) leave = keyOf(a, b);
      if (!above && aboveNext) enter = keyOf(a, b);
    }
    if (enter >= 0) next.set(leave, enter);
  }
  const pointOn = (key: number): Flat => {
    const [a, b] = [Math.floor(key / n), key % n];
    const f = (heights[a] as number) / ((heights[a] as number) - (heights[b] as number));
    const [p, q] = [from(a), from(b)];
    const at: Vec = [p[0] + f * (q[0] - p[0]), p[1] + f * (q[1] - p[1]), p[2] + f * (q[2] - p[2])];
    return [dot(at, u), dot(at, v)];
  };
  const loops: Loop[] = [];
  while (next.size > 0) {
    const start = next.keys().next().value as number;
    const loop: Flat[] = [];
    let at = start;
    do {
      loop.push(pointOn(at));
      const to = next.get(at);
      if (to === undefined) throw new Error('the section does not close');
      next.delete(at);
      at = to;
    } while (at !== start);
    loops.push(loop);
  }
  return loops;
}

export const areaOf = (loop: Loop): number =>
  loop.reduce((sum, [x, y], i) => {
    const [u, v] = loop[(i + 1) % loop.length] as Flat;
    return sum + (x * v - u * y) / 2;
  }, 0);

export const encloses = (loop: Loop, [px, py]: Flat): boolean => {
  let inside = false;
  loop.forEach(([x, y], i) => {
    const [u, v] = loop[(i + 1) % loop.length] as Flat;
    if (y > py !== v > py && px < x + ((py - y) / (v - y)) * (u - x)) inside = !inside;
  });
  return inside;
};

export const radii = (loop: Loop): number[] => loop.map(([x, y]) => Math.hypot(x, y));

/** Least distance of the loop's sides, not only its corners, from the origin. */
export const nearestApproach = (loop: Loop): number =>
  Math.min(
    ...loop.map(([x, y], i) => {
      const [u, v] = loop[(i + 1) % loop.length] as Flat;
      const [dx, dy] = [u - x, v - y];
      const f = Math.min(1, Math.max(0, -(x * dx + y * dy) / (dx * dx + dy * dy || 1)));
      return Math.hypot(x + f * dx, y + f * dy);
    }),
  );

/** Heights at which the vertical line through (x, y) passes the surface, from below. */
export function verticalHits({ points: p, triangles }: WeldedMesh, x: number, y: number): number[] {
  const hits: number[] = [];
  for (let t = 0; t < triangles.length; t += 3) {
    const [a, b, c] = [0, 1, 2].map((k) => 3 * (triangles[t + k] as number)) as [number, number, number];
    const across = (i: number, j: number): number =>
      ((p[i] as number) - x) * ((p[j + 1] as number) - y) -
      ((p[j] as number) - x) * ((p[i + 1] as number) - y);
    const [wa, wb, wc] = [across(b, c), across(c, a), across(a, b)];
    const sum = wa + wb + wc;
    if (sum === 0 || ![wa, wb, wc].every((w) => w * sum > 0)) continue;
    hits.push((wa * (p[a + 2] as number) + wb * (p[b + 2] as number) + wc * (p[c + 2] as number)) / sum);
  }
  return hits.sort((m, n) => m - n);
}
