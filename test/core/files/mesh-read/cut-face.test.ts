import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { cutFace } from '../../../../core/files/mesh-read/cut-face.js';
import type { Vec2, Vec3 } from '../../../../core/solid/types.js';

/** Triangles of a face whose corners are all the points, in order. */
function cut(points: readonly Vec3[], budget = { left: 1e9 }): number[][] {
  const loop = Uint32Array.from(points, (_, i) => i);
  const out = new Uint32Array(3 * (points.length - 2));
  expect(cutFace(Float64Array.from(points.flat()), loop, out, 0, budget)).toBe(out.length);
  return Array.from({ length: out.length / 3 }, (_, i) => [...out.subarray(3 * i, 3 * i + 3)]);
}
const flat = (points: readonly Vec2[]): Vec3[] => points.map(([x, y]) => [x, y, 0]);
/** Twice the area, above 0 counter-clockwise. */
const doubleArea = (points: readonly Vec2[]): number =>
  points.reduce((sum, [x, y], i) => {
    const [u, v] = points[(i + 1) % points.length]!;
    return sum + x * v - y * u;
  }, 0);

/** Each edge of the face once, as the face runs, and each edge within twice, once each way. */
function expectEdges(count: number, triangles: readonly (readonly number[])[]): void {
  const edges = new Map<string, number>();
  for (const t of triangles)
    for (let k = 0; k < 3; k++) {
      const edge = `${t[k]} ${t[(k + 1) % 3]}`;
      edges.set(edge, (edges.get(edge) ?? 0) + 1);
    }
  for (const [edge, times] of edges) {
    const [a, b] = edge.split(' ').map(Number) as [number, number];
    const rim = b === (a + 1) % count;
    expect([edge, times, edges.get(`${b} ${a}`) ?? 0]).toEqual([edge, 1, rim ? 0 : 1]);
  }
  for (let i = 0; i < count; i++) expect(edges.has(`${i} ${(i + 1) % count}`)).toBe(true);
}

/** Every triangle turns with the face, and together they are as large: so they cover it without overlap. */
function expectCovered(points: readonly Vec2[]): void {
  const triangles = cut(flat(points));
  expectEdges(points.length, triangles);
  const areas = triangles.map((t) => doubleArea(t.map((i) => points[i]!)));
  for (const area of areas) expect(area).toBeGreaterThan(0);
  const wanted = doubleArea(points);
  expect(Math.abs(areas.reduce((sum, a) => sum + a, 0) - wanted)).toBeLessThan(1e-9 * wanted);
}

/** Rays from the middle, each with its length: simple, with bays. */
const star = (radii: readonly number[]): Vec2[] =>
  radii.map((r, i) => {
    const angle = (2 * Math.PI * i) / radii.length;
    return [r * Math.cos(angle), r * Math.sin(angle)];
  });

describe('a face of many corners', () => {
  test('stars of any shape are covered (seed 31)', () => {
    const radii = fc.array(fc.double({ min: 0.05, max: 10, noNaN: true }), { minLength: 5, maxLength: 60 });
    fc.assert(
      fc.property(radii, (lengths) => expectCovered(star(lengths))),
      { seed: 31, numRuns: 400 },
    );
  });

  test('combs, spirals and faces with corners on their straight sides are covered', () => {
    const comb = Array.from({ length: 20 }, (_, i): Vec2[] => [
      [2 * i, 0],
      [2 * i + 1, 9],
    ]).flat();
    expectCovered(([...comb, [40, 0], [40, -1], [0, -1]] as Vec2[]).reverse());
    const arm = (r: number): Vec2[] =>
      Array.from({ length: 80 }, (_, i) => [(r + i / 10) * Math.cos(i / 5), (r + i / 10) * Math.sin(i / 5)]);
    expectCovered([...arm(1.5), ...arm(1).reverse()]);
    const straight: Vec2[] = [
      [0, 0],
      [1, 0],
      [2, 0],
      [3, 0],
      [3, 1],
      [3, 2],
      [2, 2],
      [1, 2],
      [0, 2],
      [0, 1],
    ];
    expectCovered(straight);
    expectCovered([
      [0, 0],
      [2, 0],
      [4, 0],
      [2, 3],
    ]);
  });

  test('a hole that is reached by a bridge stays a hole', () => {
    const points: Vec2[] = [
      [0, 0],
      [6, 0],
      [6, 6],
      [0, 6],
      [0, 0],
      [2, 2],
      [2, 4],
      [4, 4],
      [4, 2],
      [2, 2],
    ];
    const triangles = cut(flat(points));
    expectEdges(points.length, triangles);
    const areas = triangles.map((t) => doubleArea(t.map((i) => points[i]!)));
    for (const area of areas) expect(area).toBeGreaterThan(0);
    expect(areas.reduce((sum, a) => sum + a, 0)).toBe(2 * (36 - 4));
    const inHole = triangles.some((t) => {
      const [x, y] = [0, 1].map((k) => t.reduce((sum, i) => sum + points[i]![k]!, 0) / 3) as [number, number];
      return x > 2 && x < 4 && y > 2 && y < 4;
    });
    expect(inHole).toBe(false);
  });

  test('however it lies in space, and whichever way it is turned, its triangles turn with it', () => {
    const shape = star([3, 1, 3, 1, 3, 1, 3, 1, 3, 1]);
    for (const place of [
      ([x, y]: Vec2): Vec3 => [x, y, 5],
      ([x, y]: Vec2): Vec3 => [y, x, 5],
      ([x, y]: Vec2): Vec3 => [7, x, y],
      ([x, y]: Vec2): Vec3 => [y, 7, x],
      ([x, y]: Vec2): Vec3 => [x, y, (2 * y - x) / 3],
    ]) {
      const points = shape.map(place);
      const cross = (t: readonly number[]): number[] => {
        const [a, b, c] = t.map((i) => points[i]!) as [Vec3, Vec3, Vec3];
        const [u, v] = [b, c].map((p) => p.map((x, k) => x - a[k]!)) as [number[], number[]];
        return [0, 1, 2].map((k) => u[(k + 1) % 3]! * v[(k + 2) % 3]! - u[(k + 2) % 3]! * v[(k + 1) % 3]!);
      };
      const triangles = cut(points);
      expectEdges(points.length, triangles);
      const all = triangles.map(cross);
      const sum = [0, 1, 2].map((k) => all.reduce((s, n) => s + n[k]!, 0));
      for (const n of all) expect(n.reduce((s, x, k) => s + x * sum[k]!, 0)).toBeGreaterThan(0);
    }
  });

  test('a bent four-sided face is cut at its bay, a plain one along its shorter diagonal', () => {
    expect(
      cut(
        flat([
          [0, 0],
          [4, 0],
          [1, 1],
          [0, 4],
        ]),
      ),
    ).toEqual([
      [0, 1, 2],
      [0, 2, 3],
    ]);
    expect(
      cut(
        flat([
          [4, 0],
          [1, 1],
          [0, 4],
          [0, 0],
        ]),
      ),
    ).toEqual([
      [1, 2, 3],
      [1, 3, 0],
    ]);
    expect(
      cut([
        [0, 0, 0],
        [4, 0, 1],
        [5, 1, 0],
        [0, 1, 1],
      ]),
    ).toEqual([
      [1, 2, 3],
      [1, 3, 0],
    ]);
  });

  test('a face that crosses itself or has no area is cut with its edges kept', () => {
    const crossed: Vec2[] = [
      [0, 0],
      [4, 4],
      [4, 0],
      [0, 4],
    ];
    expectEdges(4, cut(flat(crossed)));
    expectEdges(
      5,
      cut(
        flat([
          [0, 0],
          [5, 5],
          [5, 0],
          [0, 5],
          [-3, 1],
        ]),
      ),
    );
    expectEdges(
      6,
      cut(
        flat([
          [0, 0],
          [1, 0],
          [2, 0],
          [3, 0],
          [4, 0],
          [5, 0],
        ]),
      ),
    );
    expectEdges(
      5,
      cut(
        flat([
          [1, 1],
          [1, 1],
          [1, 1],
          [1, 1],
          [1, 1],
        ]),
      ),
    );
  });

  test('any points at all give the right number of triangles and sound edges (seed 32)', () => {
    const point = fc.tuple(
      fc.integer({ min: 0, max: 5 }),
      fc.integer({ min: 0, max: 5 }),
      fc.integer({ min: 0, max: 2 }),
    );
    fc.assert(
      fc.property(fc.array(point, { minLength: 4, maxLength: 25 }), (points) =>
        expectEdges(points.length, cut(points)),
      ),
      { seed: 32, numRuns: 1000 },
    );
  });

  test('a round face of 20,000 corners costs little, a comb of as many is given up within its budget', () => {
    const round = { left: 1e6 };
    cut(flat(star(Array.from({ length: 20_000 }, () => 1))), round);
    expect(round.left).toBeGreaterThan(0);
    const comb = { left: 1e6 };
    const loop = Uint32Array.from({ length: 20_000 }, (_, i) => i);
    const points = flat(star(Array.from(loop, (i) => (i % 2 ? 1 : 2))));
    cutFace(Float64Array.from(points.flat()), loop, new Uint32Array(60_000), 0, comb);
    expect(comb.left).toBeLessThan(0);
    expect(comb.left).toBeGreaterThan(-1e5);
  });
});
