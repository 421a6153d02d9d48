import modeling from '@jscad/modeling';
import { beforeAll, describe, expect, it } from 'vitest';
import { inspectMesh, loadKernel, SolidError, scaleMesh } from '../../../core/solid/index.js';
import type { Kernel, Mesh, Solid } from '../../../core/solid/types.js';
import { expectSound } from '../../helpers/expect-sound.js';

let kernel: Kernel;
beforeAll(async () => {
  kernel = await loadKernel();
});

const box = (a: number, b: number): Solid => kernel.box([a, a, a], [b, b, b]);
const codeOf = (act: () => unknown): string => {
  try {
    act();
  } catch (error) {
    if (error instanceof SolidError) return error.code;
    throw error;
  }
  return 'none';
};

describe('components', () => {
  it('a cavity stays with the piece round it, a loose body within it is a piece', () => {
    const volumes = kernel.scope(() => {
      const hollow = box(-10, 10).subtract(box(-6, 6)).add(box(-2, 2));
      const drilled = box(20, 26).subtract(box(22, 23));
      const pieces = hollow.add(drilled, box(-13, -11)).components();
      for (const piece of pieces) expectSound(piece.mesh());
      return pieces.map((piece) => piece.volume());
    });
    expect(volumes.map((v) => Math.round(v * 1e6) / 1e6)).toEqual([8000 - 1728, 216 - 1, 64, 8]);
  });

  it('equal pieces come in order of place, an empty solid has none', () => {
    const corners = kernel.scope(() =>
      kernel
        .union([box(4, 5), box(0, 1), box(2, 3)])
        .components()
        .map((piece) => piece.bounds().min[0]),
    );
    expect(corners).toEqual([0, 2, 4]);
    expect(kernel.scope(() => box(0, 1).intersect(box(5, 6)).components().length)).toBe(0);
  });
});

describe('a hinge leaf: block, bore and countersunk holes against closed form', () => {
  it('volume, genus and centroid', () => {
    const tolerance = 0.002;
    const { mesh, mass } = kernel.scope(() => {
      const leaf = kernel.box([0, 0, 0], [60, 38, 4]);
      const holes = [12, 30, 48].map((x) => kernel.frustum([x, 12], -1, 2.5, 5, 2.5, tolerance));
      const sinks = [12, 30, 48].map((x) => kernel.frustum([x, 12], 2, 2.5, 5, 5.5, tolerance));
      const pin = kernel.frustum([0, 0], -1, 3, 61, 3, tolerance).rotate('y', Math.PI / 2);
      const knuckle = kernel.frustum([0, 0], 0, 6, 60, 6, tolerance).rotate('y', Math.PI / 2);
      const solid = leaf
        .add(knuckle.translate([0, 38, 6]))
        .subtract(...holes, ...sinks, pin.translate([0, 38, 6]));
      return { mesh: solid.mesh(), mass: solid.massProperties() };
    });
    expectSound(mesh);
    expect(inspectMesh(mesh).genus).toBe(4);
    // The knuckle's axis stands over the leaf's edge at twice 3 mm: the leaf's top cuts it at y = 38 ± √(36 − 4).
    const leafArea = 38 * 4;
    // Half of the segment of the circle below z = 4 that lies over the leaf, 0 ≤ z, y ≤ 38.
    const segment = 36 * Math.acos(2 / 6) - 2 * Math.sqrt(32);
    const profile = leafArea + Math.PI * (36 - 9) - segment / 2;
    // Hole to the sink's foot, then the cone from 2.5 to 4.5 over 2 mm.
    const hole = Math.PI * 2.5 ** 2 * 2 + (Math.PI * 2 * (2.5 ** 2 + 2.5 * 4.5 + 4.5 ** 2)) / 3;
    const exact = profile * 60 - 3 * hole;
    expect(Math.abs(mass.volume - exact) / exact).toBeLessThan(5e-4);
    expect(mass.centroid[0]).toBeCloseTo(30, 4);
  });
});

describe('scopes', () => {
  it('let plain data out, never a solid, in whatever it is wrapped', () => {
    for (const wrap of [
      (s: Solid): unknown => s,
      (s: Solid): unknown => ({ deep: [{ solid: s }] }),
      (s: Solid): unknown => Promise.resolve(s),
    ])
      expect(codeOf(() => kernel.scope(() => wrap(box(0, 1))))).toBe('scope');
    expect(kernel.scope(() => ({ mesh: box(0, 1).mesh(), name: 'x', list: [1, 2] })).list).toEqual([1, 2]);
  });

  it('an inner scope’s solids end with it, the outer one’s do not', () => {
    kernel.scope(() => {
      const outer = box(0, 2);
      const kept: Solid[] = [];
      kernel.scope(() => {
        kept.push(outer.subtract(box(1, 3)));
        return kept[0]!.volume();
      });
      expect(codeOf(() => kept[0]!.volume())).toBe('scope');
      expect(codeOf(() => outer.add(kept[0]!))).toBe('scope');
      expect(outer.volume()).toBe(8);
      return 0;
    });
  });

  it('one kernel for the program', async () => {
    expect(await loadKernel()).toBe(kernel);
  });
});

describe('every refusal has its code', () => {
  it.each<[string, () => unknown]>([
    ['bad-size', () => box(0, 1).translate([0, Number.POSITIVE_INFINITY, 0])],
    ['bad-size', () => box(0, 1).rotate('z', Number.NaN)],
    ['bad-size', () => box(0, 1).mirror([0, 0, 0])],
    ['empty-operand', () => box(0, 1).add(box(0, 1).intersect(box(5, 6)))],
    ['empty-operand', () => kernel.union([box(0, 1), box(0, 1).intersect(box(5, 6))])],
    ['empty-operand', () => box(0, 1).intersect(box(5, 6)).mesh()],
    ['empty-result', () => box(0, 1).subtract(box(-1, 2))],
    ['not-carriable', () => kernel.union([box(0, 1), box(1, 2)]).mesh()],
    [
      'bad-mesh',
      () => kernel.fromMesh({ positions: new Float32Array(9), triangles: new Uint32Array([0, 1, 2]) }),
    ],
    ['bad-mesh', () => kernel.fromMesh(openBox())],
    ['bad-mesh', () => kernel.fromMesh(turnedBox())],
    ['bad-mesh', () => kernel.fromModeling(openModelingBox())],
    ['bad-mesh', () => kernel.fromModeling(modeling.geometries.geom3.create([]))],
    ['kernel-failure', () => box(0, 1).add({} as Solid)],
  ])('%s', (code, act) => {
    expect(codeOf(() => kernel.scope(() => void act()))).toBe(code);
  });
});

const closedBox = (): Mesh => kernel.scope(() => box(0, 1).mesh());
const openBox = (): Mesh => ({ ...closedBox(), triangles: closedBox().triangles.slice(3) });
const turnedBox = (): Mesh => ({ ...closedBox(), triangles: closedBox().triangles.slice().reverse() });
const openModelingBox = (): unknown => {
  const { geometries, primitives } = modeling;
  const faces = geometries.geom3.toPolygons(primitives.cuboid({ size: [2, 2, 2] }));
  return geometries.geom3.create(faces.slice(1));
};

describe('@jscad/modeling shapes with faces of many corners', () => {
  it.each<[string, () => unknown, number]>([
    [
      'cylinder',
      () => modeling.primitives.cylinder({ radius: 3, height: 10, segments: 48 }),
      24 * 9 * 10 * Math.sin(Math.PI / 24),
    ],
    [
      'turned and moved',
      () =>
        modeling.transforms.translate(
          [30, -7, 2],
          modeling.transforms.rotate([0.3, 0.4, 0.5], modeling.primitives.cuboid({ size: [2, 3, 4] })),
        ),
      24,
    ],
    [
      'mirrored',
      () => modeling.transforms.mirrorX(modeling.primitives.cuboid({ size: [2, 3, 4], center: [5, 0, 0] })),
      24,
    ],
    [
      'extruded letter L, a face that is not convex',
      () =>
        modeling.extrusions.extrudeLinear(
          { height: 2 },
          modeling.primitives.polygon({
            points: [
              [0, 0],
              [4, 0],
              [4, 1],
              [1, 1],
              [1, 5],
              [0, 5],
            ],
          }),
        ),
      16,
    ],
  ])('%s', (_, make, volume) => {
    const mesh = kernel.scope(() => {
      const solid = kernel.fromModeling(make());
      expect(solid.volume()).toBeCloseTo(volume, 6);
      return solid.mesh();
    });
    expectSound(mesh);
  });
});

describe('scaleMesh', () => {
  it('each coordinate times its factor, rounded once', () => {
    const mesh = kernel.scope(() => kernel.sphere([3, -4, 9], 7.7, 0.1).mesh());
    const factors = [1.0213, 1.0213, 1.0241] as const;
    const scaled = scaleMesh(mesh, factors);
    mesh.positions.forEach((v, i) => {
      expect(scaled.positions[i]).toBe(Math.fround(v * factors[i % 3]!));
    });
    expect(scaled.triangles).toEqual(mesh.triangles);
    expect(inspectMesh(scaled).volume / inspectMesh(mesh).volume).toBeCloseTo(1.0213 ** 2 * 1.0241, 6);
    expectSound(scaled);
  });

  it('refuses what would turn it inside out or flatten it', () => {
    const mesh = closedBox();
    for (const bad of [0, -1, Number.NaN])
      expect(codeOf(() => scaleMesh(mesh, [1, bad, 1]))).toBe('bad-size');
  });
});
