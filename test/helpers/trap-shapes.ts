import type { Kernel, Mesh, Solid, Vec3 } from '../../core/solid/types.js';

/** Where the sprues of these shapes end, open to the air, mm. */
export const openTop = 60;

type Build = (kernel: Kernel) => Solid;

const sprue = (k: Kernel, x: number, y: number, z: number, r = 2.5): Solid =>
  k.frustum([x, y], z, r, openTop, r, 0.01);
const tube = (k: Kernel, x: number, z0: number, z1: number, r = 4): Solid =>
  k.frustum([x, 0], z0, r, z1, r, 0.01);
const across = (k: Kernel, x0: number, x1: number, z0: number, z1: number): Solid =>
  k.box([x0, -2.5, z0], [x1, 2.5, z1]);
const cup = (k: Kernel, radius: number, wall: number, z0: number, z1: number): Solid =>
  k
    .frustum([0, 0], z0, radius, z1, radius, 0.01)
    .subtract(k.frustum([0, 0], z0 - 1, radius - wall, z1 - wall, radius - wall, 0.01));
const ring = (k: Kernel, radius: number, r: number): Solid =>
  k.revolve(
    Array.from({ length: 40 }, (_, i) => [
      radius + r * Math.cos((2 * Math.PI * i) / 40),
      r * Math.sin((2 * Math.PI * i) / 40),
    ]),
    0.01,
  );

/** Shapes whose traps can be told by looking: how many, and what is shut in. */
export const trapShapes: Readonly<Record<string, { readonly traps: number; readonly build: Build }>> = {
  'upside-down cup gated at its rim': {
    traps: 1,
    build: (k) => k.union([cup(k, 15, 3, 0, 30), k.box([13, -3, 0], [30, 3, 4]), sprue(k, 27, 0, 3)]),
  },
  'upside-down cup gated on its bottom': {
    traps: 0,
    build: (k) => cup(k, 15, 3, 0, 30).add(sprue(k, 0, 0, 29)),
  },
  'comb with a trap in every tooth': {
    traps: 4,
    build: (k) =>
      k.union([
        k.box([0, 0, 0], [60, 10, 10]),
        ...[0, 1, 2, 3].map((i) => k.box([10 * i + 2, 2, 9], [10 * i + 8, 8, 18 + 2 * i])),
        sprue(k, 52, 5, 9),
      ]),
  },
  'ring on edge gated low': {
    traps: 1,
    build: (k) =>
      ring(k, 15, 3)
        .rotate('x', Math.PI / 2)
        .translate([0, 0, 18])
        .add(k.box([17, -1.5, 14], [30, 1.5, 18]), sprue(k, 27, 0, 17)),
  },
  'ring on edge gated at its top': {
    traps: 0,
    build: (k) =>
      ring(k, 15, 3)
        .rotate('x', Math.PI / 2)
        .translate([0, 0, 18])
        .add(sprue(k, 0, 0, 35)),
  },
  'ring lying flat, gated from its side': {
    traps: 1,
    build: (k) =>
      ring(k, 16, 4)
        .translate([0, 0, 4])
        .add(k.box([18, -1.5, 1], [30, 1.5, 4]), sprue(k, 27, 0, 3)),
  },
  'arch gated at one foot: crown and the other leg': {
    traps: 1,
    build: (k) =>
      k.union([
        tube(k, 0, 0, 30),
        tube(k, 24, 0, 30),
        across(k, 0, 24, 24, 30),
        k.box([-12, -2, 2], [0, 2, 6]),
        sprue(k, -11, 0, 5),
      ]),
  },
  'arch gated at both feet': {
    traps: 1,
    build: (k) =>
      k.union([
        tube(k, 0, 0, 30),
        tube(k, 24, 0, 30),
        across(k, 0, 24, 24, 30),
        k.box([-12, -2, 2], [0, 2, 6]),
        k.box([24, -2, 2], [36, 2, 6]),
        sprue(k, -11, 0, 5),
        sprue(k, 35, 0, 5),
      ]),
  },
  'U-tube with a blind leg': {
    traps: 1,
    build: (k) =>
      k.union([tube(k, 0, 0, 30), tube(k, 24, 0, 26), across(k, 0, 24, 0, 6), sprue(k, 0, 0, 29)]),
  },
  'U-tube with both legs open': {
    traps: 0,
    build: (k) =>
      k.union([
        tube(k, 0, 0, 30),
        tube(k, 24, 0, 26),
        across(k, 0, 24, 0, 6),
        sprue(k, 0, 0, 29),
        sprue(k, 24, 0, 25),
      ]),
  },
  'siphon into a blind vessel': {
    traps: 1,
    build: (k) =>
      k.union([
        tube(k, -14, 0, 30),
        across(k, -14, 2, 0, 4),
        across(k, -2, 2, 0, 20),
        across(k, -2, 12, 15, 20),
        across(k, 8, 12, 2, 20),
        across(k, 8, 24, 2, 6),
        tube(k, 24, 0, 30),
        sprue(k, -14, 0, 29),
      ]),
  },
  'siphon into an open vessel': {
    traps: 1,
    build: (k) =>
      k.union([
        tube(k, -14, 0, 30),
        across(k, -14, 2, 0, 4),
        across(k, -2, 2, 0, 20),
        across(k, -2, 12, 15, 20),
        across(k, 8, 12, 2, 20),
        across(k, 8, 24, 2, 6),
        tube(k, 24, 0, 30),
        sprue(k, -14, 0, 29),
        sprue(k, 24, 0, 29),
      ]),
  },
  'nested cups joined at the foot': {
    traps: 1,
    build: (k) =>
      k.union([
        k.frustum([0, 0], 0, 24, 30, 24, 0.01).subtract(k.frustum([0, 0], 4, 20, 25, 20, 0.01)),
        cup(k, 14, 3, 3, 20),
        sprue(k, 0, 0, 29),
      ]),
  },
  'block with a closed void': {
    traps: 0,
    build: (k) =>
      k
        .box([0, 0, 0], [20, 20, 20])
        .subtract(k.sphere([10, 10, 10], 5, 0.01))
        .add(sprue(k, 3, 3, 19)),
  },
  'plate leaning by 10°': {
    traps: 1,
    build: (k) =>
      k
        .box([-30, -15, 0], [30, 15, 5])
        .rotate('y', -Math.PI / 18)
        .add(sprue(k, 0, 0, 2)),
  },
};

export const meshOf = (kernel: Kernel, build: Build): Mesh => kernel.scope(() => build(kernel).mesh());

/** The direction that leans by `angle` from +Z towards `azimuth`, radians. */
export const leaning = (angle: number, azimuth: number): Vec3 => [
  Math.sin(angle) * Math.cos(azimuth),
  Math.sin(angle) * Math.sin(azimuth),
  Math.cos(angle),
];
