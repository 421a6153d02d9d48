import { readFileSync } from 'node:fs';
import { beforeAll, describe, expect, it } from 'vitest';
import { make, plate } from '../../cli/api.js';
import { findPockets, leastPocket } from '../../core/foundry/air/index.js';
import type { MadePart } from '../../core/job/make-part.js';
import { leaning } from '../helpers/trap-shapes.js';
import { voxelFlood } from '../helpers/voxel-flood.js';

const gears = ['double-helical-gear', 'spur-gear', 'helical-gear', 'ring-gear', 'rack'] as const;

type Made = Awaited<ReturnType<typeof make>>;
const partsOf = (result: Made): ReadonlyMap<string, MadePart> => {
  if ('refused' in result) throw new Error(JSON.stringify(result.refused));
  return result.parts;
};

/** Pockets from 0.05 ml on, level and leaning by 2° in sixteen ways: eight of them between those that were looked at. */
const offLevel = (part: MadePart) =>
  Array.from({ length: 17 }, (_, i) =>
    findPockets(part.meshes.gated, {
      openHeight: part.gating.topHeight - 1e-3,
      up: leaning(i === 16 ? 0 : (2 * Math.PI) / 180, (i * Math.PI) / 8),
    }),
  ).flatMap(({ pockets }) => pockets);

/** The same by cells, level and leaning towards the middle between two ways. */
const byCells = ({ meshes, gating }: MadePart, cell: number) =>
  [0, 2].flatMap((degrees) =>
    voxelFlood(meshes.gated, {
      openHeight: gating.topHeight,
      cell,
      up: leaning((degrees * Math.PI) / 180, Math.PI / 8),
    }).pockets.filter((p) => p.volume >= leastPocket + (cell * p.faces) / 4),
  );

describe('the demo’s gears with their vents', () => {
  let demo: ReadonlyMap<string, MadePart>;
  beforeAll(async () => {
    demo = partsOf(await plate(`freeze: off\n${readFileSync('gallery/ropewalk/job.yaml', 'utf8')}`));
  });

  for (const name of ['main-wheel', 'strand-pinion', 'layer-top-gear', 'tension-pinion'])
    it(`${name} of the ropewalk keeps no air from 0.05 ml on, level or 2° off`, () => {
      const part = demo.get(name)!;
      expect(offLevel(part)).toEqual([]);
      expect(part.air.left).toEqual([]);
      expect(part.air.offLevel.left).toMatchObject({ volume: 0, places: 0 });
    });

  it('nor does any other part of the ropewalk', () => {
    expect([...demo].filter(([, part]) => offLevel(part).length > 0).map(([name]) => name)).toEqual([]);
  });
});

for (const name of gears)
  it(`make ${name}: with its vents none from 0.05 ml on, level or 2° off, by the search and by cells`, async () => {
    for (const part of partsOf(await make(name, {}, { freeze: 'off' })).values()) {
      expect(offLevel(part)).toEqual([]);
      expect(byCells(part, 0.8)).toEqual([]);
    }
  });
