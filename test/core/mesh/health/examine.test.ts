import { beforeAll, describe, expect, it } from 'vitest';
import { examineMesh, type MeshHealth } from '../../../../core/mesh/health/index.js';
import { loadKernel } from '../../../../core/solid/index.js';
import type { Kernel, Solid, Vec2 } from '../../../../core/solid/types.js';
import { meshOfSoup, type Soup, soupOf, turnAll } from '../repair/breakages.js';

let kernel: Kernel;
beforeAll(async () => {
  kernel = await loadKernel();
});

const soupFrom = (make: () => Solid): Soup => soupOf(kernel.scope(() => make().mesh()));
const box = (min: readonly [number, number, number], max: readonly [number, number, number]): Soup =>
  soupFrom(() => kernel.box(min, max));
const examine = (soup: Soup, leastWall = 1): MeshHealth => examineMesh(meshOfSoup(soup), { leastWall });
const codes = (remarks: MeshHealth['faults']): readonly string[] => remarks.map((remark) => remark.code);

describe('a sound mesh', () => {
  it('a box: counts by hand, volume and area by formula', () => {
    const health = examine(box([-20, -15, -10], [20, 15, 10]));
    expect(health).toMatchObject({ triangles: 12, vertices: 8, faults: [], cautions: [], holes: [] });
    expect(health.volume).toBeCloseTo(24_000, 6);
    expect(health.area).toBeCloseTo(2 * (40 * 30 + 30 * 20 + 20 * 40), 6);
    expect(health.box).toEqual({ min: [-20, -15, -10], max: [20, 15, 10] });
    expect(health.shells).toMatchObject([{ kind: 'body', closed: true, triangles: 12 }]);
  });

  it('two bodies and a cavity, each with its own volume', () => {
    const health = examine([
      ...box([0, 0, 0], [30, 30, 30]),
      ...turnAll(box([5, 5, 5], [15, 15, 15])),
      ...box([40, 0, 0], [60, 10, 10]),
    ]);
    expect(health.shells.map(({ kind, volume }) => [kind, Math.round(volume)])).toEqual([
      ['body', 27_000],
      ['body', 2000],
      ['cavity', -1000],
    ]);
    expect(health.volume).toBeCloseTo(28_000, 5);
    expect(health.faults).toEqual([]);
    expect(health.cautions).toMatchObject([
      {
        code: 'closed-cavity',
        at: [10, 10, 10],
        message: expect.stringContaining('1000 mm³ near 10, 10, 10 mm'),
      },
    ]);
  });

  it('is plain data', () => {
    const health = examine([...box([0, 0, 0], [30, 30, 30]), ...turnAll(box([5, 5, 5], [15, 15, 15]))]);
    expect(JSON.parse(JSON.stringify(health))).toEqual(health);
  });
});

describe('faults, each with its count and place', () => {
  const cube = (): Soup => box([0, 0, 0], [10, 10, 10]);
  const top = (triangle: Soup[number]): boolean => triangle.every((corner) => corner[2] === 10);

  it('a hole', () => {
    const health = examine(cube().filter((triangle) => !top(triangle)));
    expect(health.holes).toHaveLength(1);
    expect(health.holes[0]).toMatchObject({ edges: 4, at: [5, 5, 10], flat: true });
    expect(health.holes[0]?.across).toBeCloseTo(Math.sqrt(200), 6);
    expect(health.shells[0]).toMatchObject({ kind: 'open', closed: false });
    expect(health.faults).toMatchObject([
      { code: 'open-hole', message: 'A flat hole of 4 edges, 14.14 mm across, near 5, 5, 10 mm.' },
    ]);
  });

  it('two holes that meet in a corner are two holes', () => {
    const ends = cube().filter((triangle) => !top(triangle) && !triangle.every((corner) => corner[2] === 0));
    expect(examine(ends).holes.map((hole) => hole.edges)).toEqual([4, 4]);
    // One triangle of the top and one of a side, with nothing but a corner in common.
    const soup = cube();
    const lone = soup.findIndex(
      (a) => !top(a) && a.filter((c) => c[2] === 10).length === 1 && !a.every((c) => c[2] === 0),
    );
    const shared = soup[lone]?.find((c) => c[2] === 10)?.join();
    const other = soup.findIndex((a) => top(a) && a.some((c) => c.join() === shared));
    const health = examine(soup.filter((_, f) => f !== lone && f !== other));
    expect(health.holes.map((hole) => hole.edges).sort()).toEqual([3, 3]);
  });

  it('a flipped triangle', () => {
    const soup = cube();
    const flipped = soup.map((triangle, f): Soup[number] =>
      f === 7 ? [triangle[0], triangle[2], triangle[1]] : triangle,
    );
    const health = examine(flipped);
    expect(health.faults).toMatchObject([{ code: 'flipped-triangles', count: 1 }]);
    const middle = [0, 1, 2].map(
      (k) => (soup[7] ?? []).reduce((sum, corner) => sum + (corner[k] as number), 0) / 3,
    );
    health.faults[0]?.at?.forEach((v, k) => {
      expect(v).toBeCloseTo(middle[k] as number, 5);
    });
    // Measured as it was meant.
    expect(health.volume).toBeCloseTo(1000, 6);
  });

  it('triangles that are there twice, and such without area', () => {
    const soup = cube();
    const [a, b, c] = soup[3] as Soup[number];
    expect(codes(examine([...soup, [b, c, a], [a, c, b]]).faults)).toEqual(['duplicate-triangles']);
    expect(examine([...soup, [a, b, b]]).faults).toMatchObject([{ code: 'collapsed-triangles', count: 1 }]);
    const middle = [0, 1, 2].map(
      (k) => ((a[k] as number) + (b[k] as number)) / 2,
    ) as unknown as Soup[number][0];
    expect(codes(examine([...soup, [a, b, middle]]).faults)).toContain('flat-triangles');
  });

  it('edges of more than two triangles, and surfaces that touch at a point', () => {
    const edge = examine([...cube(), ...box([10, 10, 0], [20, 20, 10])]);
    expect(edge.faults).toMatchObject([{ code: 'shared-edges', count: 1, at: [10, 10, 5] }]);
    const point = examine([...cube(), ...box([10, 10, 10], [20, 20, 20])]);
    expect(point.faults).toMatchObject([{ code: 'pinched-vertices', count: 1, at: [10, 10, 10] }]);
  });

  it('surfaces that cross', () => {
    const apart = examine([...cube(), ...box([8, 3, 3], [20, 6, 6])]);
    expect(codes(apart.faults)).toEqual(['shells-cross']);
    expect(apart.faults[0]?.at?.[0]).toBeGreaterThan(5);
    const itself = cube().map((triangle) =>
      triangle.map((corner) => (corner.join() === '10,10,10' ? [4, 4, -3] : corner)),
    ) as unknown as Soup;
    expect(codes(examine(itself).faults)).toContain('self-intersection');
  });

  it('shells inside out, and bodies in bodies', () => {
    expect(examine(turnAll(cube())).faults).toMatchObject([{ code: 'inside-out', count: 1 }]);
    const nested = examine([...box([0, 0, 0], [30, 30, 30]), ...box([5, 5, 5], [15, 15, 15])]);
    expect(nested.faults).toMatchObject([{ code: 'body-in-body', count: 1 }]);
  });

  it('a band twisted once has no inside', () => {
    const at = (i: number, side: number): readonly [number, number, number] => {
      const a = (2 * Math.PI * (i % 24)) / 24;
      const way = i < 24 ? side : -side;
      const r = 20 + 4 * way * Math.cos(a / 2);
      return [r * Math.cos(a), r * Math.sin(a), 4 * way * Math.sin(a / 2)];
    };
    const band = Array.from(
      { length: 24 },
      (_, i): Soup => [
        [at(i, -1), at(i + 1, -1), at(i + 1, 1)],
        [at(i, -1), at(i + 1, 1), at(i, 1)],
      ],
    ).flat();
    const health = examine(band);
    expect(codes(health.faults)).toContain('twisted-surface');
    // It has one edge only.
    expect(health.holes.map((hole) => hole.edges)).toEqual([48]);
  });

  it('what is no mesh', () => {
    const health = examineMesh({
      positions: Float64Array.of(0, 0, 0, Number.POSITIVE_INFINITY, 0, 0, 0, 1, 0),
      triangles: Uint32Array.of(0, 1, 2),
    });
    expect(health).toMatchObject({ faults: [{ code: 'not-finite', count: 1 }], shells: [], box: null });
  });
});

describe('cautions', () => {
  const ring = (r: number, tolerance: number, wall: number): Solid =>
    kernel
      .frustum([0, 0], 0, r, 30, r, tolerance)
      .subtract(kernel.frustum([0, 0], -1, r - wall, 31, r - wall, tolerance));

  it('a thin tube: its wall, within the chords that it is drawn with', () => {
    const health = examine(soupFrom(() => ring(12, 0.005, 0.6)));
    const [caution] = health.cautions;
    expect(caution?.code).toBe('thin-walls');
    const told = Number(/down to ([\d.]+) mm/.exec(caution?.message ?? '')?.[1]);
    expect(Math.abs(told - 0.6)).toBeLessThan(0.015);
    expect(Math.hypot(caution?.at?.[0] ?? 0, caution?.at?.[1] ?? 0)).toBeGreaterThan(11);
    // The wall is nearly all of the surface.
    expect(caution?.message).toMatch(/About (9\d|100) % of the surface/);
    expect(
      examine(
        soupFrom(() => ring(12, 0.005, 0.6)),
        0.55,
      ).cautions,
    ).toEqual([]);
    expect(examine(soupFrom(() => ring(12, 0.005, 1.5))).cautions).toEqual([]);
  });

  const wedge = (angle: number): Soup => {
    const outline: Vec2[] = [
      [0, 0],
      [30, 0],
      [30, 30 * Math.tan(angle)],
    ];
    return soupFrom(() => kernel.extrude([outline], 0, 25));
  };

  it('a wedge of 15°: its edge, as long as it is; none of 25°', () => {
    const [caution, ...others] = examine(wedge(Math.PI / 12), 0).cautions;
    expect(others).toEqual([]);
    expect(caution).toMatchObject({
      code: 'knife-edges',
      count: 1,
      at: [0, 0, 12.5],
      message:
        '25 mm of edges run out to nothing, the sharpest at 15°, near 0, 0, 12.5 mm: metal does not fill them.',
    });
    expect(examine(wedge((25 * Math.PI) / 180), 0).cautions).toEqual([]);
  });

  it('a slit as sharp is no knife edge', () => {
    const outline: Vec2[] = [
      [0, -20],
      [30, -20],
      [30, 0],
      [10, 2.5],
      [30, 5],
      [30, 20],
      [0, 20],
    ];
    const health = examine(soupFrom(() => kernel.extrude([outline], 0, 25)));
    expect(codes(health.cautions)).toEqual([]);
  });

  it('specks', () => {
    const health = examine([
      ...box([0, 0, 0], [30, 30, 30]),
      ...box([40, 0, 0], [40.5, 0.5, 0.5]),
      ...box([50, 0, 0], [51.2, 1.2, 1.2]),
      ...box([60, 0, 0], [62, 2, 2]),
    ]);
    // 0.125 and 1.728 mm³; the third has 8 mm³, more than a ten-thousandth of 27000.
    expect(health.cautions.find((caution) => caution.code === 'specks')).toMatchObject({
      count: 2,
      message: expect.stringContaining(
        '2 loose specks, 1.85 mm³ together, the first near 40.25, 0.25, 0.25 mm',
      ),
    });
  });

  it('follow the mesh where it goes and as it grows', () => {
    const thin = soupFrom(() => ring(12, 0.005, 0.6));
    const moved = thin.map((triangle) =>
      triangle.map(([x, y, z]) => [2 * x + 50, 2 * y - 20, 2 * z]),
    ) as unknown as Soup;
    const told = (health: MeshHealth): number =>
      Number(/down to ([\d.]+) mm/.exec(health.cautions[0]?.message ?? '')?.[1]);
    expect(told(examine(moved, 2)) / told(examine(thin, 1))).toBeCloseTo(2, 1);
  });
});
