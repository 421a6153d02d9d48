import { beforeAll, describe, expect, test } from 'vitest';
import { evenEdges, gridOf, stretchedEdges } from '../../../core/freeze/grid.js';
import { fillShares } from '../../../core/freeze/voxels.js';
import { loadKernel } from '../../../core/solid/kernel.js';
import type { Kernel, Mesh } from '../../../core/solid/types.js';

let kernel: Kernel;
beforeAll(async () => {
  kernel = await loadKernel();
});

const volumeOf = (mesh: Mesh, step: number, samples?: number): number => {
  const edges = stretchedEdges([-40, 40], [-30, 30], step);
  const grid = gridOf(edges, edges, edges);
  const share = fillShares(mesh, grid, samples);
  const [nx, ny] = grid.counts;
  return share.reduce((sum, s, c) => {
    const [i, j, k] = [c % nx, Math.floor(c / nx) % ny, Math.floor(c / (nx * ny))];
    return sum + s * (edges[i + 1]! - edges[i]!) * (edges[j + 1]! - edges[j]!) * (edges[k + 1]! - edges[k]!);
  }, 0);
};

describe('shares of cells', () => {
  test('of a box on the cells’ edges are whole, of a thin wall between them its own share', () => {
    const grid = gridOf(evenEdges(0, 10, 10), evenEdges(0, 10, 10), evenEdges(0, 10, 10));
    const box = kernel.scope(() => kernel.box([2, 2, 2], [5, 5, 5]).mesh());
    const share = fillShares(box, grid);
    expect([...new Set(share)].sort()).toEqual([0, 1]);
    expect(share.reduce((a, b) => a + b)).toBe(27);
    const wall = kernel.scope(() => kernel.box([0, 0, 4.4], [10, 10, 4.7]).mesh());
    for (const [c, s] of fillShares(wall, grid).entries())
      expect(s).toBeCloseTo(Math.floor(c / 100) === 4 ? 0.3 : 0, 6);
  });

  test.each([
    ['sphere', () => kernel.sphere([0.3, 0.2, 0.1], 20, 0.01), (4 / 3) * Math.PI * 20 ** 3],
    ['cone', () => kernel.frustum([0, 0], -15, 25, 15, 5, 0.01), (Math.PI / 3) * 30 * (625 + 125 + 25)],
  ] as const)('of a %s add up to its volume', (_, make, exact) => {
    const mesh = kernel.scope(() => make().mesh());
    expect(volumeOf(mesh, 2) / exact).toBeCloseTo(1, 2);
    expect(Math.abs(volumeOf(mesh, 1) / exact - 1)).toBeLessThan(0.003);
  });

  test('uprights through corners and edges are counted once', () => {
    // Every upright of the samples runs along faces, edges and corners of this one.
    const steps = kernel.scope(() =>
      kernel
        .union([kernel.box([-20, -20, -20], [0, 0, 0]), kernel.box([-10, -10, -10], [10, 10, 10])])
        .mesh(),
    );
    const grid = gridOf(evenEdges(-35, 35, 7), evenEdges(-35, 35, 7), evenEdges(-35, 35, 7));
    const share = fillShares(steps, grid, 1);
    const exact = 20 ** 3 + 20 ** 3 - 10 ** 3;
    expect(share.reduce((a, b) => a + b) * 1000).toBeGreaterThan(0.7 * exact);
    expect(share.reduce((a, b) => a + b) * 1000).toBeLessThan(1.4 * exact);
  });
});
