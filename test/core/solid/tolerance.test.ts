import { beforeAll, describe, expect, it } from 'vitest';
import { loadKernel, SolidError, segmentsOfCircle, segmentsOfSphere } from '../../../core/solid/index.js';
import type { Kernel, Mesh, Vec3 } from '../../../core/solid/types.js';

let kernel: Kernel;
beforeAll(async () => {
  kernel = await loadKernel();
});

/** Sagitta of a regular n-gon's side in a circle of radius r: r (1 − cos(π/n)). */
const sagitta = (r: number, n: number): number => r * (1 - Math.cos(Math.PI / n));

describe('sides from the chord tolerance', () => {
  it.each([
    [10, 0.01],
    [0.5, 0.01],
    [250, 0.01],
    [40, 0.001],
    [6, 0.25],
    [1e-3, 1e-5],
  ])('r %d mm at %d mm: near enough, and one side fewer would not be', (r, tolerance) => {
    const n = segmentsOfCircle(r, tolerance);
    expect(sagitta(r, n)).toBeLessThanOrEqual(tolerance * (1 + 1e-9));
    if (n > 8) expect(sagitta(r, n - 1)).toBeGreaterThan(tolerance);
  });

  it('never fewer than 8, never without bound', () => {
    expect(segmentsOfCircle(1, 5)).toBe(8);
    expect(() => segmentsOfCircle(1e6, 1e-6)).toThrow(SolidError);
    expect(() => segmentsOfCircle(10, 0)).toThrow('greater than 0');
    expect(() => segmentsOfCircle(Number.NaN, 0.01)).toThrow('finite');
    expect(segmentsOfSphere(3, 0.01) % 4).toBe(0);
  });
});

const points = (mesh: Mesh): Vec3[] =>
  Array.from(
    { length: mesh.positions.length / 3 },
    (_, i) => [...mesh.positions.subarray(3 * i, 3 * i + 3)] as unknown as Vec3,
  );

/** Least distance of a triangle's plane from the origin, over the mesh. */
function nearestFace(mesh: Mesh): number {
  const all = points(mesh);
  let nearest = Infinity;
  for (let f = 0; f < mesh.triangles.length; f += 3) {
    const [a, b, c] = [0, 1, 2].map((k) => all[mesh.triangles[f + k]!]!) as [Vec3, Vec3, Vec3];
    const u = b.map((v, k) => v - a[k]!);
    const w = c.map((v, k) => v - a[k]!);
    const n = [0, 1, 2].map((k) => u[(k + 1) % 3]! * w[(k + 2) % 3]! - u[(k + 2) % 3]! * w[(k + 1) % 3]!);
    nearest = Math.min(nearest, Math.abs(n.reduce((s, v, k) => s + v * a[k]!, 0)) / Math.hypot(...n));
  }
  return nearest;
}

describe('vertices lie on the exact surface, faces within the tolerance of it', () => {
  it.each([
    [1, 0.01],
    [10, 0.01],
    [10, 0.1],
    [60, 0.05],
    [3, 0.001],
  ])('sphere r %d mm at %d mm', (r, tolerance) => {
    const mesh = kernel.scope(() => kernel.sphere([0, 0, 0], r, tolerance).mesh());
    for (const p of points(mesh)) expect(Math.abs(Math.hypot(...p) - r)).toBeLessThan(r * 2e-7);
    const gap = r - nearestFace(mesh);
    expect(gap).toBeLessThan(tolerance + r * 2e-7);
    // Not many times finer than asked either.
    expect(gap).toBeGreaterThan(tolerance / 2);
  });

  it('cylinder: every vertex on the circle, one of them on +X', () => {
    const mesh = kernel.scope(() => kernel.frustum([0, 0], 0, 7.3, 5, 7.3, 0.01).mesh());
    for (const [x, y] of points(mesh)) expect(Math.abs(Math.hypot(x, y) - 7.3)).toBeLessThan(1e-6);
    expect(points(mesh).some(([x, y]) => x === Math.fround(7.3) && y === 0)).toBe(true);
    expect(mesh.positions.length / 6).toBe(segmentsOfCircle(7.3, 0.01));
  });

  it('revolved ring: radii of the profile, kept exactly', () => {
    const mesh = kernel.scope(() =>
      kernel
        .revolve(
          [
            [4, 0],
            [9, 0],
            [9, 2],
            [4, 3],
          ],
          0.01,
        )
        .mesh(),
    );
    for (const [x, y, z] of points(mesh)) {
      const r = Math.hypot(x, y);
      expect(Math.min(Math.abs(r - 4), Math.abs(r - 9))).toBeLessThan(1e-6);
      expect([0, 2, 3]).toContain(z);
    }
  });
});
