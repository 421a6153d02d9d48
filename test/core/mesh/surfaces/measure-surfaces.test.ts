import { beforeAll, describe, expect, it } from 'vitest';
import { findSurfaces, type MeshSurface, measureSurfaces } from '../../../../core/mesh/surfaces/index.js';
import { loadKernel, measureBounds } from '../../../../core/solid/index.js';
import type { Kernel, Mesh } from '../../../../core/solid/types.js';
import { plate } from './shapes.js';

let kernel: Kernel;
beforeAll(async () => {
  kernel = await loadKernel();
});

const rowsOf = (mesh: Mesh, amountOf?: (s: MeshSurface) => number) =>
  measureSurfaces(findSurfaces(mesh), measureBounds(mesh)!, amountOf);

describe('measureSurfaces', () => {
  it('the sizes of a plate with two bores', () => {
    const rows = rowsOf(plate(kernel));
    const values = Object.fromEntries(rows.map((r) => [r.name, r.value]));
    expect(Object.keys(values)).toEqual([
      'bottom face to top face',
      'left face to right face',
      'front face to back face',
      'diameter of bore at 60, 20',
      'depth of bore at 60, 20',
      'diameter of bore at 12, 30',
      'centres of bore at 60, 20 and bore at 12, 30',
      'bottom face to face up at 4',
    ]);
    const expected = [12, 80, 50, 12, 8, 8, Math.hypot(48, 10), 4];
    rows.forEach((row, i) => {
      expect(row.value).toBeCloseTo(expected[i]!, 4);
    });
    expect(rows.map((r) => r.axis)).toEqual(['z', 'xy', 'xy', 'xy', 'z', 'xy', 'xy', 'z']);
    expect(new Set(rows.map((r) => r.symbol)).size).toBe(rows.length);
  });

  it('the rows of the part moved to the casting, as a casting built with the stock measures', () => {
    const amount = (s: MeshSurface): number =>
      s.kind === 'cylinder' ? 0.5 : s.facing === 'up' ? 1 : s.facing === 'down' ? 2 : 0.25;
    const casting = kernel.scope(() =>
      kernel
        .box([-0.25, -0.25, -2], [80.25, 50.25, 13])
        .subtract(
          kernel.frustum([12, 30], -3, 3.5, 14, 3.5, 0.01),
          kernel.frustum([60, 20], 5, 5.5, 14, 5.5, 0.01),
        )
        .mesh(),
    );
    const [moved, built] = [rowsOf(plate(kernel), amount), rowsOf(casting)];
    // The larger bore comes first, and which that is changes with the stock: by value they are the same.
    const inOrder = (rows: typeof built) => rows.map((r) => r.value).sort((a, b) => a - b);
    expect(moved.length).toBe(built.length);
    inOrder(moved).forEach((value, i) => {
      expect(value).toBeCloseTo(inOrder(built)[i]!, 4);
    });
    expect(moved.map((r) => r.symbol)).toEqual(rowsOf(plate(kernel)).map((r) => r.symbol));
  });

  it('a bore that closes has diameter 0; many bores give a bounded sheet', () => {
    const grid = kernel.scope(() =>
      kernel
        .box([0, 0, 0], [100, 100, 5])
        .subtract(
          ...Array.from({ length: 36 }, (_, i) =>
            kernel.frustum([10 + 16 * (i % 6), 10 + 16 * Math.floor(i / 6)], -1, 2, 6, 2, 0.02),
          ),
        )
        .mesh(),
    );
    const rows = rowsOf(grid, (s) => (s.kind === 'cylinder' ? 3 : 0));
    expect(rows.length).toBeLessThanOrEqual(24);
    expect(rows.find((r) => r.symbol === 'D_1')?.value).toBe(0);
  });
});
