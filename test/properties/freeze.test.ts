import fc from 'fast-check';
import { beforeAll, expect, it } from 'vitest';
import { alloys } from '../../core/foundry/alloys/index.js';
import { investments } from '../../core/foundry/investment.js';
import { leastShare } from '../../core/freeze/cast-fields.js';
import {
  contactResistance,
  freezingMetal,
  mouldSubstance,
  surroundingsOf,
} from '../../core/freeze/cast-substances.js';
import { mixedStart, runFreeze } from '../../core/freeze/freeze.js';
import { blockGrid, insideCylinder } from '../../core/freeze/mould-block.js';
import { fillShares } from '../../core/freeze/voxels.js';
import { loadKernel } from '../../core/solid/kernel.js';
import { measureBounds } from '../../core/solid/mesh-bounds.js';
import type { Box, Kernel, Solid, Vec3 } from '../../core/solid/types.js';

let kernel: Kernel;
beforeAll(async () => {
  kernel = await loadKernel();
});

interface Lump {
  readonly kind: 'box' | 'sphere' | 'cylinder' | 'blade';
  readonly at: Vec3;
  readonly size: number;
}

// Hundredths of a millimetre, walls from half a millimetre.
const place = fc.integer({ min: -1200, max: 1200 }).map((v) => v / 100);
const part = fc.array(
  fc.record<Lump>({
    kind: fc.constantFrom('box', 'sphere', 'cylinder', 'blade'),
    at: fc.tuple(place, place, place),
    size: fc.integer({ min: 100, max: 1400 }).map((v) => v / 100),
  }),
  { minLength: 1, maxLength: 5 },
);
const lumpOf = ({ kind, at: [x, y, z], size }: Lump): Solid => {
  if (kind === 'sphere') return kernel.sphere([x, y, z], size / 2, 0.05);
  if (kind === 'cylinder') return kernel.frustum([x, y], z, size / 2, z + size, size / 3, 0.05);
  return kernel.box([x, y, z], [x + size, y + (kind === 'blade' ? 0.5 : size), z + size]);
};

const setting = fc.record({
  lumps: part,
  alloy: fc.constantFrom(...alloys),
  investment: fc.constantFrom(...investments),
  stands: fc.constantFrom('in its flask' as const, 'bare' as const, 'in dry sand' as const),
  /** K over the liquidus; °C of the mould as far as from the room to nearly the solidus. */
  superheat: fc.integer({ min: 0, max: 250 }),
  preheat: fc.double({ min: 0, max: 0.95, noNaN: true }),
  step: fc.constantFrom(1, 1.5, 2.5),
  touching: fc.boolean(),
  wall: fc.integer({ min: 3, max: 25 }),
});

it('random castings freeze: no NaN, nothing colder than the coldest or hotter than the pour, all solid, heat kept (120, seed 20261126)', () => {
  fc.assert(
    fc.property(setting, ({ lumps, alloy, investment, stands, superheat, preheat, step, touching, wall }) => {
      const mesh = kernel.scope(() => kernel.union(lumps.map(lumpOf)).mesh());
      const { min, max } = measureBounds(mesh) as Box;
      const insideDiameter = Math.hypot(max[0] - min[0], max[1] - min[1]) + 2 * wall;
      const grid = blockGrid(
        { gated: mesh, standing: mesh, mould: { kind: 'flask', insideDiameter, floor: wall } },
        step,
      );
      const present = insideCylinder(grid);
      // Uprights no farther apart than the thinnest wall.
      const share = fillShares(mesh, grid, Math.max(3, Math.ceil(step / 0.45)));
      const metal = freezingMetal(alloy);
      const mould = mouldSubstance(investment);
      const surroundings = surroundingsOf(stands, alloy.family);
      const pour = metal.liquidus + superheat;
      const cold = 20 + preheat * (metal.solidus - 20);
      const coldest = Math.min(cold, surroundings.temperature);
      const { field, solidAt, stopsAt, gradient, coolingRate, facePeak, total, imbalance } = runFreeze({
        grid,
        present,
        share,
        metal,
        mould,
        contactResistance: touching ? 0 : contactResistance,
        surroundings,
        start: mixedStart({ share, metal, mould }, pour, cold),
      });

      expect(total).toBeGreaterThan(0);
      expect(Number.isFinite(total)).toBe(true);
      expect(imbalance).toBeLessThan(1e-3);
      for (let c = 0; c < grid.size; c++) {
        const t = field.temperature[c]!;
        // NaN fails these too; single precision may be a few hundredths off.
        if (!(t >= coldest - 0.1 && t <= pour + 0.1))
          expect([c, t]).toEqual([c, 'between the coldest and the pour']);
        const sums = solidAt[c]! + stopsAt[c]! + gradient[c]! + coolingRate[c]! + facePeak[c]!;
        if (!(sums >= 0 && sums < 1e9)) expect([c, sums]).toEqual([c, 'finite']);
        if (present[c] === 0 || share[c]! < leastShare) continue;
        if (!(stopsAt[c]! > 0 && solidAt[c]! >= stopsAt[c]!))
          expect([c, stopsAt[c], solidAt[c]]).toEqual([c, 'stops', 'then solid']);
        if (!(t <= metal.solidus + 0.1)) expect([c, t]).toEqual([c, 'solid']);
      }
    }),
    { seed: 20261126, numRuns: 120 },
  );
});
