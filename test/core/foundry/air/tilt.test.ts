import { beforeAll, describe, expect, it } from 'vitest';
import { readCavity } from '../../../../core/foundry/air/cavity.js';
import { leastPocket, searchPockets, totalVolume } from '../../../../core/foundry/air/pockets.js';
import { findTilt, type Tilt } from '../../../../core/foundry/air/tilt.js';
import { loadKernel } from '../../../../core/solid/index.js';
import type { Kernel, Mesh, Solid, Vec3 } from '../../../../core/solid/types.js';
import { leaning } from '../../../helpers/trap-shapes.js';
import { voxelFlood } from '../../../helpers/voxel-flood.js';

let kernel: Kernel;
beforeAll(async () => {
  kernel = await loadKernel();
});

const openTop = 90;
const radians = (degrees: number): number => (degrees * Math.PI) / 180;

/** A part with a sprue on it, and what is advised for it. */
function advised(build: () => Solid, [x, y, z]: Vec3) {
  const { pattern, gated } = kernel.scope(() => {
    const body = build();
    return {
      pattern: body.mesh(),
      gated: body.add(kernel.frustum([x, y], z - 1, 2, openTop, 2, 0.01)).mesh(),
    };
  });
  const cavity = readCavity(gated);
  const openHeight = openTop - 1e-3;
  const now = totalVolume(searchPockets(cavity, { openHeight }).pockets);
  return { pattern, gated, now, tilt: findTilt(cavity, pattern, openHeight, now) };
}

/** The pattern turned as advised, with a sprue on the point that is highest then. */
function gatedTurned(pattern: Mesh, { angle, azimuth }: Tilt): Mesh {
  return kernel.scope(() => {
    const turned = kernel.fromMesh(pattern).rotate('z', -azimuth).rotate('y', -angle);
    const { positions: p } = turned.mesh();
    let top = 0;
    for (let i = 0; i < p.length; i += 3) if (p[i + 2]! > p[top + 2]!) top = i;
    return turned.add(kernel.frustum([p[top]!, p[top + 1]!], p[top + 2]! - 2, 2, openTop, 2, 0.01)).mesh();
  });
}

/** Pockets that cells show from the threshold on. */
const flooded = (mesh: Mesh, up: Vec3): readonly number[] =>
  voxelFlood(mesh, { openHeight: openTop, cell: 0.5, up })
    .pockets.map((p) => p.volume)
    .filter((v) => v >= leastPocket);

/** A bar with a wedge on its far end, its slope 3 in 16, the ridge across. */
const wedged = (): Solid =>
  kernel.union([
    kernel.box([0, -5, 0], [44, 5, 10]),
    kernel.hull([kernel.box([24, -5, 9], [44, 5, 10]), kernel.box([40, -5, 12], [44, 5, 13])]),
  ]);
const comb = (): Solid =>
  kernel.union([
    kernel.box([0, -5, 0], [60, 5, 8]),
    ...[1, 2, 3, 4].map((i) => kernel.box([10 * i + 4, -4, 7], [10 * i + 10, 4, 20])),
  ]);
const bent = (): Solid =>
  kernel.union([
    kernel.box([0, -4, 0], [30, 4, 8]),
    kernel.box([0, -4, 0], [8, 4, 30]),
    kernel.box([22, -4, 0], [30, 4, 26]),
  ]);
/** Six bulbs on rods, one way each: whichever way is up, others stand beside the gate. */
const jack = (): Solid => {
  const rods = (['x', 'y', 'z'] as const).map((axis) => {
    const rod = kernel.frustum([0, 0], -20, 2, 20, 2, 0.1);
    return axis === 'z' ? rod : rod.rotate(axis === 'x' ? 'y' : 'x', Math.PI / 2);
  });
  const bulbs = [-20, 20].flatMap((d) => [
    kernel.sphere([d, 0, 0], 6, 0.1),
    kernel.sphere([0, d, 0], 6, 0.1),
    kernel.sphere([0, 0, d], 6, 0.1),
  ]);
  return kernel.union([...rods, ...bulbs]);
};

describe('the tilt that is advised really lets the air out, as a flood of cells shows', () => {
  it('a bar with a low wedge on its far end: the flask leans, the gate’s side up, past the slope', () => {
    const { gated, now, tilt } = advised(wedged, [4, 0, 10]);
    expect(now).toBeCloseTo((10 * 3 * 16) / 2 + 10 * 3 * 4, 0);
    expect(flooded(gated, [0, 0, 1])).toHaveLength(1);
    expect(tilt).toMatchObject({ of: 'flask', left: 0 });
    expect(tilt!.angle).toBeGreaterThan(Math.atan(3 / 16));
    expect(Math.cos(tilt!.azimuth)).toBeLessThan(-0.5);
    for (const off of [-2, 0, 2])
      expect(flooded(gated, leaning(tilt!.angle + radians(off), tilt!.azimuth))).toEqual([]);
  });

  for (const [name, build, gate] of [
    ['a comb with its teeth up', comb, [4, 0, 8]],
    ['a bent bar with a blind leg', bent, [4, 0, 30]],
  ] as const)
    it(`${name}: the part is turned and gated at its then highest place`, () => {
      const { gated, pattern, tilt } = advised(build, gate);
      expect(flooded(gated, [0, 0, 1]).length).toBeGreaterThan(0);
      expect(tilt).toMatchObject({ of: 'part', left: 0 });
      expect(flooded(gatedTurned(pattern, tilt!), [0, 0, 1])).toEqual([]);
    });

  it('a plate leaning by 10°, gated in its middle, is better turned as well', () => {
    const plate = (): Solid => kernel.box([-30, -15, 0], [30, 15, 5]).rotate('y', radians(-10));
    const { pattern, tilt } = advised(plate, [0, 0, 5]);
    expect(tilt).toMatchObject({ of: 'part', left: 0 });
    expect(flooded(gatedTurned(pattern, tilt!), [0, 0, 1])).toEqual([]);
  });

  it('six bulbs on rods: none is advised, and cells show why', () => {
    const { pattern, now, tilt } = advised(jack, [0, 0, 26]);
    expect(now).toBeGreaterThan(4 * 200);
    expect(tilt).toBeUndefined();
    for (const [angle, azimuth] of [
      [45, 0],
      [55, Math.PI / 4],
      [120, 2],
    ] as const) {
      const turned = gatedTurned(pattern, { of: 'part', angle: radians(angle), azimuth, left: 0 });
      expect(flooded(turned, [0, 0, 1]).reduce((a, b) => a + b, 0)).toBeGreaterThan(now / 2);
    }
  });
});
