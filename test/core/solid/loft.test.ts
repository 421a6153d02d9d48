import { beforeAll, describe, expect, it } from 'vitest';
import { loadKernel, SolidError } from '../../../core/solid/index.js';
import type { Kernel, LoftSection, Vec3 } from '../../../core/solid/types.js';
import { expectSound } from '../../helpers/expect-sound.js';

let kernel: Kernel;
beforeAll(async () => {
  kernel = await loadKernel();
});

const star = (n: number, inner: number, outer: number, turn: number, z: number): LoftSection => ({
  points: Array.from({ length: n }, (_, i): Vec3 => {
    const r = i % 2 ? inner : outer;
    const a = (2 * Math.PI * i) / n + turn;
    return [r * Math.cos(a), r * Math.sin(a), z];
  }),
});

describe('loft', () => {
  it('a star prism has its section’s area, ½ Σ r r′ sin(2π/n), times its height, at any diagonal', () => {
    const area = (40 / 2) * 5 * 9 * Math.sin((2 * Math.PI) / 40);
    for (const diagonal of [
      undefined,
      () => true,
      () => false,
      (l: number, i: number) => (l + i) % 2 === 0,
    ]) {
      const mesh = kernel.scope(() => {
        const solid = kernel.loft(
          [0, 1, 2, 7].map((z) => star(40, 5, 9, 0, z)),
          diagonal,
        );
        expect(solid.volume()).toBeCloseTo(area * 7, 8);
        return solid.mesh();
      });
      expectSound(mesh);
    }
  });

  it('a frustum of a pyramid: h/3 (A + a + √(A a))', () => {
    const volume = kernel.scope(() => kernel.loft([star(12, 6, 6, 0, 1), star(12, 3, 3, 0, 5)]).volume());
    const [a, b] = [6, 3].map((r) => 6 * r * r * Math.sin(Math.PI / 6)) as [number, number];
    expect(volume).toBeCloseTo((4 / 3) * (a + b + Math.sqrt(a * b)), 9);
  });

  it('the two diagonals of one twisted layer differ by the tetrahedra between them', () => {
    const layer = (straight: boolean): number =>
      kernel.scope(() => kernel.loft([star(4, 5, 5, 0, 0), star(4, 5, 5, 0.4, 3)], () => straight).volume());
    const p = (i: number, turn: number, z: number): number[] => {
      const a = (Math.PI / 2) * i + turn;
      return [5 * Math.cos(a), 5 * Math.sin(a), z];
    };
    // Corners of one quad; the volume of the tetrahedron they span, four times over.
    const [a, b, c, d] = [p(0, 0, 0), p(1, 0, 0), p(1, 0.4, 3), p(0, 0.4, 3)] as number[][];
    const [u, v, w] = [b, c, d].map((q) => q!.map((x, k) => x - a![k]!)) as [number[], number[], number[]];
    const det =
      u[0]! * (v[1]! * w[2]! - v[2]! * w[1]!) -
      u[1]! * (v[0]! * w[2]! - v[2]! * w[0]!) +
      u[2]! * (v[0]! * w[1]! - v[1]! * w[0]!);
    expect(Math.abs(layer(true) - layer(false))).toBeCloseTo((4 * Math.abs(det)) / 6, 8);
  });

  it('keeps double precision, so that a face at 24.3 mm meets a box’s at 24.3 mm', () => {
    const { top, pieces, report } = kernel.scope(() => {
      const body = kernel.loft([star(30, 8, 8, 0, 0.1), star(30, 8, 8, 0, 24.3)]);
      const joined = body.add(kernel.frustum([0, 0], 24.3, 4, 30.7, 4, 0.01));
      return { top: body.bounds().max[2], pieces: joined.components().length, report: joined.mesh() };
    });
    expect(top).toBe(24.3);
    expect(pieces).toBe(1);
    expectSound(report);
  });

  it('ends may stand askew in space', () => {
    const volume = kernel.scope(() => {
      const sloped = star(24, 6, 6, 0, 0).points.map(([x, y]): Vec3 => [x, y, 10 + 0.5 * x + 0.2 * y]);
      const solid = kernel.loft([star(24, 6, 6, 0, 0), { points: sloped }]);
      expectSound(solid.mesh());
      return solid.volume();
    });
    // The cut is level with z = 10 at the axis, through the centroid of the section.
    expect(volume).toBeCloseTo(10 * 12 * 36 * Math.sin(Math.PI / 12), 8);
  });

  it('an end whose points are one is a tip: a pyramid, A h/3; so is a spindle with two', () => {
    const tip = (z: number): LoftSection => ({ points: Array.from({ length: 12 }, (): Vec3 => [1, 0, z]) });
    const area = 6 * 36 * Math.sin(Math.PI / 6);
    for (const [sections, height] of [
      [[star(12, 6, 6, 0, 1), tip(8)], 7],
      [[tip(-3), star(12, 6, 6, 0, 1), tip(8)], 11],
    ] as const)
      kernel.scope(() => {
        const solid = kernel.loft(sections);
        expectSound(solid.mesh());
        expect(solid.volume()).toBeCloseTo((area * height) / 3, 8);
      });
  });

  it('neighbouring points of a section may fall together: a prism of six sides on one of twelve', () => {
    const upper = star(12, 6, 6, 0, 5).points.map((_, i, all) => all[i - (i % 2)]!);
    const volume = kernel.scope(() => {
      const solid = kernel.loft([star(12, 6, 6, 0, 0), { points: upper }]);
      expectSound(solid.mesh());
      return solid.volume();
    });
    const areas = [6 * 36 * Math.sin(Math.PI / 6), 3 * 36 * Math.sin(Math.PI / 3)];
    expect(volume).toBeGreaterThan(5 * areas[1]!);
    expect(volume).toBeLessThan(5 * areas[0]!);
  });

  const ring = star(6, 5, 5, 0, 0);
  const lifted = star(6, 5, 5, 0, 2);
  const bow: LoftSection = {
    points: [
      [0, 0, 0],
      [4, 0, 0],
      [0, 4, 0],
      [1, 6, 0],
    ],
  };
  it.each<[string, readonly LoftSection[], string]>([
    ['one section', [ring], 'at least 2'],
    [
      'two points',
      [{ points: ring.points.slice(0, 2) }, { points: lifted.points.slice(0, 2) }],
      'at least 3',
    ],
    ['unequal sections', [ring, star(8, 5, 5, 0, 2)], 'section 1 has 8 points'],
    ['downwards', [lifted, ring], 'inside out'],
    [
      'an end out of flat',
      [{ points: ring.points.map(([x, y], i): Vec3 => [x, y, i === 2 ? -0.5 : 0]) }, lifted],
      'out of flat',
    ],
    ['an end without area', [{ points: ring.points.map((_, i): Vec3 => [i, 1, 0]) }, lifted], 'no area'],
    [
      'an end that crosses itself',
      [bow, { points: bow.points.map(([x, y]): Vec3 => [x, y, 3]) }],
      'crosses itself',
    ],
    [
      'a point that is not finite',
      [ring, { points: lifted.points.map((p, i): Vec3 => (i === 1 ? [p[0], Number.NaN, 2] : p)) }],
      'section 1 point 1',
    ],
  ])('refuses %s', (_, sections, words) => {
    const attempt = (): void => kernel.scope(() => void kernel.loft(sections).mesh());
    expect(attempt).toThrow(SolidError);
    expect(attempt).toThrow(words);
  });
});
