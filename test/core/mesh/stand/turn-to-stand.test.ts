import fc from 'fast-check';
import { beforeAll, describe, expect, it } from 'vitest';
import { turnToStand } from '../../../../core/mesh/stand/index.js';
import { readParameters } from '../../../../core/part/parameters.js';
import { noStock } from '../../../../core/part/stock.js';
import { inspectMesh, loadKernel, measureBounds } from '../../../../core/solid/index.js';
import type { Kernel, Mesh, Vec3 } from '../../../../core/solid/types.js';
import spurGear from '../../../../generators/spur-gear.js';
import { expectSound } from '../../../helpers/expect-sound.js';
import { anyTurn, apply, turnFrom } from './shapes.js';

let kernel: Kernel;
let gear: Mesh;
let bracket: Mesh;
beforeAll(async () => {
  kernel = await loadKernel();
  const reading = readParameters(spurGear, {}, { lengthUnit: 'mm' });
  if (!reading.ok) throw new Error('no gear');
  gear = kernel.scope(() => {
    const built = spurGear.build(reading.parameters as never, noStock, { kernel, tolerance: 0.03 });
    return built.solid!.mesh();
  });
  bracket = kernel.scope(() =>
    kernel
      .union([kernel.box([3, 5, 7], [63, 25, 12]), kernel.box([3, 5, 7], [10, 25, 47])])
      .subtract(kernel.frustum([40, 15], 0, 4, 20, 4, 0.02))
      .mesh(),
  );
});

const axes: readonly Vec3[] = [
  [0, 0, 1],
  [0, 0, -1],
  [1, 0, 0],
  [-1, 0, 0],
  [0, 1, 0],
  [0, -1, 0],
];

describe('stands a part up', () => {
  it.each(axes.map((a) => [a]))('on an axis by a quarter turn, its flats exactly flat: %s', (axis) => {
    const { mesh, rotation, problems } = turnToStand(bracket, axis);
    expect(problems).toEqual([]);
    expectSound(mesh);
    expect(rotation[2]).toEqual(axis);
    // Ones and noughts, and right-handed.
    for (const row of rotation) expect([...row].map(Math.abs).sort()).toEqual([0, 0, 1]);
    const [a, b, c] = rotation;
    expect(
      [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]].map((x) => x + 0),
    ).toEqual(c.map((x) => x + 0));
    const { min, max } = measureBounds(mesh)!;
    const sides = [60, 20, 40];
    const up = axis.findIndex((x) => x !== 0);
    const plan = up === 2 ? [60, 20] : sides.filter((_, k) => k !== up).sort((p, q) => q - p);
    expect(min).toEqual([-plan[0]! / 2, -plan[1]! / 2, 0]);
    expect(max).toEqual([plan[0]! / 2, plan[1]! / 2, sides[up]]);
    // Its straight sides have two or three heights each, as before.
    const flat = new Set<number>();
    for (let i = 2; i < mesh.positions.length; i += 3) flat.add(mesh.positions[i]!);
    if (up === 2) expect([...flat].sort((p, q) => p - q)).toEqual(axis[2] > 0 ? [0, 5, 40] : [0, 35, 40]);
  });

  it('any way: sound, as large as before, lowest at 0, long side along x, points where it says', () => {
    fc.assert(
      fc.property(anyTurn, fc.boolean(), (turn, which) => {
        const before = which ? gear : bracket;
        const direction = turn[2];
        const { mesh, rotation, shift, problems } = turnToStand(before, direction);
        expect(problems).toEqual([]);
        expectSound(mesh);
        const { min, max } = measureBounds(mesh)!;
        expect(min[2]).toBe(0);
        expect(Math.abs(min[0] + max[0])).toBeLessThan(1e-4);
        expect(Math.abs(min[1] + max[1])).toBeLessThan(1e-4);
        expect(max[0] - min[0]).toBeGreaterThanOrEqual(max[1] - min[1] - 1e-3);
        expect(apply(rotation, direction)[2]).toBeCloseTo(1, 12);
        for (const [i, row] of rotation.entries())
          for (const [j, other] of rotation.entries())
            expect(row[0] * other[0] + row[1] * other[1] + row[2] * other[2]).toBeCloseTo(
              i === j ? 1 : 0,
              12,
            );
        expect(mesh.triangles).toBe(before.triangles);
        for (let i = 0; i < mesh.positions.length; i += 3 * 17) {
          const p = apply(rotation, [
            before.positions[i]!,
            before.positions[i + 1]!,
            before.positions[i + 2]!,
          ]);
          for (let k = 0; k < 3; k++) expect(mesh.positions[i + k]).toBeCloseTo(p[k]! + shift[k]!, 3);
        }
        expect(turnToStand(before, direction)).toEqual({ mesh, rotation, shift, problems });
      }),
      { numRuns: 25, seed: 81 },
    );
  });

  it('on a leaning side, which then lies on the bed to the last bit', () => {
    fc.assert(
      fc.property(anyTurn, (turn) => {
        const wedge = kernel.scope(() =>
          kernel
            .extrude(
              [
                [
                  [0, 0],
                  [50, 0],
                  [50, 20],
                  [0, 35],
                ],
              ],
              0,
              30,
            )
            .mesh(),
        );
        const p = wedge.positions.map(
          (_, i) =>
            apply(turn, [...wedge.positions.subarray(i - (i % 3), i - (i % 3) + 3)] as unknown as Vec3)[
              i % 3
            ]!,
        );
        // The slope runs down 15 in 50: square to it is (15, 50).
        const n = Math.hypot(15, 50);
        const { mesh } = turnToStand(
          { positions: p, triangles: wedge.triangles },
          apply(turn, [-15 / n, -50 / n, 0]),
        );
        const low = [...mesh.positions].filter((z, i) => i % 3 === 2 && z < 0.1);
        expect(low).toEqual([0, 0, 0, 0]);
      }),
      { numRuns: 20, seed: 82 },
    );
  });

  describe('with a slit so thin that single precision loses it', () => {
    /** A bar with a slit across, `width` wide at x = `at`, made on the numbers themselves. */
    const slit = (at: number, width: number): Mesh => {
      const mesh = kernel.scope(() =>
        kernel
          .box([0, 0, 0], [70, 10, 10])
          .subtract(kernel.box([at, -1, 5], [at + 1, 11, 11]))
          .mesh(),
      );
      const wide = Math.fround(at + 1);
      return {
        ...mesh,
        positions: mesh.positions.map((x, i) => (i % 3 === 0 && x === wide ? at + width : x)),
      };
    };

    it('a quarter turn keeps it, if need be where it was in plan', () => {
      const mesh = slit(2 ** -10, 2 ** -30);
      expectSound(mesh);
      for (const axis of axes) {
        const found = turnToStand(mesh, axis);
        expect(found.mesh.positions.length).toBe(mesh.positions.length);
        // Along z itself the shift to nought is all there is, and it may be lost.
        if (axis[0] === 0) {
          expect(found.problems).toEqual([]);
          expectSound(found.mesh);
          expect(found.shift[0]).toBe(0);
        }
      }
    });

    it('a free turn looks a little further about z for one that keeps it', () => {
      const mesh = slit(9, 2 ** -20);
      const wide = slit(9, 1);
      let mended = 0;
      for (let k = 0; k < 16; k++) {
        const { 2: up } = turnFrom([1, 0.3 + 0.1 * k, 0.7 - 0.05 * k, 0.2 + 0.03 * k]);
        const found = turnToStand(mesh, up);
        expect(inspectMesh(found.mesh).problems).toEqual(found.problems);
        const plain = turnToStand(wide, up).rotation[0];
        const further = Math.hypot(...found.rotation[0].map((r, i) => r - plain[i]!)) > 1e-3;
        if (further && found.problems.length === 0) mended++;
      }
      expect(mended).toBeGreaterThan(0);
    });

    it('what every turn spoils is said', () => {
      const { problems, mesh } = turnToStand(slit(2 ** -10, 2 ** -30), [0.36, 0.48, 0.8]);
      expect(problems.length).toBeGreaterThan(0);
      expect(inspectMesh(mesh).problems).toEqual(problems);
    });
  });
});
