/** A whole gear in plaster, filled and frozen: what the numbers come to, and which way they go. */
import { expect, test } from 'vitest';
import { ventGating } from '../../../../core/foundry/air/index.js';
import { findAlloy } from '../../../../core/foundry/alloys/index.js';
import { type GatingInput, gatingMetal, planGating } from '../../../../core/foundry/gating/index.js';
import { findInvestment } from '../../../../core/foundry/investment.js';
import { freezeCells } from '../../../../core/freeze/cast-heat.js';
import { cellRoles } from '../../../../core/freeze/cell-roles.js';
import { fillMould } from '../../../../core/freeze/fill/fill-mould.js';
import { flowProblemOf } from '../../../../core/freeze/fill/passages.js';
import { blockGrid, insideCylinder } from '../../../../core/freeze/mould-block.js';
import { fillShares } from '../../../../core/freeze/voxels.js';
import { noStock } from '../../../../core/part/stock.js';
import { loadKernel, measureBounds, measureMesh, measurePlanRadius } from '../../../../core/solid/index.js';
import type { Box } from '../../../../core/solid/types.js';
import spur from '../../../../generators/spur-gear.js';

test('module 2, 17 teeth, 10 mm wide, tin bronze: fills in the pouring time, its teeth several times over', async () => {
  const kernel = await loadKernel();
  const investment = findInvestment('gypsum-bonded')!;
  const alloy = findAlloy('tin-bronze')!;
  kernel.scope(() => {
    const parameters = spur.parameters.parse({ teeth: 17, module: 2, faceWidth: 10 });
    const part = spur.build(parameters, noStock, { kernel, tolerance: 0.02 });
    if (part.solid === null) throw new Error('refused');
    const standing = part.solid.mesh();
    const { volume, area } = measureMesh(standing);
    const { min, max } = measureBounds(standing) as Box;
    const input: GatingInput = {
      gates: part.gates,
      vents: part.vents,
      casting: {
        volume,
        area,
        mass: volume * alloy.liquidDensity,
        top: max[2],
        bottom: min[2],
        radius: measurePlanRadius(standing),
      },
      metal: gatingMetal(alloy, investment),
    };
    const { gated: solid, gating } = ventGating(planGating(input), input, standing, kernel, 0.02);
    const gated = solid.mesh();
    const grid = blockGrid({ gated, standing, mould: { kind: 'flask', insideDiameter: 80, floor: 12 } }, 1.6);
    const [share, own] = [fillShares(gated, grid), fillShares(standing, grid)];
    const cells = {
      grid,
      edge: 1.6,
      share,
      present: insideCylinder(grid),
      role: cellRoles(grid, share, own, gating),
      exposed: [Math.PI / 4, Math.PI / 4, 1] as const,
    };
    const flow = flowProblemOf(gating, alloy.liquidDensity);
    const pour = (mould: number, metal: number) => {
      const { stopsAt } = freezeCells(
        cells,
        { alloy, investment },
        { metal: alloy.liquidus + metal, mould, delay: 0, stands: 'in its flask' },
        {},
      );
      return fillMould({ ...cells, stopsAt, flow }).plan;
    };
    const hot = pour(500, 100);
    expect(hot.unreached).toBe(0);
    expect(hot.history.at(-1)!.volume / measureMesh(gated).volume).toBeCloseTo(1, 2);
    // The sprue's share of the time comes before.
    expect(hot.castings).toBeGreaterThan(gating.fill.pourTime);
    expect(hot.castings).toBeLessThan(1.6 * gating.fill.pourTime);
    // Teeth of some 3 mm, by Chvorinov (B 15.6 s/mm², V/A 0.8 to 1.3 mm) 10 to 26 s to freeze, three tenths in a third of
    // that or more, and the rim behind them feeds them heat; a second and a half to fill.
    expect(hot.margin).toBeGreaterThan(3);
    expect(hot.margin).toBeLessThan(40);
    expect(Math.hypot(hot.marginAt[0], hot.marginAt[1])).toBeGreaterThan(15);
    // A colder mould and colder metal bring it nearer to a misrun.
    expect(pour(300, 100).margin).toBeLessThan(0.7 * hot.margin);
    expect(pour(500, 20).margin).toBeLessThan(hot.margin);
    return null;
  });
});
