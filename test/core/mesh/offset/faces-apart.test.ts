import { readFileSync } from 'node:fs';
import { beforeAll, expect, test } from 'vitest';
import { readStl } from '../../../../core/files/stl.js';
import { offsetMesh } from '../../../../core/mesh/offset/index.js';
import { inspectMesh, loadKernel } from '../../../../core/solid/index.js';
import type { Kernel, Mesh } from '../../../../core/solid/types.js';

let kernel: Kernel;
beforeAll(async () => {
  kernel = await loadKernel();
});

/** An amount for each triangle by its middle. */
function amountsBy(mesh: Mesh, amount: (x: number, y: number, z: number) => number): Float64Array {
  const { positions: p, triangles: t } = mesh;
  return Float64Array.from({ length: t.length / 3 }, (_, f) => {
    const middle = (k: number): number =>
      (p[3 * t[3 * f]! + k]! + p[3 * t[3 * f + 1]! + k]! + p[3 * t[3 * f + 2]! + k]!) / 3;
    return amount(middle(0), middle(1), middle(2));
  });
}

/** Sides of a box of 20 × 10 × 5 mm: left, right, front, back, bottom, top. */
test.each([
  [[0, 0.3, 0.3, 0.3, 0.3, 0.3]],
  [[0, 0.3, 0.3, 0.3, 2, 0.3]],
  [[0, 0, 0, 0, 2, 0]],
  [[0.1, 0.2, 0.3, 0.4, 0.5, 0.6]],
  [[1, 0, 1, 0, 1, 0]],
])('a box by %j is the larger box, and measured as that', (sides) => {
  const [left, right, front, back, bottom, top] = sides as [number, number, number, number, number, number];
  const box = kernel.scope(() => kernel.box([0, 0, 0], [20, 10, 5]).mesh());
  const of = (x: number, y: number, z: number): number =>
    x < 0.01 ? left : x > 19.99 ? right : y < 0.01 ? front : y > 9.99 ? back : z < 0.01 ? bottom : top;
  const { mesh, error } = kernel.scope(() => offsetMesh(kernel, box, amountsBy(box, of)));
  expect(inspectMesh(mesh).volume).toBeCloseTo(
    (20 + left + right) * (10 + front + back) * (5 + bottom + top),
    2,
  );
  expect(error.max).toBeLessThan(2e-6);
});

test('a face with holes in it may move otherwise than what it meets', () => {
  // The bracket of the example job: foot, block, collars, three bores.
  const bracket = readStl(
    readFileSync(new URL('../../../../gallery/ropewalk/bearing-bracket.stl', import.meta.url)),
  );
  const of = (x: number, _y: number, z: number): number => (z < 0.01 ? 2 : x < -37.99 ? 0 : 0.3);
  const { mesh, error } = kernel.scope(() => offsetMesh(kernel, bracket, amountsBy(bracket, of)));
  expect(inspectMesh(mesh).ok).toBe(true);
  expect(error.max).toBeLessThan(1e-5);
});
