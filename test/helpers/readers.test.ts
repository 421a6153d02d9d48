import { describe, expect, it } from 'vitest';
import { readBinaryStl } from './binary-stl.js';
import { meshesMeet, selfCrossings, trianglesMeet } from './crossings.js';
import { areaOf, encloses, horizontal, nearestApproach, section, verticalHits } from './sections.js';
import { topologyOf, volumeOf, weld } from './welded-mesh.js';

/** Twelve triangles of a box, outward. */
function box([x, y, z]: number[], [u, v, w]: number[]): Float32Array {
  const at = (i: number): number[] => [i & 1 ? u : x, i & 2 ? v : y, i & 4 ? w : z] as number[];
  const quads = [
    [0, 2, 3, 1],
    [4, 5, 7, 6],
    [0, 1, 5, 4],
    [2, 6, 7, 3],
    [0, 4, 6, 2],
    [1, 3, 7, 5],
  ];
  return Float32Array.from(
    quads.flatMap(([a, b, c, d]) => [a, b, c, a, c, d].flatMap((i) => at(i as number))),
  );
}
const joined = (...parts: Float32Array[]): Float32Array => Float32Array.from(parts.flatMap((p) => [...p]));
const unit = box([0, 0, 0], [1, 1, 1]);

describe('the readers of the tests see what they should', () => {
  it('a box: closed, one piece, no handles, its volume', () => {
    const mesh = weld(box([0, 0, 0], [2, 3, 4]));
    expect(topologyOf(mesh)).toEqual({
      unmatchedEdges: 0,
      collapsed: 0,
      pinched: 0,
      components: 1,
      euler: 2,
      genus: 0,
    });
    expect(volumeOf(mesh)).toBeCloseTo(24, 12);
    expect(selfCrossings(mesh)).toEqual([]);
  });

  it('a hole, a turned triangle, a doubled wall, a pinch', () => {
    expect(topologyOf(weld(unit.slice(9))).unmatchedEdges).toBe(3);
    const turned = unit.slice();
    turned.set(unit.slice(3, 6), 0);
    turned.set(unit.slice(0, 3), 3);
    expect(topologyOf(weld(turned)).unmatchedEdges).toBeGreaterThan(0);
    expect(topologyOf(weld(joined(unit, unit.slice(0, 9)))).unmatchedEdges).toBeGreaterThan(0);
    // Two boxes that share one corner, and two that share an edge.
    expect(topologyOf(weld(joined(unit, box([1, 1, 1], [2, 2, 2])))).pinched).toBe(1);
    expect(topologyOf(weld(joined(unit, box([1, 1, 0], [2, 2, 1])))).unmatchedEdges).toBe(2);
  });

  it('crossing, touching and nesting', () => {
    const found = (b: Float32Array): number => selfCrossings(weld(joined(unit, b))).length;
    expect(found(box([0.5, 0.25, 0.3], [1.5, 0.75, 0.7]))).toBeGreaterThan(0);
    expect(found(box([0.25, 0.25, 1], [0.75, 0.75, 2]))).toBeGreaterThan(0);
    expect(found(box([1, 0.5, 0.5], [2, 1.5, 1.5]))).toBeGreaterThan(0);
    expect(found(box([0.25, 0.25, 0.25], [0.75, 0.75, 0.75]))).toBe(0);
    expect(found(box([1.0001, 0, 0], [2, 1, 1]))).toBe(0);
    expect(meshesMeet(weld(unit), weld(box([0.9, 0.9, 0.9], [2, 2, 2])))).toBe(true);
    expect(meshesMeet(weld(unit), weld(box([1.1, 0, 0], [2, 1, 1])))).toBe(false);
    // In one plane: apart, and one within the other.
    const flat = (k: number) =>
      [
        [k, k, 0],
        [4 - k, k, 0],
        [k, 4 - k, 0],
      ] as unknown as Parameters<typeof trianglesMeet>[0];
    expect(trianglesMeet(flat(0), flat(1))).toBe(true);
    const beside = flat(0).map(([x, y, z]) => [x + 3, y + 3, z]) as unknown as Parameters<
      typeof trianglesMeet
    >[1];
    expect(trianglesMeet(flat(0), beside)).toBe(false);
  });

  it('a leaf folded flat upon its neighbour', () => {
    const folded = Float32Array.from([0, 0, 0, 2, 0, 0, 0, 2, 0, 2, 0, 0, 0, 0, 0, 1, 1, 0]);
    expect(selfCrossings(weld(folded))).toHaveLength(1);
    const open = Float32Array.from([0, 0, 0, 2, 0, 0, 0, 2, 0, 2, 0, 0, 0, 0, 0, 1, -1, 0]);
    expect(selfCrossings(weld(open))).toEqual([]);
  });

  it('sections, walls and distances of a box with a shaft', () => {
    const shaft = box([1, 1, -1], [2, 2, 5]);
    // Inside out: each triangle with two corners exchanged.
    const turned = shaft.map(
      (_, i) => shaft[i - (i % 9) + ([0, 1, 2, 6, 7, 8, 3, 4, 5][i % 9] as number)] as number,
    );
    const mesh = weld(joined(box([-3, -3, 0], [4, 4, 3]), turned));
    const loops = section(mesh, horizontal(1.3));
    expect(loops.map(areaOf).sort((a, b) => a - b)).toEqual([-1, 49]);
    expect(loops.filter((loop) => encloses(loop, [1.5, 1.5]))).toHaveLength(2);
    expect(nearestApproach(loops.find((loop) => areaOf(loop) < 0) ?? [])).toBeCloseTo(Math.SQRT2, 12);
    expect(verticalHits(mesh, -1.1, 0.3)).toEqual([0, 3]);
  });

  it('an STL whose length does not fit its count is refused', () => {
    expect(() => readBinaryStl(new Uint8Array(83))).toThrow('83 bytes');
    const bytes = new Uint8Array(84 + 50);
    bytes[80] = 2;
    expect(() => readBinaryStl(bytes)).toThrow('2 triangles');
  });
});
