import { beforeAll, expect, it } from 'vitest';
import { type Sweep, sweepTube } from '../../../core/shape/tube.js';
import { noTubeStock, type TubeStock, tubeSolid } from '../../../core/shape/tube-solid.js';
import { loadKernel } from '../../../core/solid/index.js';
import type { Kernel, Mesh } from '../../../core/solid/types.js';
import { expectSound } from '../../helpers/expect-sound.js';
import { strayFrom } from '../../helpers/stray-from.js';

let kernel: Kernel;
beforeAll(async () => {
  kernel = await loadKernel();
});

function build(
  sweep: Sweep,
  tolerance: number,
  stock: TubeStock = noTubeStock,
): { mesh: Mesh; volume: number } {
  return kernel.scope(() => {
    const solid = tubeSolid(kernel, sweepTube(sweep), tolerance, stock);
    return { mesh: solid.mesh(), volume: solid.volume() };
  });
}
const within = (value: number, exact: number, share = 1e-3): void =>
  expect(Math.abs(value / exact - 1)).toBeLessThan(share);

const ring = (R: number, a: number, b: number): Sweep => ({
  spine: (t) => [R * Math.cos(2 * Math.PI * t), R * Math.sin(2 * Math.PI * t), 0],
  across: [0, 0, 1],
  section: () => ({ across: a, above: b }),
  closed: true,
});

it('a ring of elliptical section: Pappus, 2π² R a b', () => {
  const { mesh, volume } = build(ring(20, 4, 3), 0.003);
  expectSound(mesh);
  within(volume, 2 * Math.PI ** 2 * 20 * 4 * 3);
});

it('a round ring with stock is a thicker ring: every vertex and triangle centre within tolerance', () => {
  for (const s of [0, 0.6]) {
    const tol = 0.01;
    const { mesh } = build(ring(20, 4, 4), tol, { surface: s, start: 0, end: 0 });
    const off = (x: number, y: number, z: number): number => Math.hypot(Math.hypot(x, y) - 20, z) - 4 - s;
    const worst = strayFrom(mesh, off);
    expect(worst.vertex).toBeLessThan(5e-6);
    expect(worst.face).toBeLessThan(tol);
  }
});

it('a bar with rounded ends: cylinder and two half ellipsoids', () => {
  const bar: Sweep = {
    spine: (t) => [60 * t, 0, 0],
    across: [0, 1, 0],
    section: () => ({ across: 6, above: 6 }),
    roundStart: 6,
    roundEnd: 9,
  };
  const { mesh, volume } = build(bar, 0.003);
  expectSound(mesh);
  within(volume, Math.PI * 36 * 45 + (2 / 3) * Math.PI * 36 * 15);
  const grown = build(bar, 0.01, { surface: 0.5, start: 0, end: 0 });
  expectSound(grown.mesh);
});

it('a tapering flat-ended bar: frustum; ends keep their own stock', () => {
  const cone: Sweep = {
    spine: (t) => [0, 0, 40 * t],
    across: [1, 0, 0],
    section: (t) => ({ across: 10 - 5 * t, above: 10 - 5 * t }),
  };
  const { mesh, volume } = build(cone, 0.003);
  expectSound(mesh);
  within(volume, ((Math.PI * 40) / 3) * (100 + 50 + 25));
  const { mesh: cast } = build(cone, 0.003, { surface: 0.7, start: 1, end: 0.2 });
  const z = Array.from({ length: cast.positions.length / 3 }, (_, i) => cast.positions[3 * i + 2]!);
  expect(Math.min(...z)).toBeCloseTo(-1, 5);
  expect(Math.max(...z)).toBeCloseTo(40.2, 5);
  const slant = Math.hypot(40, 5);
  const worst = strayFrom(cast, (x, y, h) =>
    h < -0.999 || h > 40.199 ? 0 : (Math.hypot(x, y) - 10 + h / 8) * (40 / slant) - 0.7,
  );
  expect(worst.vertex).toBeLessThan(5e-6);
});

it('an arched grip of changing elliptical section lies on flat feet', () => {
  const grip: Sweep = {
    spine: (t) => [70 * Math.cos(Math.PI * (1 - t)), 0, 30 * Math.sin(Math.PI * t)],
    across: [0, 1, 0],
    section: (t) => {
      const m = Math.sin(Math.PI * t) ** 2;
      return { across: 7 + 3 * m, above: 5 - m, exponent: 2.4 };
    },
  };
  const { mesh } = build(grip, 0.01);
  expectSound(mesh);
  const { mesh: cast } = build(grip, 0.01, { surface: 0.5, start: 1, end: 1 });
  expectSound(cast);
});
