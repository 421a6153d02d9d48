import fc from 'fast-check';
import { beforeAll, describe, expect, test } from 'vitest';
import { offsetMesh } from '../../../../core/mesh/offset/index.js';
import { inspectMesh } from '../../../../core/solid/index.js';
import { loadKernel } from '../../../../core/solid/kernel.js';
import type { Kernel, Mesh, Solid, Vec3 } from '../../../../core/solid/types.js';
import { amountsOf, facesOf, meshOf, verticesOf } from './shapes.js';

let kernel: Kernel;
beforeAll(async () => {
  kernel = await loadKernel();
});

const runs = Number(process.env.PATTERNWRIGHT_RUNS ?? 12);
const size = fc.integer({ min: 3, max: 12 });
const place = fc.integer({ min: -8, max: 8 });
const block = fc.record({
  at: fc.tuple(place, place, place),
  size: fc.tuple(size, size, size),
  round: fc.boolean(),
});
const blocks = fc.array(block, { minLength: 1, maxLength: 3 });
/** Tenths of a millimetre by the direction a face looks in. */
const sixAmounts = fc.array(fc.integer({ min: 0, max: 8 }), { minLength: 6, maxLength: 6 });

function build(list: readonly { at: readonly number[]; size: readonly number[]; round: boolean }[]): Mesh {
  return meshOf(kernel, () => {
    const solids = list.map(({ at, size: s, round }, i): Solid => {
      // Odd parts of a millimetre: faces of different blocks never lie in one plane.
      const [x, y, z] = at.map((v, k) => v + 0.137 * (i + 1) + 0.031 * k) as [number, number, number];
      return round
        ? kernel.frustum([x, y], z, s[0]! / 2, z + s[2]!, s[0]! / 2, 0.05)
        : kernel.box([x, y, z], [x + s[0]!, y + s[1]!, z + s[2]!]);
    });
    return kernel.union(solids);
  });
}

/** The side a face looks to: its largest part, and its sign. */
const sideOf = (n: Vec3): number => {
  const k = [0, 1, 2].reduce((best, i) => (Math.abs(n[i]!) > Math.abs(n[best]!) + 1e-3 ? i : best), 0);
  return 2 * k + (n[k]! > 0 ? 1 : 0);
};

describe('blocks and rounds united', () => {
  test('one amount all over: sound, larger, within the box grown by as much, near what was asked', () => {
    fc.assert(
      fc.property(blocks, fc.integer({ min: 1, max: 10 }), (list, tenths) => {
        const mesh = build(list);
        const d = tenths / 10;
        const { mesh: result, error } = offsetMesh(
          kernel,
          mesh,
          new Float64Array(mesh.triangles.length / 3).fill(d),
          {
            samples: 3000,
          },
        );
        const [before, after] = [inspectMesh(mesh), inspectMesh(result)];
        expect(after.problems).toEqual([]);
        expect(after.volume).toBeGreaterThan(before.volume);
        // No more than the box round it grown by the same.
        const box = [0, 1, 2].map((k) => after.boundingBox!.max[k]! - after.boundingBox!.min[k]!);
        const grown = [0, 1, 2].map((k) => before.boundingBox!.max[k]! - before.boundingBox!.min[k]! + 2 * d);
        box.forEach((side, k) => {
          // The mitre of a round's facets, 8 or more of them, stands out by 1 / cos 22.5° of the amount.
          expect(side).toBeLessThan(grown[k]! + 0.17 * d + 0.02);
        });
        expect(error.mean).toBeLessThan(0.02 * d);
      }),
      { numRuns: runs, seed: 8 },
    );
  });

  test('an amount for each side of the boxes', () => {
    fc.assert(
      fc.property(
        fc.array(
          block.map((b) => ({ ...b, round: false })),
          { minLength: 1, maxLength: 3 },
        ),
        sixAmounts,
        (list, six) => {
          const mesh = build(list);
          const amounts = amountsOf(mesh, (n) => six[sideOf(n)]! / 10);
          const { mesh: result, error } = offsetMesh(kernel, mesh, amounts, { samples: 3000 });
          const report = inspectMesh(result);
          expect(report.problems).toEqual([]);
          const { min, max } = inspectMesh(mesh).boundingBox!;
          const { min: low, max: high } = report.boundingBox!;
          for (let k = 0; k < 3; k++) {
            // Pieces reach up to 0.005 mm over what they are joined to.
            expect(Math.abs(low[k]! - min[k]! + six[2 * k]! / 10)).toBeLessThan(0.005);
            expect(Math.abs(high[k]! - max[k]! - six[2 * k + 1]! / 10)).toBeLessThan(0.005);
          }
          expect(error.mean).toBeLessThan(0.01);
        },
      ),
      { numRuns: runs, seed: 8 },
    );
  });
});

describe('convex bodies', () => {
  const points = fc.array(
    fc.tuple(
      fc.double({ min: -10, max: 10, noNaN: true }),
      fc.double({ min: -10, max: 10, noNaN: true }),
      fc.double({ min: -10, max: 10, noNaN: true }),
    ),
    { minLength: 6, maxLength: 12 },
  );

  test('a hull: nothing outside any moved plane by more than the error told, every face moved by its amount within it', () => {
    fc.assert(
      fc.property(points, fc.integer({ min: 1, max: 10 }), (list, tenths) => {
        const mesh = meshOf(kernel, () =>
          kernel.hull(list.map(([x, y, z]) => kernel.box([x, y, z], [x + 2, y + 2.1, z + 2.2]))),
        );
        const d = tenths / 10;
        const { mesh: result, error } = offsetMesh(
          kernel,
          mesh,
          new Float64Array(mesh.triangles.length / 3).fill(d),
          {
            samples: 3000,
          },
        );
        expect(inspectMesh(result).problems).toEqual([]);
        const faces = facesOf(mesh);
        const corners = verticesOf(result);
        for (const { n, c } of faces) {
          const heights = corners.map(
            (v) => n[0] * (v[0] - c[0]) + n[1] * (v[1] - c[1]) + n[2] * (v[2] - c[2]),
          );
          expect(Math.max(...heights)).toBeLessThan(d + error.max + 1e-4);
          expect(Math.max(...heights)).toBeGreaterThan(d - error.max - 1e-4);
        }
        expect(error.mean).toBeLessThan(0.01);
      }),
      { numRuns: runs, seed: 8 },
    );
  });
});

describe('the same thing, moved', () => {
  test('turned, carried and scaled bodies give the turned, carried and scaled result', () => {
    fc.assert(
      fc.property(blocks, fc.constantFrom('x', 'y', 'z'), fc.constantFrom(0.5, 2), (list, axis, factor) => {
        const mesh = build(list);
        const moved = meshOf(kernel, () =>
          kernel
            .fromMesh(mesh)
            .rotate(axis, Math.PI / 2)
            .translate([32, -16, 8])
            .scale(factor),
        );
        const [a, b] = [
          offsetMesh(kernel, mesh, new Float64Array(mesh.triangles.length / 3).fill(0.4), { samples: 2000 }),
          offsetMesh(kernel, moved, new Float64Array(moved.triangles.length / 3).fill(0.4 * factor), {
            samples: 2000,
          }),
        ];
        const [before, after] = [inspectMesh(a.mesh), inspectMesh(b.mesh)];
        expect(after.problems).toEqual([]);
        expect(after.volume / before.volume / factor ** 3).toBeCloseTo(1, 3);
      }),
      { numRuns: Math.ceil(runs / 2), seed: 8 },
    );
  });
});
