import { beforeAll, describe, expect, it } from 'vitest';
import { findPockets } from '../../../../core/foundry/air/pockets.js';
import { loadKernel, measureMesh } from '../../../../core/solid/index.js';
import type { Kernel } from '../../../../core/solid/types.js';
import { expectAsFlooded } from '../../../helpers/expect-pockets.js';
import { leaning, meshOf, openTop, trapShapes } from '../../../helpers/trap-shapes.js';
import { voxelFlood } from '../../../helpers/voxel-flood.js';

let kernel: Kernel;
beforeAll(async () => {
  kernel = await loadKernel();
});

describe('known shapes against a flood of cells', () => {
  for (const [name, { traps, build }] of Object.entries(trapShapes)) {
    it(`${name}: ${traps} ${traps === 1 ? 'trap' : 'traps'}`, () => {
      const mesh = meshOf(kernel, build);
      for (const cell of [1, 0.5])
        expect(expectAsFlooded(mesh, { openHeight: openTop, cell }).count).toBe(traps);
    });

    it(`${name}, leaning by 7° one way or another`, () => {
      const mesh = meshOf(kernel, build);
      for (const azimuth of name.startsWith('siphon') ? [0.3, 2.4, 4.5] : [0.4 * name.length])
        expectAsFlooded(mesh, { openHeight: openTop, cell: 0.5, up: leaning((7 * Math.PI) / 180, azimuth) });
    });
  }

  it('the cells’ volume comes to the mesh’s as they shrink', () => {
    const mesh = meshOf(kernel, trapShapes['ring lying flat, gated from its side']!.build);
    const { volume, area } = measureMesh(mesh);
    for (const cell of [1.2, 0.6, 0.3]) {
      const flooded = voxelFlood(mesh, { openHeight: openTop, cell }).volume;
      expect(Math.abs(flooded - volume)).toBeLessThan((0.02 * cell * area) / 0.3);
    }
  });
});

describe('what lies behind a pocket', () => {
  const volumeIn = (name: string): number =>
    findPockets(meshOf(kernel, trapShapes[name]!.build), { openHeight: openTop - 1e-3 }).pockets[0]!.volume;

  it('the far leg of an arch gated at one foot stays empty down to its foot; gated at both it fills to the runners', () => {
    // A leg of 4 mm radius from the floor up to the runner's roof at 6 mm; its circle has sides.
    const leg = kernel.scope(() => kernel.frustum([0, 0], 0, 4, 6, 4, 0.01).volume());
    const [one, both] = ['arch gated at one foot: crown and the other leg', 'arch gated at both feet'];
    expect(volumeIn(one) - volumeIn(both)).toBeCloseTo(leg, 1);
  });

  it('a siphon shuts in all of a blind vessel: everything past the first mouth but the metal under its roof', () => {
    const past = kernel.scope(() =>
      kernel
        .union([
          kernel.box([-2, -2.5, 0], [2, 2.5, 20]),
          kernel.box([-2, -2.5, 15], [12, 2.5, 20]),
          kernel.box([8, -2.5, 2], [12, 2.5, 20]),
          kernel.box([8, -2.5, 2], [24, 2.5, 6]),
          kernel.frustum([24, 0], 0, 4, 30, 4, 0.01),
        ])
        .volume(),
    );
    expect(volumeIn('siphon into a blind vessel')).toBeCloseTo(past - 4 * 5 * 4, 1);
  });
});
