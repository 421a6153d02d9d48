import type { Investment } from '../../foundry/investment.js';
import type { CastFields } from '../cast-fields.js';
import { cellMiddle } from '../grid.js';
import type { FreezePlan } from '../plans.js';

/**
 * The hottest that the mould's face gets, and where. A face that metal touches comes at once to a temperature between
 * both by their heat effusivities √(kρc) (H. S. Carslaw and J. C. Jaeger, Conduction of Heat in Solids): with bronze on
 * plaster within 5 % of their difference of the metal's own. It stays there only while the superheat lasts, as does the
 * poured metal, so what it must not pass is the hottest metal that the investment takes. What it holds while the metal
 * freezes is near the liquidus: by that `checkInvestment` judges the alloy.
 */
export function readFacePeak(
  { grid, facePeak }: CastFields,
  investment: Pick<Investment, 'maxMetal'>,
): FreezePlan['facePeak'] {
  let hottest = 0;
  for (let c = 1; c < grid.size; c++) if (facePeak[c]! > facePeak[hottest]!) hottest = c;
  return { temperature: facePeak[hottest]!, at: cellMiddle(grid, hottest), limit: investment.maxMetal };
}
