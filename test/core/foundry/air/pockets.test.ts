import { beforeAll, describe, expect, it } from 'vitest';
import { findPockets } from '../../../../core/foundry/air/pockets.js';
import { loadKernel } from '../../../../core/solid/index.js';
import type { Kernel, Solid } from '../../../../core/solid/types.js';

let kernel: Kernel;
beforeAll(async () => {
  kernel = await loadKernel();
});

const top = 60;
/** A sprue from `z` to the open top. */
const sprue = (x: number, y: number, z: number, r = 2): Solid => kernel.frustum([x, y], z, r, top, r, 0.01);
const pocketsOf = (build: () => Solid, least?: number) => {
  const mesh = kernel.scope(() => build().mesh());
  return findPockets(mesh, { openHeight: top - 1e-3, ...(least === undefined ? {} : { least }) });
};
const area = (r: number): number => {
  const mesh = kernel.scope(() => kernel.frustum([0, 0], 0, r, 1, r, 0.01).volume());
  return mesh;
};

describe('known traps', () => {
  it('a plain block with a sprue on it has none: a flat top is one plateau', () => {
    const found = pocketsOf(() => kernel.box([0, 0, 0], [20, 20, 10]).add(sprue(10, 10, 9)), 0);
    expect(found.pockets).toEqual([]);
    expect(found.ignored.count).toBe(0);
  });

  it('a comb whose sprue is on the back traps every tooth', () => {
    const found = pocketsOf(() =>
      kernel.union([
        kernel.box([0, 0, 0], [60, 10, 10]),
        ...[0, 1, 2, 3].map((i) => kernel.box([10 * i + 2, 2, 9], [10 * i + 8, 8, 20 + i])),
        sprue(52, 5, 9),
      ]),
    );
    expect(found.pockets.map((p) => Math.round(p.volume))).toEqual([13, 12, 11, 10].map((h) => 36 * h));
    found.pockets.forEach((p, i) => {
      expect(p.at[2]).toBeCloseTo(23 - i, 5);
      expect(p.at[0]).toBeCloseTo(35 - 10 * i, 4);
      expect(p.saddle[2]).toBeCloseTo(10, 5);
    });
  });

  it('an upside-down cup, gated at its rim, traps all above the rim', () => {
    const found = pocketsOf(() =>
      kernel
        .frustum([0, 0], 0, 15, 30, 15, 0.01)
        .subtract(kernel.frustum([0, 0], -1, 12, 25, 12, 0.01))
        .add(kernel.box([13, -3, 0], [30, 3, 4]), sprue(27, 0, 3)),
    );
    expect(found.pockets).toHaveLength(1);
    const wanted = area(15) * 26 - area(12) * 21;
    expect(found.pockets[0]!.volume / wanted).toBeCloseTo(1, 3);
    expect(found.pockets[0]!.at[2]).toBeCloseTo(30, 5);
    expect(found.pockets[0]!.saddle[2]).toBeCloseTo(4, 5);
  });

  it('an upside-down cup gated on its bottom traps none, though its inside is a roof', () => {
    const found = pocketsOf(() =>
      kernel
        .frustum([0, 0], 0, 15, 30, 15, 0.01)
        .subtract(kernel.frustum([0, 0], -1, 12, 25, 12, 0.01))
        .add(sprue(0, 0, 29)),
    );
    expect(found).toEqual({ pockets: [], ignored: { count: 0, volume: 0 } });
  });

  it('two nested cups joined at the foot: the inner one is shut in', () => {
    const found = pocketsOf(() =>
      kernel.union([
        kernel.frustum([0, 0], 0, 30, 30, 30, 0.01).subtract(kernel.frustum([0, 0], 4, 26, 25, 26, 0.01)),
        kernel.frustum([0, 0], 3, 15, 20, 15, 0.01).subtract(kernel.frustum([0, 0], 3.5, 12, 16, 12, 0.01)),
        sprue(0, 0, 29),
      ]),
    );
    expect(found.pockets).toHaveLength(1);
    // The void round it and the one within are closed; metal below z = 4 shuts the inner cup's walls and roof.
    expect(found.pockets[0]!.volume / (area(15) * 16 - area(12) * 12)).toBeCloseTo(1, 3);
    expect(found.pockets[0]!.at[2]).toBeCloseTo(20, 5);
  });

  it('a closed void in a block is no pocket of metal: its roof lies inside the piece above', () => {
    const found = pocketsOf(
      () =>
        kernel
          .box([0, 0, 0], [20, 20, 20])
          .subtract(kernel.sphere([10, 10, 10], 5, 0.01))
          .add(sprue(3, 3, 19)),
      0,
    );
    expect(found.pockets).toEqual([]);
  });

  it('an upright ring gated low on one side: everything above the gate', () => {
    const build = (): Solid =>
      kernel
        .revolve(
          Array.from({ length: 48 }, (_, i) => [
            15 + 3 * Math.cos((2 * Math.PI * i) / 48),
            3 * Math.sin((2 * Math.PI * i) / 48),
          ]),
          0.01,
        )
        .rotate('x', Math.PI / 2)
        .translate([0, 0, 18]);
    const found = pocketsOf(() =>
      build().add(kernel.box([17, -1.5, 14], [30, 1.5, 18]), sprue(27, 0, 17, 1)),
    );
    expect(found.pockets).toHaveLength(1);
    const half = kernel.scope(() =>
      build()
        .intersect(kernel.box([-40, -40, 18], [40, 40, 80]))
        .volume(),
    );
    expect(found.pockets[0]!.volume / half).toBeCloseTo(1, 2);
    expect(found.pockets[0]!.at[2]).toBeCloseTo(36, 2);
  });

  it('a stepped block gated on a lower step: the volume above each step', () => {
    const found = pocketsOf(() =>
      kernel.union([
        kernel.box([0, 0, 0], [30, 10, 8]),
        kernel.box([0, 0, 5], [20, 10, 14]),
        kernel.box([0, 0, 5], [10, 10, 20]),
        sprue(26, 5, 7),
      ]),
    );
    expect(found.pockets).toHaveLength(1);
    expect(found.pockets[0]!.volume).toBeCloseTo(200 * 6 + 100 * 6, 3);
    for (const [i, x] of [5, 5, 20].entries()) expect(found.pockets[0]!.at[i]).toBeCloseTo(x, 6);
  });

  it('a plate tilted by 10°, sprue in its middle: the wedge above the sprue’s upper edge', () => {
    const [l, w, h, turn] = [60, 30, 5, (10 * Math.PI) / 180];
    const found = pocketsOf(() =>
      kernel
        .box([-l / 2, -w / 2, 0], [l / 2, w / 2, h])
        .rotate('y', -turn)
        .add(sprue(0, 0, 2)),
    );
    expect(found.pockets).toHaveLength(1);
    // The air leaves by the sprue's edge on the upper side, r / cos away along the plate's top.
    const [p] = found.pockets;
    const along = 2 / Math.cos(turn) + h * Math.tan(turn);
    const length = l / 2 - along;
    // Above the level through that point of the top face: a wedge cut off by the plate's end, its bottom edge below.
    const shut = kernel.scope(() =>
      kernel
        .box([-l / 2, -w / 2, 0], [l / 2, w / 2, h])
        .rotate('y', -turn)
        .intersect(kernel.box([-80, -80, p!.saddle[2]], [80, 80, 80]))
        .volume(),
    );
    expect(length).toBeGreaterThan(0);
    expect(p!.volume / shut).toBeCloseTo(1, 4);
    expect(p!.saddle[0]).toBeCloseTo(2, 1);
    expect(p!.saddle[2]).toBeCloseTo(h / Math.cos(turn) + 2 * Math.tan(turn), 1);
  });

  it('noise of a few µm on a top makes no pocket that is told', () => {
    const mesh = kernel.scope(() =>
      kernel
        .sphere([0, 0, 10], 10, 0.005)
        .add(sprue(0, 0, 15, 3))
        .mesh(),
    );
    const positions = mesh.positions.map((x, i) => x + (x > 55 ? 0 : 0.004 * Math.sin(i * 12.9898)));
    const found = findPockets({ ...mesh, positions }, { openHeight: top - 1e-3 });
    expect(found.pockets).toEqual([]);
    expect(found.ignored.volume).toBeLessThan(5);
  });

  it('without an open top all of it is one pocket', () => {
    const found = pocketsOf(() => kernel.box([0, 0, 0], [20, 20, 10]));
    expect(found.pockets.map((p) => p.volume)).toEqual([4000]);
  });
});
