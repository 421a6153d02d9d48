import { beforeAll, describe, expect, test } from 'vitest';
import { offsetMesh } from '../../../../core/mesh/offset/index.js';
import { inspectMesh } from '../../../../core/solid/index.js';
import { loadKernel } from '../../../../core/solid/kernel.js';
import type { Kernel, Mesh } from '../../../../core/solid/types.js';
import { expectSound } from '../../../helpers/expect-sound.js';
import { amountsOf, facesOf, meshOf, subdivide, torus, verticesOf } from './shapes.js';

let kernel: Kernel;
beforeAll(async () => {
  kernel = await loadKernel();
});

const uniform = (mesh: Mesh, d: number) => new Float64Array(mesh.triangles.length / 3).fill(d);
const volume = (mesh: Mesh): number => inspectMesh(mesh).volume;

describe('flat faces', () => {
  test.each([1, -1, 0.25, -4.9])('a cube grows by %d mm a side, its edges sharp', (d) => {
    const cube = meshOf(kernel, () => kernel.box([0, 0, 0], [10, 10, 10]));
    const { mesh, error } = offsetMesh(kernel, cube, uniform(cube, d));
    expectSound(mesh);
    expect(mesh.triangles.length).toBe(36);
    expect(volume(mesh)).toBeCloseTo((10 + 2 * d) ** 3, 3);
    expect(error.max).toBeLessThan(1e-6);
  });

  test('faces move each by their own amount', () => {
    const cube = meshOf(kernel, () => kernel.box([0, 0, 0], [10, 20, 30]));
    const amounts = amountsOf(cube, (n) => (n[0] > 0.5 ? 1 : n[1] < -0.5 ? 2 : n[2] > 0.5 ? 0.5 : 0));
    const { mesh, error } = offsetMesh(kernel, cube, amounts);
    expectSound(mesh);
    expect(inspectMesh(mesh).boundingBox).toEqual({ min: [0, -2, 0], max: [11, 20, 30.5] });
    expect(volume(mesh)).toBeCloseTo(11 * 22 * 30.5, 2);
    expect(error.max).toBeLessThan(1e-6);
  });

  test('an inner corner: a notched block against the block of the moved planes', () => {
    const notched = (d: number) =>
      meshOf(kernel, () =>
        kernel
          .box([-d, -d, -d], [20 + d, 20 + d, 20 + d])
          .subtract(kernel.box([8 + d, 8 + d, 8 + d], [30, 30, 30])),
      );
    const { mesh, error } = offsetMesh(kernel, notched(0), uniform(notched(0), 0.7));
    expectSound(mesh);
    expect(volume(mesh)).toBeCloseTo(volume(notched(0.7)), 2);
    expect(error.max).toBeLessThan(1e-6);
  });

  test('a slot narrower than twice the amount closes', () => {
    const slotted = meshOf(kernel, () =>
      kernel.box([0, 0, 0], [20, 20, 20]).subtract(kernel.box([9, -1, 8], [10, 21, 21])),
    );
    const { mesh, error } = offsetMesh(kernel, slotted, uniform(slotted, 0.7));
    expectSound(mesh);
    expect(volume(mesh)).toBeCloseTo(21.4 ** 3, 1);
    expect(error.joined).toBeGreaterThan(0);
    expect(error.max).toBeLessThan(3e-3);
  });

  test('two bodies that grow into each other become one', () => {
    const two = meshOf(kernel, () =>
      kernel.box([0, 0, 0], [10, 10, 10]).add(kernel.box([11, 0, 0], [20, 10, 10])),
    );
    const { mesh, error } = offsetMesh(kernel, two, uniform(two, 0.7));
    expectSound(mesh);
    expect(inspectMesh(mesh).components).toBe(1);
    expect(volume(mesh)).toBeCloseTo(21.4 * 11.4 * 11.4, 2);
    expect(error.max).toBeLessThan(3e-3);
  });

  test('the mitre of a knife edge is cut off, and counted', () => {
    const knife = meshOf(kernel, () =>
      kernel.extrude(
        [
          [
            [0, 0],
            [20, -1],
            [20, 1],
          ],
        ],
        0,
        10,
      ),
    );
    const { mesh, error } = offsetMesh(kernel, knife, uniform(knife, 0.5));
    expectSound(mesh);
    expect(error.bevelled).toBe(1);
    // Uncut it would stand out by 0.5 / sin(2.86°) = 10 mm; cut, by 3.5 amounts.
    expect(inspectMesh(mesh).boundingBox?.min[0]).toBeCloseTo(-1.75, 2);
    expect(error.max).toBeLessThan(3e-3);
  });
});

describe('marks on part of a face', () => {
  const plate = (): Mesh => {
    let mesh = meshOf(kernel, () => kernel.box([0, 0, 0], [10, 10, 10]));
    for (let i = 0; i < 3; i++) mesh = subdivide(mesh);
    return mesh;
  };

  test.each([1, -1])('half a face moves farther, with a wall between (%d)', (sign) => {
    const mesh = plate();
    const amounts = amountsOf(mesh, (n, c) => sign * (n[2] > 0.5 && c[0] < 5 ? 1 : 0.5));
    const result = offsetMesh(kernel, mesh, amounts);
    expectSound(result.mesh);
    const side = 10 + sign;
    const half = side / 2;
    expect(volume(result.mesh)).toBeCloseTo(half * side * (10 + sign * 1.5) + half * side * side, 2);
    expect(result.error.steps).toBe(8);
    expect(result.error.max).toBeLessThan(1e-6);
    const walls = facesOf(result.mesh).filter(({ n, c }) => Math.abs(n[0]) > 0.9 && Math.abs(c[0] - 5) < 1);
    for (const { n, c } of walls) expect([Math.abs(n[0]), c[0]]).toEqual([1, 5]);
  });
});

describe('round bodies', () => {
  const ballRadii = (mesh: Mesh) => verticesOf(mesh).map((v) => Math.hypot(...v));

  test.each([0.5, -0.5, 2])('a ball of 20 mm by %d mm', (d) => {
    const ball = meshOf(kernel, () => kernel.sphere([0, 0, 0], 20, 0.01));
    const { mesh, error } = offsetMesh(kernel, ball, uniform(ball, d));
    expectSound(mesh);
    const radii = ballRadii(mesh);
    // The facets lie up to 0.01 mm inside the ball; where their moved planes meet is as near to the larger one.
    expect(Math.max(...radii)).toBeLessThan(20 + d + 0.001 * Math.abs(d) + 1e-5);
    expect(Math.min(...radii)).toBeGreaterThan(20 + d - 0.001 * Math.abs(d) - 1e-5);
    expect(error.max).toBeLessThan(2e-5);
  });

  test.each([1, -1])('a torus by %d mm', (d) => {
    const ring = torus(kernel, 20, 6, 0.02);
    const { mesh, error } = offsetMesh(kernel, ring, uniform(ring, d));
    expectSound(mesh);
    expect(inspectMesh(mesh).genus).toBe(1);
    for (const [x, y, z] of verticesOf(mesh)) {
      const tube = Math.hypot(Math.hypot(x, y) - 20, z);
      expect(Math.abs(tube - 6 - d)).toBeLessThan(2e-3);
    }
    expect(error.max).toBeLessThan(1e-4);
  });

  test('a tube: its bore shrinks as its outside grows, and closes when the amount is past its radius', () => {
    const tube = meshOf(kernel, () =>
      kernel.frustum([0, 0], 0, 10, 20, 10, 0.01).subtract(kernel.frustum([0, 0], -1, 1, 21, 1, 0.01)),
    );
    const open = offsetMesh(kernel, tube, uniform(tube, 0.5));
    expectSound(open.mesh);
    expect(inspectMesh(open.mesh).genus).toBe(1);
    // Facets 0.01 mm within a circle of 10 mm hold 0.13 % less.
    expect(volume(open.mesh) / (Math.PI * (10.5 ** 2 - 0.5 ** 2) * 21)).toBeCloseTo(1, 2);
    const closed = offsetMesh(kernel, tube, uniform(tube, 1.5));
    expectSound(closed.mesh);
    expect(inspectMesh(closed.mesh).genus).toBe(0);
    expect(volume(closed.mesh) / (Math.PI * 11.5 ** 2 * 23)).toBeCloseTo(1, 2);
    for (const { error } of [open, closed]) expect(error.max).toBeLessThan(3e-3);
  });

  test('an amount of nothing gives the same surface', () => {
    const ball = meshOf(kernel, () => kernel.sphere([0, 0, 0], 5, 0.05));
    expect(offsetMesh(kernel, ball, uniform(ball, 0)).mesh).toEqual(ball);
  });
});

describe('refusals', () => {
  const cube = (): Mesh => meshOf(kernel, () => kernel.box([0, 0, 0], [10, 10, 10]));
  test('amounts that are too few, of both signs or not finite', () => {
    const mesh = cube();
    expect(() => offsetMesh(kernel, mesh, new Float64Array(3))).toThrow(/3 amounts for 12 triangles/);
    expect(() => offsetMesh(kernel, mesh, uniform(mesh, 1).fill(-1, 4))).toThrow(
      /all go outward or all inward/,
    );
    expect(() => offsetMesh(kernel, mesh, uniform(mesh, Number.NaN))).toThrow(/finite/);
  });
  test('an open mesh', () => {
    const { positions, triangles } = cube();
    const mesh = { positions, triangles: triangles.slice(3) };
    expect(() => offsetMesh(kernel, mesh, uniform(mesh, 1))).toThrow(/not closed/);
  });
  test('a body that is gone', () => {
    expect(() => offsetMesh(kernel, cube(), uniform(cube(), -6))).toThrow(/nothing is left/);
  });
});
